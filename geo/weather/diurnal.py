"""What do the extremes of a day say of its hours? A published course of the temperature."""

import numpy as np

from geo.arrays import FloatArray
from geo.weather.humidity import saturation_vapour_pressure

# cesaraccio2001: how much of the way from the maximum to the next minimum is gone at sunset, and
# how long before sunset it is warmest.
SHARE_GONE_AT_SUNSET, WARMEST_BEFORE_SUNSET_H = 0.39, 4.0
SATURATION = 100.0


def air_temperature_cesaraccio2001(
    hours_since_sunrise: FloatArray,
    *,
    day_length: FloatArray,
    sunrise_to_sunrise: FloatArray,
    minimum: FloatArray,
    maximum: FloatArray,
    next_minimum: FloatArray,
) -> FloatArray:
    r"""
    Return the temperature at a time between one sunrise and the next.

    For orchards whose station writes only the day's minimum and maximum. Hours so made carry
    no weather of their own: clouds, showers and fronts within the day are lost.

    Parameters
    ----------
    hours_since_sunrise : [h]
        Time since the last sunrise.
    day_length : [h]
        From that sunrise to sunset.
    sunrise_to_sunrise : [h]
        From that sunrise to the next.
    minimum, maximum : [degC]
        Of the day that began with that sunrise.
    next_minimum : [degC]
        Of the day after.

    Returns
    -------
    [degC]
        In the broadcast shape. NaN where any input is.

    Notes
    -----
    The model TM of [1]_. With :math:`H_n` sunrise, :math:`H_o` sunset, :math:`H_x = H_o - 4`,
    :math:`H_p` the next sunrise, :math:`T_o = T_x - 0.39 (T_x - T_p)`, in the morning

    .. math:: T = T_n + (T_x - T_n) \sin\left(\frac{t - H_n}{H_x - H_n} \frac{\pi}{2}\right),

    in the afternoon

    .. math:: T = T_o + (T_x - T_o) \sin\left(\frac{\pi}{2} (1 + \frac{t - H_x}{4})\right),

    and at night

    .. math:: T = T_o + (T_p - T_o) \sqrt{\frac{t - H_o}{H_p - H_o}}.

    The paper was not at hand: form and constants as in public code of it, trenchr2023.

    References
    ----------
    .. [1] C. Cesaraccio, D. Spano, P. Duce and R. L. Snyder, "An improved model for determining
       degree-day values from daily temperature data", International Journal of Biometeorology
       45:161-169, 2001. doi:10.1007/s004840100104

    Examples
    --------
    >>> air_temperature_cesaraccio2001(
    ...     np.array([2.0, 10.0, 14.0]),
    ...     day_length=np.array(12.0),
    ...     sunrise_to_sunrise=np.array(24.0),
    ...     minimum=np.array(10.0),
    ...     maximum=np.array(30.0),
    ...     next_minimum=np.array(12.0),
    ... ).round(2)
    array([17.65, 27.94, 18.5 ])
    """
    warmest = day_length - WARMEST_BEFORE_SUNSET_H
    at_sunset = maximum - SHARE_GONE_AT_SUNSET * (maximum - next_minimum)
    quarter = 0.5 * np.pi
    past_warmest = (hours_since_sunrise - warmest) / WARMEST_BEFORE_SUNSET_H
    night = np.clip(
        (hours_since_sunrise - day_length) / (sunrise_to_sunrise - day_length), 0.0, 1.0
    )
    morning = minimum + (maximum - minimum) * np.sin(quarter * hours_since_sunrise / warmest)
    afternoon = at_sunset + (maximum - at_sunset) * np.sin(quarter * (1.0 + past_warmest))
    evening = at_sunset + (next_minimum - at_sunset) * np.sqrt(night)
    by_day = np.where(hours_since_sunrise <= warmest, morning, afternoon)
    temperature: FloatArray = np.where(hours_since_sunrise <= day_length, by_day, evening)
    return temperature


def daily_vapour_pressure(
    *,
    minimum: FloatArray,
    maximum: FloatArray,
    lowest_humidity: FloatArray,
    highest_humidity: FloatArray,
    mean_humidity: FloatArray,
    mean_dew_point: FloatArray,
    harmonic_saturation: FloatArray,
) -> FloatArray:
    r"""
    Return the water in the air of a day, from the best that was measured of it.

    Never from the minimum of the temperature alone: where nights do not reach the dew point that
    makes days far too damp.

    Parameters
    ----------
    minimum, maximum : [degC]
        Of the air.
    lowest_humidity, highest_humidity, mean_humidity : [%]
        Relative, of the day; NaN where not measured.
    mean_dew_point : [degC]
        Of the day; NaN where not measured.
    harmonic_saturation : [kPa]
        Harmonic mean of the hours' saturation vapour pressure.

    Returns
    -------
    [kPa]
        Of vapour: Eq. 14 of allen1998 with the dew point; else Eq. 17 with both extremes of the
        humidity; else what gives the hours the measured mean of the humidity; else NaN.

    Notes
    -----
    Of the mean humidity Eq. 19 of allen1998 makes too much water here: it takes the warmest and
    the coldest moment to last as long as each other, but the night is the longer one.
    """
    least, most = saturation_vapour_pressure(minimum), saturation_vapour_pressure(maximum)
    # allen1998, Eq. 17: the air is dampest when coldest.
    from_extremes = (least * highest_humidity + most * lowest_humidity) / (2.0 * SATURATION)
    from_mean = mean_humidity / SATURATION * harmonic_saturation
    from_dew_point = saturation_vapour_pressure(mean_dew_point)
    pressure = np.where(np.isnan(from_extremes), from_mean, from_extremes)
    best: FloatArray = np.where(np.isnan(from_dew_point), pressure, from_dew_point)
    return best
