"""The vocabulary is one: a name, a unit, a meaning."""

import re

import pytest

from geo.reference.number import UNITS
from geo.season import VOCABULARY, Variable
from geo.season import variables as v

DIMENSIONS = {value for name, value in vars(v).items() if isinstance(value, str) and name.isupper()}
# Of what is read or shown only; no table of numbers has them. A rival rule has its own unit.
OTHER_UNITS = {"ha", "degree", "g m-3", "any"}


@pytest.mark.parametrize("variable", VOCABULARY.values(), ids=VOCABULARY)
def test_a_word_of_the_vocabulary_is_whole(variable: Variable) -> None:
    assert re.fullmatch(r"[a-z_]+", variable.name)
    assert variable.unit in UNITS | OTHER_UNITS
    assert set(variable.dims) <= DIMENSIONS
    assert variable.meaning[0].isupper() or variable.meaning[0].isdigit()
    assert variable.low <= variable.high
    assert vars(v)[variable.name.upper()] is variable
