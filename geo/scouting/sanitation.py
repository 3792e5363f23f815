"""Where is cutting out infected panicles worth a thought, and what is not known of it?"""

from math import isnan

from geo.reference.diseases import Disease
from geo.reference.number import numbers, values

PANICLE = "panicle"


def sanitation_words(disease: Disease, *, years: float, infected: float, inspected: float) -> str:
    """
    Return the option of cutting out infected panicles, with what is known of it.

    Parameters
    ----------
    disease : Disease
        What was found.
    years : [a]
        Since planting, NaN where unknown.
    infected, inspected : [1]
        Of the newest count, if it is fresh.

    Returns
    -------
    str
        Empty where it does not apply: nothing found, too much found, large trees, another organ.
    """
    table = values("scouting", "sanitation")
    if disease.organ != PANICLE or not 0 < infected <= table["most_share"] * inspected:
        return ""
    if years > table["most_age"]:
        return ""
    trees = "where trees are small" if isnan(years) else f"on trees planted {_ago(years)}"
    effect = numbers("epidemic")[disease.key, "removal_effect"]
    return (
        f"An option {trees}: cut out infected panicles early and carry them away. Evidence is "
        "thin: guides advise it, and no trial of it on mango was found. One round is taken to take "
        f"out {effect.value * 100:.0f} % of what shows ({effect.low * 100:.0f} to "
        f"{effect.high * 100:.0f} %, assumed); hidden infection stays in, each panicle cut is "
        "fruit lost, and it does not take the place of a spray. "
        'Write it into the diary as "panicle removal" and the next run counts it.'
    )


def _ago(years: float) -> str:
    if years < 1:
        return "this year"
    return "last year" if years == 1 else f"{years:.0f} years ago"
