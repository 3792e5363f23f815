"""How far is each wet period on the way to infection, by the generic wetness model?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.infection.temperature_response import response_yan1999
from geo.reference.number import values
from geo.season.days import day_extremes


@dataclass(frozen=True, slots=True)
class WetnessNeed:
    """
    The parameters of the generic model for one pathogen.

    Attributes
    ----------
    temperature_minimum, temperature_optimum, temperature_maximum : float
        [degC] Cardinal temperatures of infection.
    wet_hours_least : float
        [h] Wet hours needed at the optimum.
    wet_hours_most : float
        [h] Most that are asked for between the cardinal temperatures.
    dry_hours_that_halve : float
        [h] Wet periods no further apart are joined.
    """

    temperature_minimum: float
    temperature_optimum: float
    temperature_maximum: float
    wet_hours_least: float
    wet_hours_most: float
    dry_hours_that_halve: float


def anthracnose_need() -> WetnessNeed:
    """
    Return our estimates for anthracnose; the model's own table was not at hand.

    Returns
    -------
    WetnessNeed
        Cardinal temperatures as in our own model, the rest assumed.
    """
    cardinal = ("temperature_minimum", "temperature_optimum", "temperature_maximum")
    table = values("anthracnose", "anthracnose")
    ours = {name: table[name] for name in cardinal}
    return WetnessNeed(**ours, **values("rival_rules", "generic wetness"))


def wet_hours_needed(air_temperature: FloatArray, need: WetnessNeed) -> FloatArray:
    r"""
    Return the wet hours needed for infection at a temperature.

    Parameters
    ----------
    air_temperature : [degC]
        Mean of the wet period, any shape.
    need : WetnessNeed
        Of the pathogen.

    Returns
    -------
    [h]
        Same shape; infinite at and outside the cardinal limits, where nothing infects. NaN stays
        NaN.

    Notes
    -----
    :math:`W(T) = W_{min} / f(T)`, at most :math:`W_{max}` inside the limits (magarey2005). The
    criterion is 20 % incidence or 5 % severity.

    Examples
    --------
    >>> demo = WetnessNeed(7.0, 18.0, 30.0, 10.0, 42.0, 0.0)
    >>> wet_hours_needed(np.array([5.0, 8.0, 10.0, 18.0]), demo).round(3).tolist()
    [inf, 42.0, 19.742, 10.0]
    """
    response = response_yan1999(
        air_temperature,
        minimum=need.temperature_minimum,
        optimum=need.temperature_optimum,
        maximum=need.temperature_maximum,
    )
    is_outside = response == 0.0
    hours = need.wet_hours_least / np.where(is_outside, 1.0, response)
    needed: FloatArray = np.where(is_outside, np.inf, np.minimum(hours, need.wet_hours_most))
    return needed


def share_of_wet_hours_needed(
    air_temperature: FloatArray, wet: FloatArray, need: WetnessNeed, *, starts: IntArray
) -> FloatArray:
    """
    Return the highest share of the wet hours needed that the wet hours of each day reached.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    wet : [1]
        Same shape: 1 wet, 0 dry, NaN unknown.
    need : WetnessNeed
        Of the pathogen.
    starts : [1]
        First hour of each day, shape (day,).

    Returns
    -------
    [1]
        Shape (spot, day): 1 and more is infection by the model's criterion.

    Notes
    -----
    A period's temperature is the mean of its wet hours. Periods are summed over a dry gap up to
    the hours that halve disease, and held apart over a longer one (magarey2005). An unknown
    hour leaves the period unknown until such a gap ends it; midnight does not end it.
    """
    hours, warmth = _running_sums(air_temperature, wet, need.dry_hours_that_halve)
    mean = warmth / np.where(hours == 0.0, 1.0, hours)
    reached = np.where(wet == 0.0, 0.0, (hours / wet_hours_needed(mean, need)).T)
    return day_extremes(reached, starts)[1]


def _running_sums(
    air_temperature: FloatArray, wet: FloatArray, longest_gap: float
) -> tuple[FloatArray, FloatArray]:
    """Return wet hours of the period and their temperatures added up, shape (hour, spot)."""
    spots, count = wet.shape
    is_dry = (wet == 0.0).T
    added = np.stack([wet.T, np.where(is_dry, 0.0, (wet * air_temperature).T)])
    running = np.empty((2, count, spots))
    sums, dry_hours = np.zeros((2, spots)), np.zeros(spots)
    for hour in range(count):
        dry_hours = (dry_hours + 1.0) * is_dry[hour]
        sums = np.where(dry_hours > longest_gap, 0.0, sums + added[:, hour])
        running[:, hour] = sums
    return running[0], running[1]
