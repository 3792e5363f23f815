"""On which days does recent heat hold back the sporulation of mildew?"""

from dataclasses import dataclass, fields

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.reference.number import values
from geo.season.days import day_sum


@dataclass(frozen=True, slots=True)
class HeatStop:
    """
    The parameters of heat on mildew; the fields are rows of ``mildew.csv``.

    Attributes
    ----------
    heat_stop_temperature, heat_stop_hours : float
        [degC], [h] Hours of a day so hot, and how many of them are too many.
    heat_kill_temperature, heat_kill_hours : float
        [degC], [h] The same for greater heat.
    heat_weight : float
        [1] What is left of sporulation.
    heat_days : float
        [d] How long, with the hot day counted.
    """

    heat_stop_temperature: float
    heat_stop_hours: float
    heat_kill_temperature: float
    heat_kill_hours: float
    heat_weight: float
    heat_days: float


def heat_stop_parameters() -> HeatStop:
    """
    Return the parameters of heat on mildew from the reference table.

    Returns
    -------
    HeatStop
        The defaults.
    """
    table = values("mildew", "panicle mildew")
    return HeatStop(**{field.name: table[field.name] for field in fields(HeatStop)})


def heat_weight(air_temperature: FloatArray, heat: HeatStop, *, starts: IntArray) -> FloatArray:
    """
    Return what recent heat leaves of each day's sporulation.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    heat : HeatStop
        Limits and size.
    starts : [1]
        First hour of each day, shape (day,).

    Returns
    -------
    [1]
        Shape (spot, day): the weight on a hot day and those after it, else 1. Hot days do not
        add up. NaN where an unknown hour could have made a day hot.

    Notes
    -----
    The limits are borrowed from grape mildew (peduto2013): lethal effects from 36 to 38 degC, and
    exposure time as important as heat, with 38 degC for 2 hours as the revised rule. No heat
    kill of mango mildew was found; half the spores for three days is our own judgement. The
    response to temperature, which is 0 in such heat anyway, is another matter.
    """
    could_be = np.isnan(air_temperature)
    is_hot = np.zeros((air_temperature.shape[0], starts.size), dtype=bool)
    may_be_hot = is_hot.copy()
    for limit, hours in (
        (heat.heat_stop_temperature, heat.heat_stop_hours),
        (heat.heat_kill_temperature, heat.heat_kill_hours),
    ):
        reached = air_temperature >= limit
        is_hot |= _hours(reached, starts) >= hours
        may_be_hot |= _hours(reached | could_be, starts) >= hours
    held, may_be_held = (_kept_up(days, int(heat.heat_days)) for days in (is_hot, may_be_hot))
    weight: FloatArray = np.where(held, heat.heat_weight, np.where(may_be_held, np.nan, 1.0))
    return weight


def _hours(is_so: BoolArray, starts: IntArray) -> FloatArray:
    """Return how many hours of each day it is so."""
    # Bytes count up to 127, and a day has 25 hours at most.
    return day_sum(is_so.view(np.int8), starts)


def _kept_up(is_so: BoolArray, days: int) -> BoolArray:
    """Return whether it was so on a day or on one of the days just before."""
    kept = is_so.copy()
    for back in range(1, min(days, is_so.shape[1])):
        kept[:, back:] |= is_so[:, :-back]
    return kept
