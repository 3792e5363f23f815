"""Where is cutting out infected panicles worth a thought, and what is not known of it?"""

from math import isnan

from geo.reference.diseases import Disease
from geo.reference.number import numbers, values
from geo.texts import phrase, phrases

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
    effect = numbers("epidemic")[disease.key, "removal_effect"]
    evidence = phrase(
        "Evidence is thin: guides advise it, and no trial of it on mango was found. One round is "
        "taken to take out {share:.0f} % of what shows ({low:.0f} to {high:.0f} %, assumed); "
        "hidden infection stays in, each panicle cut is fruit lost, and it does not take the place "
        'of a spray. Write it into the diary as "panicle removal" and the next run counts it.',
        share=effect.value * 100,
        low=effect.low * 100,
        high=effect.high * 100,
    )
    return f"{_option(years)} {evidence}"


def _option(years: float) -> str:
    if isnan(years):
        return phrase(
            "An option where trees are small: cut out infected panicles early and carry them away."
        )
    if years < 1:
        return phrase(
            "An option on trees planted this year: cut out infected panicles early and carry them "
            "away."
        )
    if years == 1:
        return phrase(
            "An option on trees planted last year: cut out infected panicles early and carry them "
            "away."
        )
    return phrases(
        "An option on trees planted {count} year ago: cut out infected panicles early and carry "
        "them away.",
        "An option on trees planted {count} years ago: cut out infected panicles early and carry "
        "them away.",
        round(years),
    )
