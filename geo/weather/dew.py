"""How much water has fallen out of the air that cooled on its way to a spot?"""

import numpy as np

from geo.arrays import FloatArray
from geo.weather.humidity import saturation_vapour_pressure

GAS_CONSTANT_OF_VAPOUR_J_KG_K = 461.5  # a constant of nature, to four digits
PA_PER_KPA = GRAMS_PER_KILOGRAM = 1000.0  # by definition
KELVIN_AT_0_DEGC = 273.15  # by definition of the degree Celsius


def condensed_water(vapour_pressure_carried: FloatArray, air_temperature: FloatArray) -> FloatArray:
    r"""
    Return the water beyond saturation: dew and fog.

    Parameters
    ----------
    vapour_pressure_carried : [kPa]
        As measured at the station.
    air_temperature : [degC]
        At the spot.

    Returns
    -------
    [g m-3]
        :math:`(e - e^o(T)) / (R_v T_K)`, 0 where the air can hold it.

    Examples
    --------
    >>> float(condensed_water(np.array(2.104), np.array(17.0)).round(1))
    1.2
    """
    excess = np.maximum(vapour_pressure_carried - saturation_vapour_pressure(air_temperature), 0.0)
    kelvin = air_temperature + KELVIN_AT_0_DEGC
    water: FloatArray = (
        excess * PA_PER_KPA / (GAS_CONSTANT_OF_VAPOUR_J_KG_K * kelvin) * GRAMS_PER_KILOGRAM
    )
    return water
