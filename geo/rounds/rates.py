"""How much product goes into a load, by the rate that the user copied from the label?"""

import re
from dataclasses import dataclass
from math import isfinite

from geo.season.label import Label

HECTARES_PER_ACRE = 0.40468564224  # by the international yard of 0.9144 m
LITRES_PER_GALLON = 3.785411784  # of 231 cubic inches of 25.4 mm each
# What a rate may be counted for: hectares, or litres of liquid.
_HECTARES = {"ha": 1.0, "hectare": 1.0, "ac": HECTARES_PER_ACRE, "acre": HECTARES_PER_ACRE}
_LITRES = {"l": 1.0, "litre": 1.0, "liter": 1.0, "hl": 100.0, "gal": LITRES_PER_GALLON}
_UNITS = ("g", "kg", "ml", "l", "lb", "lbs", "oz", "fl oz", "pt", "qt", "gal")
_WRITTEN = re.compile(r"^([a-z ]+?)\s*(?:/|per)\s*(\d+)?\s*([a-z]+)$")


@dataclass(frozen=True, slots=True)
class Rate:
    """
    A label's rate.

    Attributes
    ----------
    amount : float
        Of product.
    unit : str
        Of the amount, as written.
    hectares, litres : float or None
        What the amount is for: one of the two.
    """

    amount: float
    unit: str
    hectares: float | None
    litres: float | None


def rate_of(label: Label | None) -> Rate | None:
    """
    Return a label's rate.

    Parameters
    ----------
    label : Label or None
        The user's row of a material.

    Returns
    -------
    Rate or None
        None where no rate is written down, or its unit is not understood. Nothing is guessed.

    Examples
    --------
    >>> rate_of(Label("sulfur", rate=300.0, rate_unit="g/100 L"))
    Rate(amount=300.0, unit='g', hectares=None, litres=100.0)
    """
    if label is None or not isfinite(label.rate):
        return None
    written = _WRITTEN.match(label.rate_unit.strip().lower())
    if written is None:
        return None
    unit, count, basis = written[1].strip(), float(written[2] or 1), written[3]
    if unit not in _UNITS or not count or basis not in _HECTARES | _LITRES:
        return None
    as_written = label.rate_unit.strip()[: len(unit)]
    of_area = _HECTARES.get(basis)
    return Rate(
        amount=label.rate,
        unit=as_written,
        hectares=None if of_area is None else of_area * count,
        litres=None if of_area is not None else _LITRES[basis] * count,
    )


def amount_of(rate: Rate, *, hectares: float, litres: float) -> float:
    """
    Return how much product a load takes.

    Parameters
    ----------
    rate : Rate
        As on the label.
    hectares : [ha]
        Sprayed from the load.
    litres : [L]
        Of the load.

    Returns
    -------
    float
        In the rate's unit.
    """
    if rate.hectares is not None:
        return rate.amount * hectares / rate.hectares
    return rate.amount * litres / (rate.litres or 1.0)
