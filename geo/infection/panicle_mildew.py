"""How favourable is each hour for powdery mildew on panicles?"""

from dataclasses import dataclass, fields

import numpy as np

from geo.arrays import FloatArray
from geo.infection.temperature_response import response_yan1999
from geo.reference.number import values

HOURS_OF_DEPOSIT = 24  # rain removes conidia of about the last day, not what has grown in
LEAST_RAIN = 1e-6  # mm: below it a difference of running sums is rounding, not rain
RAIN_MODES = ("washoff", "neutral", "promote")


@dataclass(frozen=True, slots=True)
class PanicleMildew:
    """
    The parameters of mildew on panicles; the fields are rows of ``mildew.csv``.

    Attributes
    ----------
    temperature_minimum, temperature_optimum, temperature_maximum : float
        [degC] Cardinal temperatures.
    humidity_of_floor, humidity_of_plateau, humidity_of_decline : float
        [%] Corners of the humidity response.
    weight_at_floor, weight_at_saturation : float
        [1] Its values at and below the floor, and at 100 %.
    weight_in_rain : float
        [1] Of an hour with rain.
    wash_per_mm : float
        [mm-1] How fast rain removes fresh conidia.
    promotion_after_rain : float
        [1] Only in the rain mode ``promote``.
    promotion_hours : float
        [h] How long it lasts.
    promoting_rain : float
        [mm] What starts it.
    """

    temperature_minimum: float
    temperature_optimum: float
    temperature_maximum: float
    humidity_of_floor: float
    humidity_of_plateau: float
    humidity_of_decline: float
    weight_at_floor: float
    weight_at_saturation: float
    weight_in_rain: float
    wash_per_mm: float
    promotion_after_rain: float
    promotion_hours: float
    promoting_rain: float


def panicle_mildew_parameters() -> PanicleMildew:
    """
    Return the parameters of panicle mildew from the reference table.

    Returns
    -------
    PanicleMildew
        The defaults.
    """
    table = values("mildew", "panicle mildew")
    return PanicleMildew(**{field.name: table[field.name] for field in fields(PanicleMildew)})


def humidity_weight(relative_humidity: FloatArray, mildew: PanicleMildew) -> FloatArray:
    """
    Return how humidity weighs: a slope, a plateau, a shoulder, and never zero.

    Parameters
    ----------
    relative_humidity : [%]
        Any shape.
    mildew : PanicleMildew
        Corners and values.

    Returns
    -------
    [1]
        Same shape.

    Notes
    -----
    The plateau is borrowed from grape mildew (carroll2003); field evidence on mango points
    both ways, so dry air lowers the weight and never switches mildew off.
    """
    corners = (
        mildew.humidity_of_floor,
        mildew.humidity_of_plateau,
        mildew.humidity_of_decline,
        100.0,
    )
    weights = (mildew.weight_at_floor, 1.0, 1.0, mildew.weight_at_saturation)
    weight: FloatArray = np.interp(relative_humidity, corners, weights)
    return np.where(np.isnan(relative_humidity), np.nan, weight)


def rain_weight(precipitation: FloatArray, mildew: PanicleMildew, *, rain_mode: str) -> FloatArray:
    r"""
    Return what rain does to each hour's conidia.

    Parameters
    ----------
    precipitation : [mm]
        Shape (hour,).
    mildew : PanicleMildew
        Sizes.
    rain_mode : str
        ``washoff``: rain within a day removes fresh conidia, :math:`e^{-k R}`. ``neutral``: it
        does not. ``promote``: it favours the two days after it. Published evidence points both
        ways, so the user may choose.

    Returns
    -------
    [1]
        Shape (hour,). In every mode an hour with rain weighs less: free water bursts conidia.
    """
    weight: FloatArray = np.where(precipitation > 0, mildew.weight_in_rain, 1.0)
    fallen = np.concatenate([[0.0], np.cumsum(precipitation)])
    hour = np.arange(precipitation.size)
    if rain_mode == "washoff":
        until = np.minimum(hour + HOURS_OF_DEPOSIT, precipitation.size)
        weight = weight * np.exp(-mildew.wash_per_mm * (fallen[until] - fallen[hour]))
    elif rain_mode == "promote":
        since = np.maximum(hour - int(mildew.promotion_hours), 0)
        is_after_rain = fallen[hour] - fallen[since] >= mildew.promoting_rain - LEAST_RAIN
        weight = np.where(is_after_rain, weight * mildew.promotion_after_rain, weight)
    return weight


def hourly_favourability(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    weight_of_rain: FloatArray,
    mildew: PanicleMildew,
) -> FloatArray:
    """
    Return the favourability of each hour.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (..., hour).
    relative_humidity : [%]
        Same shape.
    weight_of_rain : [1]
        Shape (hour,).
    mildew : PanicleMildew
        Sizes.

    Returns
    -------
    [1]
        Shape (..., hour), between 0 and 1; 0 outside the temperature limits whatever the rest.
    """
    response = response_yan1999(
        air_temperature,
        minimum=mildew.temperature_minimum,
        optimum=mildew.temperature_optimum,
        maximum=mildew.temperature_maximum,
    )
    favourability = response * humidity_weight(relative_humidity, mildew) * weight_of_rain
    return np.minimum(favourability, 1.0)
