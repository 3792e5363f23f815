"""How fully do cool pools stand, hour by hour, and how cold are they?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.weather.humidity import vapour_pressure

STEFAN_BOLTZMANN_W_M2_K4 = 5.67e-8  # a constant of nature, to three digits
KELVIN_AT_0_DEGC = 273.16  # as printed in allen1998, Eq. 39


@dataclass(frozen=True, slots=True)
class PoolParameters:
    """
    What cool pools are made of; the fields are the rows of ``microclimate.csv``.

    Attributes
    ----------
    full_strength : float
        [K] A pool without bottom, on a perfect night.
    scale_depth : float
        [m] Depth at which 63 % of it is reached.
    rise_hours_night, decay_hours_day : float
        [h] How fast pools build and go.
    reference_net_longwave : float
        [W m-2] Loss that counts as a full-strength night.
    strength_cap : float
        [1] No night is stronger.
    wind_slope, wind_offset : float
        [K s m-1], [K] Warming of a pool by wind.
    calm_wind : float
        [m s-1] What a reported 0 stands for.
    unknown_cloud : float
        [1] Where nobody measured cloud.
    cloud_longwave_factor : float
        [1] How much cloud holds back.
    lapse_rate : float
        [K m-1] Of mixed air.
    """

    full_strength: float
    scale_depth: float
    rise_hours_night: float
    decay_hours_day: float
    reference_net_longwave: float
    strength_cap: float
    wind_slope: float
    wind_offset: float
    calm_wind: float
    unknown_cloud: float
    cloud_longwave_factor: float
    lapse_rate: float


def net_longwave_loss(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    cloud_cover: FloatArray,
    *,
    cloud_longwave_factor: float,
) -> FloatArray:
    r"""
    Return how fast the ground loses heat to the sky.

    Parameters
    ----------
    air_temperature : [degC]
        At the station.
    relative_humidity : [%]
        At the station.
    cloud_cover : [1]
        Opaque cloud, 0 to 1.
    cloud_longwave_factor : [1]
        Share of the loss that a full cover holds back.

    Returns
    -------
    [W m-2]
        Same shape, positive upward.

    Notes
    -----
    Eq. 39 of [1]_ taken by the hour, with cloud as :math:`1 - c N^2` in place of sunshine,
    since at night there is none:
    :math:`R_{nl} = \sigma T_K^4 (0.34 - 0.14 \sqrt{e_a}) (1 - c N^2)`.

    References
    ----------
    .. [1] FAO Irrigation and Drainage Paper 56, 1998 (allen1998).
    """
    vapour = vapour_pressure(air_temperature, relative_humidity)
    black_body = STEFAN_BOLTZMANN_W_M2_K4 * (air_temperature + KELVIN_AT_0_DEGC) ** 4
    clear_loss = black_body * (0.34 - 0.14 * np.sqrt(vapour))  # allen1998, Eq. 39
    loss: FloatArray = clear_loss * (1.0 - cloud_longwave_factor * cloud_cover**2)
    return loss


def pool_strength(
    *,
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    cloud_cover: FloatArray,
    wind_speed: FloatArray,
    solar_elevation: FloatArray,
    parameters: PoolParameters,
    start: float = 0.0,
) -> FloatArray:
    r"""
    Return how fully cool pools stand in each hour.

    Parameters
    ----------
    air_temperature : [degC]
        Station, shape (hour,).
    relative_humidity : [%]
        Station.
    cloud_cover : [1]
        Station; NaN is taken as ``parameters.unknown_cloud``.
    wind_speed : [m s-1]
        Station, at 2 m.
    solar_elevation : [degree]
        Below 0 is night.
    parameters : PoolParameters
        Sizes and times.
    start : [1]
        Strength in the hour before the first, so that a season may be split.

    Returns
    -------
    [1]
        Shape (hour,), 0 by day, near 1 late in a clear calm night.

    Notes
    -----
    A first-order state without any clear-or-calm switch:
    :math:`g \leftarrow g + (n \rho f_w - g)(1 - e^{-1/\tau})`, with :math:`n` 1 at night,
    :math:`\rho` the longwave loss over its reference, and
    :math:`f_w = 1 - (2u_2 + 0.4)/A` kept within 0 and 1: the warming of orchard minima by wind
    (korea_orchard) as a share of the full pool. The law: splitting the season and carrying
    the state gives the whole.
    """
    cloud = np.where(np.isnan(cloud_cover), parameters.unknown_cloud, cloud_cover)
    loss = net_longwave_loss(
        air_temperature,
        relative_humidity,
        cloud,
        cloud_longwave_factor=parameters.cloud_longwave_factor,
    )
    clearness = np.clip(loss / parameters.reference_net_longwave, 0.0, parameters.strength_cap)
    wind = np.maximum(wind_speed, parameters.calm_wind)
    warming = parameters.wind_slope * wind + parameters.wind_offset
    stillness = np.clip(1.0 - warming / parameters.full_strength, 0.0, 1.0)
    is_night = solar_elevation < 0.0
    target = np.where(is_night, clearness * stillness, 0.0)
    memory_hours = np.where(is_night, parameters.rise_hours_night, parameters.decay_hours_day)
    pull = 1.0 - np.exp(-1.0 / memory_hours)
    strength = np.empty_like(target)
    state = start
    for hour, (aim, share) in enumerate(zip(target.tolist(), pull.tolist(), strict=True)):
        state += (aim - state) * share
        strength[hour] = state
    return strength


def full_pool_offset(pool_depth: FloatArray, parameters: PoolParameters) -> FloatArray:
    r"""
    Return how much colder a pool is than level ground when it stands fully.

    Parameters
    ----------
    pool_depth : [m]
        Any shape.
    parameters : PoolParameters
        Sizes.

    Returns
    -------
    [K]
        Same shape, 0 or negative: :math:`C(D) = -A (1 - e^{-D/D_0})`.
    """
    offset: FloatArray = -parameters.full_strength * (
        1.0 - np.exp(-pool_depth / parameters.scale_depth)
    )
    return offset


def mixed_air_lapse(strength: FloatArray, *, lapse_rate: float) -> FloatArray:
    r"""
    Return how fast the air cools with height outside the pools.

    Parameters
    ----------
    strength : [1]
        Of the pools, shape (hour,).
    lapse_rate : [K m-1]
        Of mixed air.

    Returns
    -------
    [K m-1]
        Same shape: :math:`\Gamma_0 (1 - \min(g, 1))`, since the mixed-air lapse overstates that
        of nights in which pools stand (blandford2008).
    """
    lapse: FloatArray = lapse_rate * (1.0 - np.minimum(strength, 1.0))
    return lapse
