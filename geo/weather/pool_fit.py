"""How strong and how deep are this farm's pools, as its own loggers feel them?"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import least_squares

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.weather.at_spots import air_temperature_at_spots
from geo.weather.pools import PoolParameters, pool_strength

FEWEST_LOGGERS = 2  # one cannot tell a strong shallow pool from a weak deep one
NORMAL_QUANTILE_95 = 1.6449  # of the standard normal: 90 % lie within, 5 % on either side


@dataclass(frozen=True, slots=True)
class Estimate:
    """
    A number with its interval.

    Attributes
    ----------
    value : float
        Any unit.
    low, high : float
        Same unit: 90 % lie between.
    prior_share : float
        [1] How much of what is known was known without the loggers; 1 is all of it.
    """

    value: float
    low: float
    high: float
    prior_share: float = 1.0


@dataclass(frozen=True, slots=True)
class StationNights:
    """
    What the station measured, and where it stands; arrays have shape (hour,).

    Attributes
    ----------
    air_temperature, relative_humidity, cloud_cover, wind_speed, solar_elevation : numpy.ndarray
        As `geo.weather.pools.pool_strength` takes them.
    is_measured : numpy.ndarray
        [1] False for forecast hours, which tell nothing about pools.
    pool_depth : float
        [m] Of the station.
    """

    air_temperature: FloatArray
    relative_humidity: FloatArray
    cloud_cover: FloatArray
    wind_speed: FloatArray
    solar_elevation: FloatArray
    is_measured: BoolArray
    pool_depth: float

    def strength(self, parameters: PoolParameters) -> FloatArray:
        """
        Return how fully pools stand.

        Parameters
        ----------
        parameters : PoolParameters
            Sizes.

        Returns
        -------
        [1]
            Shape (hour,).
        """
        return pool_strength(
            air_temperature=self.air_temperature,
            relative_humidity=self.relative_humidity,
            cloud_cover=self.cloud_cover,
            wind_speed=self.wind_speed,
            solar_elevation=self.solar_elevation,
            parameters=parameters,
        )


@dataclass(frozen=True, slots=True)
class Loggers:
    """
    What loggers in the blocks measured, and where they hang.

    Attributes
    ----------
    air_temperature : numpy.ndarray
        [degC] Shape (logger, hour), NaN where not measured.
    height_above_station : numpy.ndarray
        [m] Shape (logger,).
    pool_depth : numpy.ndarray
        [m] Shape (logger,), NaN on unknown ground.
    """

    air_temperature: FloatArray
    height_above_station: FloatArray
    pool_depth: FloatArray


def fit_pools(
    station: StationNights,
    loggers: Loggers,
    *,
    full_strength: Estimate,
    scale_depth: Estimate,
    parameters: PoolParameters,
    hour_error: float,
    least_strength: float,
) -> tuple[Estimate, Estimate]:
    r"""
    Return the size of the pools as prior and loggers have it together.

    Parameters
    ----------
    station : StationNights
        Beside which the loggers are held.
    loggers : Loggers
        With fewer than two that measured on pool nights, the prior is given back as it is.
    full_strength, scale_depth : Estimate
        Prior, [K] and [m].
    parameters : PoolParameters
        All else about pools.
    hour_error : [K]
        By how much a logger and the formula differ in an hour, for whatever reason.
    least_strength : [1]
        Hours in which pools stand less fully, by the prior, are left out.

    Returns
    -------
    Estimate
        Full strength :math:`A`.
    Estimate
        Scale depth :math:`D_0`.

    Notes
    -----
    Least squares on :math:`\ln A` and :math:`\ln D_0`, with a log-normal prior for each: its
    middle is the table's value, its spread that of the table's range taken as 90 %. All hours of
    one night at one logger weigh as one measurement (each residual is divided by
    :math:`\sigma \sqrt n`), since what is wrong in one hour is wrong in the next. Where nights
    scatter more than ``hour_error`` says, their own scatter is taken. Intervals are from the
    Jacobian at the solution; the prior's share is its precision over that of both together.
    """
    middle = np.log([full_strength.value, scale_depth.value])
    spread = np.array([_log_spread(full_strength), _log_spread(scale_depth)])
    night, is_used = _nights(station, loggers, station.strength(parameters) > least_strength)
    if is_used.any(axis=1).sum() < FEWEST_LOGGERS:
        return full_strength, scale_depth
    hours = _hours_of_night(night, is_used)
    weight = 1.0 / (hour_error * np.sqrt(hours))

    def misfit(logarithms: FloatArray) -> FloatArray:
        modelled = _modelled(station, loggers, parameters, logarithms)
        return (modelled - loggers.air_temperature)[is_used] * weight[is_used]

    def fitted(scatter: float) -> tuple[FloatArray, FloatArray]:
        found = least_squares(
            lambda x: np.concatenate([misfit(x) / scatter, (x - middle) / spread]), middle
        )
        return found.x, np.linalg.inv(found.jac.T @ found.jac)

    best, _ = fitted(1.0)
    measurements = np.sum(1.0 / hours[is_used])  # nights, summed over the loggers
    excess = np.sum(misfit(best) ** 2) / max(measurements - middle.size, 1)
    best, covariance = fitted(float(np.sqrt(max(excess, 1.0))))
    error = np.sqrt(np.diag(covariance))
    low, high = np.exp(best - NORMAL_QUANTILE_95 * error), np.exp(best + NORMAL_QUANTILE_95 * error)
    share = (error / spread) ** 2
    strength, depth = (
        Estimate(*map(float, row)) for row in zip(np.exp(best), low, high, share, strict=True)
    )
    return strength, depth


def _log_spread(prior: Estimate) -> float:
    return float(np.log(prior.high / prior.low) / (2.0 * NORMAL_QUANTILE_95))


def _nights(
    station: StationNights, loggers: Loggers, has_pools: BoolArray
) -> tuple[IntArray, BoolArray]:
    """Return the number of each hour's night and which hours count, shape (logger, hour)."""
    is_night = station.solar_elevation < 0.0
    night = np.cumsum(np.diff(is_night.astype(np.int64), prepend=0) > 0)
    is_pool_hour = is_night & has_pools & station.is_measured
    is_placed = ~np.isnan(loggers.pool_depth + loggers.height_above_station)
    is_used: BoolArray = (
        ~np.isnan(loggers.air_temperature) & is_pool_hour[None, :] & is_placed[:, None]
    )
    return np.broadcast_to(night, is_used.shape), is_used


def _hours_of_night(night: IntArray, is_used: BoolArray) -> FloatArray:
    """Return, for each logger and hour, how many hours of its night count."""
    hours = np.ones(night.shape)
    for row, used in enumerate(is_used):
        count = np.bincount(night[row][used], minlength=int(night.max()) + 1)
        hours[row] = np.maximum(count[night[row]], 1)
    return hours


def _modelled(
    station: StationNights, loggers: Loggers, parameters: PoolParameters, logarithms: FloatArray
) -> FloatArray:
    full_strength, scale_depth = map(float, np.exp(logarithms))
    tried = replace(parameters, full_strength=full_strength, scale_depth=scale_depth)
    return air_temperature_at_spots(
        station.air_temperature,
        station.strength(tried),
        height_above_station=loggers.height_above_station,
        pool_depth=loggers.pool_depth,
        station_pool_depth=station.pool_depth,
        parameters=tried,
    )
