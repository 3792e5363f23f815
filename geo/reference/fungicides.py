"""Active ingredients: what they do to each disease, and how long. Rates are the label's."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from geo.reference.number import Number, numbers, read_rows, subjects, values

TABLE = "fungicides"
# By the key of the disease.
EFFICACY = {
    "panicle_mildew": "panicle_mildew_efficacy",
    "leaf_mildew": "leaf_mildew_efficacy",
    "blossom_anthracnose": "blossom_anthracnose_efficacy",
    "fruit_anthracnose": "fruit_anthracnose_efficacy",
}
WEATHERING = ("half_life", "halving_rain", "drying_hours")
# Kinds of sprayer that a coverage is assumed for.
SPRAYERS = ("airblast", "handgun", "knapsack", "hose_end")
REPORTED = " as in "


@dataclass(frozen=True, slots=True)
class Fungicide:
    """
    An active ingredient.

    Attributes
    ----------
    material : str
        Its name in lower case.
    frac_code : str
        Cross-resistance code.
    mobility : str
        ``contact`` or ``systemic``.
    efficacy : mapping of str to Number
        Share of a disease prevented when fresh, by the disease's key.
    half_life : float
        Days in which dry weather halves it.
    halving_rain : float
        Millimetres of rain that halve it.
    drying_hours : float
        Hours it must stay dry after the spray.
    curative_reach : float
        Days before the spray whose infections it still reaches; 0 for a protectant.
    information : str
        What else is known of it, and how well.
    """

    material: str
    frac_code: str
    mobility: str
    efficacy: Mapping[str, Number]
    half_life: float
    halving_rain: float
    drying_hours: float
    curative_reach: float
    information: str


@cache
def fungicides() -> dict[str, Fungicide]:
    """
    Return the materials of the tables by name.

    Returns
    -------
    dict of str to Fungicide
        In the table's order. How a material weathers is its group's (contact or systemic) but
        where the table has a row of its own.
    """
    table = numbers(TABLE)
    known = {}
    for row in read_rows("materials"):
        material, mobility, code = row["material"], row["mobility"], row["frac_code"]
        weathering = values(TABLE, mobility) | values(TABLE, material)
        reach = table.get((code, "curative_reach"))
        known[material] = Fungicide(
            material=material,
            frac_code=code,
            mobility=mobility,
            efficacy={key: table[material, quantity] for key, quantity in EFFICACY.items()},
            **{name: weathering[name] for name in WEATHERING},
            curative_reach=reach.value if reach and mobility == "systemic" else 0.0,
            information=row["note"],
        )
    return known


def reports(material: str) -> dict[tuple[str, str], Number]:
    """
    Return what sources say of a material other than what is reckoned with.

    Parameters
    ----------
    material : str
        As in the table.

    Returns
    -------
    dict of tuple to Number
        Keys are (source, quantity). They contradict the material's own rows or each other, and
        are kept beside them, not averaged with them; nothing is computed from them.
    """
    return {
        (subject.partition(REPORTED)[2], quantity): number
        for subject in subjects(TABLE)
        for (who, quantity), number in numbers(TABLE).items()
        if who == subject and subject.startswith(f"{material}{REPORTED}")
    }


def coverage(sprayer: str | None) -> Number:
    """
    Return the share of the tissue that a sprayer's drops reach.

    Parameters
    ----------
    sprayer : str or None
        One of `SPRAYERS`; None where it is not known.

    Returns
    -------
    Number
        Assumed.
    """
    return numbers(TABLE)[sprayer or "any", "coverage"]
