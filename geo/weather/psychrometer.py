"""Wet bulb, dew point and Delta T: how fast does a drop shrink?"""

import numpy as np

from geo.arrays import FloatArray
from geo.weather.humidity import saturation_vapour_pressure, vapour_pressure

PSYCHROMETER_PER_K = 0.000662  # allen1998, Eq. 16: ventilated psychrometer, per kPa of pressure
NEWTON_STEPS = 5  # within 1e-7 K up to 50 degC in any humidity


def air_pressure(elevation: FloatArray) -> FloatArray:
    r"""
    Return the mean pressure of the air at a height.

    Parameters
    ----------
    elevation : [m]
        Above sea level.

    Returns
    -------
    [kPa]
        Eq. 7 of allen1998: :math:`101.3 ((293 - 0.0065 z) / 293)^{5.26}`.

    Examples
    --------
    >>> float(air_pressure(np.array(1800.0)).round(1))
    81.8
    """
    pressure: FloatArray = 101.3 * ((293.0 - 0.0065 * elevation) / 293.0) ** 5.26  # allen1998
    return pressure


def dew_point(vapour_pressure_kpa: FloatArray) -> FloatArray:
    r"""
    Return the temperature at which air with a vapour pressure is full.

    Parameters
    ----------
    vapour_pressure_kpa : [kPa]
        Above 0.

    Returns
    -------
    [degC]
        Eq. 3-11 of allen1998, Annex 3. Its constants are rounded, so that it inverts Eq. 11
        only to 0.01 degC.

    Examples
    --------
    >>> float(dew_point(np.array(1.705)).round(1))
    15.0
    """
    logarithm = np.log(vapour_pressure_kpa)
    temperature: FloatArray = (116.91 + 237.3 * logarithm) / (16.78 - logarithm)  # allen1998
    return temperature


def wet_bulb_temperature(
    air_temperature: FloatArray, relative_humidity: FloatArray, *, pressure: FloatArray
) -> FloatArray:
    r"""
    Return the temperature of a ventilated wet bulb.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.
    relative_humidity : [%]
        Same shape.
    pressure : [kPa]
        Of the air.

    Returns
    -------
    [degC]
        Same shape, never above the air.

    Notes
    -----
    Solves the psychrometer equation :math:`e = e^o(T_w) - 0.000662 P (T - T_w)` (Eqs. 15 and 16
    of allen1998) by Newton's rule, rather than a regression that is off by up to a degree.
    """
    vapour = vapour_pressure(air_temperature, relative_humidity)
    wet = np.array(air_temperature, dtype=np.float64)
    for _ in range(NEWTON_STEPS):
        full = saturation_vapour_pressure(wet)
        slope = full * 17.27 * 237.3 / (wet + 237.3) ** 2  # derivative of allen1998, Eq. 11
        excess = full - PSYCHROMETER_PER_K * pressure * (air_temperature - wet) - vapour
        wet = wet - excess / (slope + PSYCHROMETER_PER_K * pressure)
    return np.minimum(wet, air_temperature)


def delta_t(
    air_temperature: FloatArray, relative_humidity: FloatArray, *, pressure: FloatArray
) -> FloatArray:
    """
    Return how far the wet bulb lies below the air.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.
    relative_humidity : [%]
        Same shape.
    pressure : [kPa]
        Of the air.

    Returns
    -------
    [K]
        Same shape; common practice sprays between 2 and 8.
    """
    wet = wet_bulb_temperature(air_temperature, relative_humidity, pressure=pressure)
    depression: FloatArray = air_temperature - wet
    return depression
