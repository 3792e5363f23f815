"""Is a leaf wet? Four rules that disagree, and how much they do."""

import numpy as np

from geo.arrays import BoolArray, FloatArray

# Of the four, in the order of the season's dimension; the last bears its source's name.
ESTIMATORS = ("humidity_90", "humidity_95", "dew_point_2k", "tree_kim2002")
DRY_DEPRESSION_K = 3.7  # kim2002, first branch
CALM_WIND_M_S = 2.5  # kim2002, second branch
WINDY_HUMIDITY_PERCENT = 87.8  # kim2002, third branch
CALM_SCORE, WINDY_SCORE = 14.4674, 37.0  # kim2002, both branches


def is_wet_by_humidity(relative_humidity: FloatArray, *, threshold: float) -> BoolArray:
    """
    Return whether a leaf is wet, by humidity alone.

    Parameters
    ----------
    relative_humidity : [%]
        Any shape.
    threshold : [%]
        90 did best over four regions (sentelhas2008); 95 is the careful one.

    Returns
    -------
    [1]
        Same shape; false where the humidity is NaN.
    """
    return relative_humidity >= threshold


def is_wet_by_dew_point(
    air_temperature: FloatArray, dew_point_temperature: FloatArray, *, depression: float
) -> BoolArray:
    """
    Return whether a leaf is wet, by how near the air is to its dew point.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.
    dew_point_temperature : [degC]
        Same shape.
    depression : [K]
        Wet from this nearness on.

    Returns
    -------
    [1]
        Same shape; false where either is NaN.
    """
    is_near: BoolArray = air_temperature - dew_point_temperature <= depression
    return is_near


def is_wet_kim2002(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    dew_point_temperature: FloatArray,
    wind_speed: FloatArray,
) -> BoolArray:
    """
    Return whether a leaf is wet, by a published classification tree.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape. Below 0 counts as dry.
    relative_humidity : [%]
        Same shape.
    dew_point_temperature : [degC]
        Same shape.
    wind_speed : [m s-1]
        At the leaf; the station's wind at 2 m stands in for it.

    Returns
    -------
    [1]
        Same shape; false where any is NaN.

    Notes
    -----
    Kim and others 2002 (kim2002), read in a public copy, not in the paper. That
    copy has the humidity of the windy branch unsquared, which makes "wet" impossible
    there (the score stays below 2 where 37 is asked for); it is squared here. With that doubt the
    rule is a rival, not the standard.
    """
    depression = air_temperature - dew_point_temperature
    calm = calm_score_kim2002(air_temperature, relative_humidity, depression, wind_speed)
    windy = windy_score_kim2002(air_temperature, relative_humidity, depression, wind_speed)
    wet_if_windy = (relative_humidity >= WINDY_HUMIDITY_PERCENT) & (windy > WINDY_SCORE)
    is_wet = np.where(wind_speed < CALM_WIND_M_S, calm > CALM_SCORE, wet_if_windy)
    near_dew: BoolArray = (depression < DRY_DEPRESSION_K) & (air_temperature >= 0.0)
    return near_dew & is_wet


def calm_score_kim2002(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    depression: FloatArray,
    wind_speed: FloatArray,
) -> FloatArray:
    r"""
    Return how near to wet a leaf is in little wind.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.
    relative_humidity : [%]
        Same shape.
    depression : [K]
        Of the dew point below the air.
    wind_speed : [m s-1]
        Same shape.

    Returns
    -------
    [1]
        :math:`1.6064 \sqrt{T} + 0.0036 T^2 + 0.1531 H - 0.4599 U D - 0.0035 T H` (kim2002).
    """
    temperature = np.maximum(air_temperature, 0.0)
    score: FloatArray = (
        1.6064 * np.sqrt(temperature)
        + 0.0036 * temperature**2
        + 0.1531 * relative_humidity
        - 0.4599 * wind_speed * depression
        - 0.0035 * temperature * relative_humidity
    )
    return score


def windy_score_kim2002(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    depression: FloatArray,
    wind_speed: FloatArray,
) -> FloatArray:
    r"""
    Return how near to wet a leaf is in wind.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.
    relative_humidity : [%]
        Same shape.
    depression : [K]
        Of the dew point below the air.
    wind_speed : [m s-1]
        Same shape.

    Returns
    -------
    [1]
        :math:`0.7921 \sqrt{T} + 0.0046 H^2 - 2.3889 U - 0.0390 T U + 1.0613 U D` (kim2002, with
        our square).
    """
    temperature = np.maximum(air_temperature, 0.0)
    score: FloatArray = (
        0.7921 * np.sqrt(temperature)
        + 0.0046 * relative_humidity**2
        - 2.3889 * wind_speed
        - 0.0390 * temperature * wind_speed
        + 1.0613 * wind_speed * depression
    )
    return score
