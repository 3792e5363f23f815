"""How much water does the air hold, and how much could it hold?"""

import numpy as np

from geo.arrays import FloatArray

KPA_AT_0_DEGC = 0.6108  # allen1998, Eq. 11
SATURATION = 100.0


def saturation_vapour_pressure(air_temperature: FloatArray) -> FloatArray:
    r"""
    Return the vapour pressure at which air is full.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.

    Returns
    -------
    [kPa]
        Same shape, over water. NaN stays NaN.

    Notes
    -----
    Eq. 11 of [1]_:

    .. math:: e^o(T) = 0.6108 \exp\left(\frac{17.27\,T}{T + 237.3}\right)

    Within 0.11 % of the ASHRAE values between 0.5 and 50 degC.

    References
    ----------
    .. [1] FAO Irrigation and Drainage Paper 56, 1998 (allen1998).

    Examples
    --------
    >>> saturation_vapour_pressure(np.array([15.0, 24.5])).round(3)
    array([1.705, 3.075])
    """
    pressure: FloatArray = KPA_AT_0_DEGC * np.exp(
        17.27 * air_temperature / (air_temperature + 237.3)
    )
    return pressure


def vapour_pressure(air_temperature: FloatArray, relative_humidity: FloatArray) -> FloatArray:
    """
    Return the vapour pressure of the air.

    Parameters
    ----------
    air_temperature : [degC]
        Any shape.
    relative_humidity : [%]
        Same shape.

    Returns
    -------
    [kPa]
        Same shape.
    """
    return saturation_vapour_pressure(air_temperature) * relative_humidity / SATURATION


def humidity_of(vapour_pressure_kpa: FloatArray, air_temperature: FloatArray) -> FloatArray:
    """
    Return the relative humidity of air that carries a given vapour pressure.

    Parameters
    ----------
    vapour_pressure_kpa : [kPa]
        As measured elsewhere and carried here.
    air_temperature : [degC]
        Of the air here.

    Returns
    -------
    [%]
        At most 100: what is above falls out as dew.

    Examples
    --------
    >>> carried = vapour_pressure(np.array(20.0), np.array(90.0))
    >>> humidity_of(carried, np.array([20.0, 19.0, 17.0])).round(1)
    array([ 90. ,  95.8, 100. ])
    """
    humidity: FloatArray = (
        SATURATION * vapour_pressure_kpa / saturation_vapour_pressure(air_temperature)
    )
    return np.minimum(humidity, SATURATION)
