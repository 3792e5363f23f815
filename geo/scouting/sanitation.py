"""Where is cutting out infected panicles worth a thought, and what is not known of it?"""

import numpy as np
import xarray as xr

from geo.reference.diseases import disease_with
from geo.reference.number import numbers, values
from geo.season.disease import disease_key
from geo.season.farm import Farm

PANICLE = "panicle"


def sanitation_words(
    farm: Farm, season: xr.Dataset, block: int, *, infected: float, inspected: float
) -> str:
    """
    Return the option of cutting out infected panicles, with what is known of it.

    Parameters
    ----------
    farm : Farm
        With the years of planting.
    season : xarray.Dataset
        Of the disease.
    block : int
        Its place.
    infected, inspected : [1]
        Of the newest count; 0 where there is none within the visit interval.

    Returns
    -------
    str
        Empty where it does not apply: nothing found, too much found, large trees, another organ.
    """
    disease = disease_with(disease_key(season))
    table = values("scouting", "sanitation")
    if disease.organ != PANICLE or not 0 < infected <= table["most_share"] * inspected:
        return ""
    planted = float(farm.blocks["planted"].to_numpy()[block])
    if farm.today.year - planted > table["most_age"]:
        return ""
    trees = "where trees are small" if np.isnan(planted) else f"on trees planted {planted:.0f}"
    effect = numbers("epidemic")[disease.key, "removal_effect"]
    return (
        f"An option {trees}: cut out infected panicles early and carry them away. Evidence is "
        "thin: guides advise it, and no trial of it on mango was found. One round is taken to take "
        f"out {effect.value * 100:.0f} % of what shows ({effect.low * 100:.0f} to "
        f"{effect.high * 100:.0f} %, assumed); hidden infection stays in, each panicle cut is "
        "fruit lost, and it does not take the place of a spray. "
        'Write it into the diary as "panicle removal" and the next run counts it.'
    )
