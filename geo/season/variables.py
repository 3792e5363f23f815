"""The vocabulary: one name, one unit, one meaning for every quantity that travels."""

from geo.season.dimensions import *  # noqa: F403 - one vocabulary, in files of a screen each
from geo.season.variable import Variable
from geo.season.variables_of_inputs import *  # noqa: F403
from geo.season.variables_of_risk import *  # noqa: F403
from geo.season.variables_of_weather import *  # noqa: F403

VOCABULARY: dict[str, Variable] = {
    item.name: item for item in list(globals().values()) if isinstance(item, Variable)
}
