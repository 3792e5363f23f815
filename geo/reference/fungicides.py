"""Active ingredients: what they do to panicle mildew, and how long. Rates are the label's."""

from dataclasses import dataclass
from functools import cache

from geo.reference.number import numbers, read_rows, values

TABLE = "fungicides"


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
    efficacy : float
        Share of panicle mildew prevented when fresh.
    half_life : float
        Days in which dry weather halves it.
    halving_rain : float
        Millimetres of rain that halve it.
    drying_hours : float
        Hours it must stay dry after the spray.
    standing : str
        Standing of the efficacy.
    note : str
        Where the efficacy comes from.
    """

    material: str
    frac_code: str
    mobility: str
    efficacy: float
    half_life: float
    halving_rain: float
    drying_hours: float
    standing: str
    note: str


@cache
def fungicides() -> dict[str, Fungicide]:
    """
    Return the materials of the tables by name.

    Returns
    -------
    dict of str to Fungicide
        In the table's order.
    """
    known = {}
    for row in read_rows("materials"):
        material, mobility = row["material"], row["mobility"]
        efficacy = numbers(TABLE)[material, "panicle_mildew_efficacy"]
        weathering = values(TABLE, mobility)
        known[material] = Fungicide(
            material=material,
            frac_code=row["frac_code"],
            mobility=mobility,
            efficacy=efficacy.value,
            half_life=weathering["half_life"],
            halving_rain=weathering["halving_rain"],
            drying_hours=weathering["drying_hours"],
            standing=efficacy.standing,
            note="; ".join(part for part in (efficacy.where, efficacy.note) if part),
        )
    return known
