"""The station's hours carried to spots of other height and pool depth."""

import numpy as np

from geo.arrays import FloatArray
from geo.weather.humidity import humidity_of, vapour_pressure
from geo.weather.pools import PoolParameters, full_pool_offset, mixed_air_lapse


def air_temperature_at_spots(
    air_temperature: FloatArray,
    strength: FloatArray,
    *,
    height_above_station: FloatArray,
    pool_depth: FloatArray,
    station_pool_depth: float,
    parameters: PoolParameters,
) -> FloatArray:
    r"""
    Return the air temperature of each spot and hour.

    Parameters
    ----------
    air_temperature : [degC]
        Station, shape (hour,).
    strength : [1]
        Pool strength, shape (hour,).
    height_above_station : [m]
        Shape (spot,).
    pool_depth : [m]
        Shape (spot,).
    station_pool_depth : [m]
        How deep the station itself lies.
    parameters : PoolParameters
        Sizes.

    Returns
    -------
    [degC]
        Shape (spot, hour). NaN in a spot's terrain stays with that spot.

    Notes
    -----
    :math:`T_b = T_s - \Gamma (z_b - z_s) + g [C(D_b) - C(D_s)]` with
    :math:`\Gamma = \Gamma_0 (1 - \min(g, 1))`: the mixed-air lapse shrinks while pools stand,
    since it overstates night lapse (blandford2008).
    """
    lapse = mixed_air_lapse(strength, lapse_rate=parameters.lapse_rate)
    pool = full_pool_offset(pool_depth, parameters) - full_pool_offset(
        np.asarray(station_pool_depth), parameters
    )
    temperature: FloatArray = (
        air_temperature[None, :]
        - lapse[None, :] * height_above_station[:, None]
        + strength[None, :] * pool[:, None]
    )
    return temperature


def relative_humidity_at_spots(
    air_temperature: FloatArray, relative_humidity: FloatArray, temperature_at_spots: FloatArray
) -> FloatArray:
    """
    Return the humidity of each spot and hour, the station's vapour pressure carried over.

    Parameters
    ----------
    air_temperature : [degC]
        Station, shape (hour,).
    relative_humidity : [%]
        Station, shape (hour,).
    temperature_at_spots : [degC]
        Shape (spot, hour).

    Returns
    -------
    [%]
        Shape (spot, hour), at most 100.
    """
    carried = vapour_pressure(air_temperature, relative_humidity)
    return humidity_of(carried[None, :], temperature_at_spots)
