"""How many hours of each day does the field rule call mildew weather?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.reference.number import values
from geo.season.days import day_sum


@dataclass(frozen=True, slots=True)
class FieldRule:
    """
    The window of the field rule; rows of ``rival_rules.csv``.

    Attributes
    ----------
    coolest, warmest : float
        [degC] Air, both ends included.
    driest, dampest : float
        [%] Relative humidity, both ends included.
    """

    coolest: float
    warmest: float
    driest: float
    dampest: float


def field_rule_parameters() -> FieldRule:
    """
    Return the window from the reference table.

    Returns
    -------
    FieldRule
        As handed down.
    """
    return FieldRule(**values("rival_rules", "field rule"))


def field_rule_hours(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    precipitation: FloatArray,
    rule: FieldRule,
    *,
    starts: IntArray,
) -> FloatArray:
    """
    Return the hours of each day that are cool, humid and free of rain.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    relative_humidity : [%]
        Same shape.
    precipitation : [mm]
        Shape (hour,).
    rule : FieldRule
        The window.
    starts : [1]
        First hour of each day, shape (day,).

    Returns
    -------
    [h]
        Shape (spot, day); NaN where an unknown hour could have counted.

    Notes
    -----
    Common practice, no source: no publication of this window was found. The published optimum
    of germination, 22-23 degC, lies outside it.
    """
    is_out = (
        (air_temperature < rule.coolest)
        | (air_temperature > rule.warmest)
        | (relative_humidity < rule.driest)
        | (relative_humidity > rule.dampest)
        | (precipitation > 0.0)
    )
    is_unknown = np.isnan(air_temperature + relative_humidity + precipitation)
    counted = np.where(is_out, 0.0, np.where(is_unknown, np.nan, 1.0))
    return day_sum(counted, starts)
