"""One weather for the farm out of several stations."""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.weather.humidity import humidity_of, vapour_pressure

METRES_PER_KILOMETRE = 1000.0  # by definition
HEIGHT_AS_FAR_AS_A_KILOMETRE_M = 100.0  # assumed: 100 m of height tell as little as 1 km
NEAREST_KM2 = 1e-6  # a metre, squared: a station on the spot takes all
FEWEST_FOR_A_LAPSE = 4  # assumed: a line through three points fits anything
LEAST_RELIEF_M = 50.0  # assumed: 0.3 K at 6.5 K per km, about what stations differ by chance
LAPSE_LIMIT_K_M = 0.010  # about the lapse of rising dry air; a fit beyond it is noise


@dataclass(frozen=True, slots=True)
class StationHours:
    """
    Hours of one or several stations.

    Attributes
    ----------
    air_temperature : numpy.ndarray
        [degC] Shape (..., hour).
    relative_humidity : numpy.ndarray
        [%] Same shape.
    wind_speed : numpy.ndarray
        [m s-1] Same shape.
    wind_from_direction : numpy.ndarray
        [degree] Same shape, NaN where unknown.
    precipitation : numpy.ndarray
        [mm] Same shape.
    cloud_cover : numpy.ndarray
        [1] Same shape, NaN where unknown.
    """

    air_temperature: FloatArray
    relative_humidity: FloatArray
    wind_speed: FloatArray
    wind_from_direction: FloatArray
    precipitation: FloatArray
    cloud_cover: FloatArray


def station_weights(distance: FloatArray, height_difference: FloatArray) -> FloatArray:
    r"""
    Return how much each station counts.

    Parameters
    ----------
    distance : [m]
        From the farm, shape (station,).
    height_difference : [m]
        Above or below it.

    Returns
    -------
    [1]
        Shape (station,), summing to 1: :math:`w \propto 1 / (d_{km}^2 + (\Delta z / 100)^2)`,
        inverse squared distance with our own exchange of height for distance.

    Examples
    --------
    >>> station_weights(np.array([1000.0, 2000.0]), np.array([0.0, 0.0]))
    array([0.8, 0.2])
    """
    far = (distance / METRES_PER_KILOMETRE) ** 2
    high = (height_difference / HEIGHT_AS_FAR_AS_A_KILOMETRE_M) ** 2
    weight = 1.0 / np.maximum(far + high, NEAREST_KM2)
    share: FloatArray = weight / weight.sum()
    return share


def shares_by_hour(values: FloatArray, weight: FloatArray) -> FloatArray:
    """
    Return each station's share in each hour: one that is silent leaves its weight to the others.

    Parameters
    ----------
    values : [any]
        Shape (station, hour), NaN where not measured.
    weight : [1]
        Shape (station,).

    Returns
    -------
    [1]
        Shape (station, hour); columns sum to 1, or to 0 where nobody measured.
    """
    share = np.where(np.isnan(values), 0.0, weight[:, None])
    total = share.sum(axis=0)
    shares: FloatArray = np.divide(share, total, out=np.zeros_like(share), where=total > 0)
    return shares


def lapse_rate_by_hour(
    air_temperature: FloatArray,
    elevation: FloatArray,
    *,
    kind_of_hour: IntArray,
    otherwise: FloatArray,
) -> FloatArray:
    """
    Return how fast the air cools with height, hour by hour.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (station, hour), NaN where not measured.
    elevation : [m]
        Shape (station,).
    kind_of_hour : [1]
        Shape (hour,): hours of one kind (such as five o'clock in March) get one lapse, the median
        of theirs, since that of a single hour is mostly noise.
    otherwise : [K m-1]
        Shape (hour,): where fewer than four stations measured, or all within 50 m of height.

    Returns
    -------
    [K m-1]
        Shape (hour,), positive where higher is cooler, kept within 10 K per km either way.

    Notes
    -----
    Of each hour the line of least squares; night lapses differ from 6.5 K per km, and from
    month to month (blandford2008).
    """
    slope = _slope_of_each_hour(air_temperature, elevation)
    lapse = np.array(otherwise, dtype=np.float64)
    for kind in np.unique(kind_of_hour[~np.isnan(slope)]):
        is_kind = kind_of_hour == kind
        lapse[is_kind] = -np.nanmedian(slope[is_kind])
    return np.clip(lapse, -LAPSE_LIMIT_K_M, LAPSE_LIMIT_K_M)


def _slope_of_each_hour(air_temperature: FloatArray, elevation: FloatArray) -> FloatArray:
    """Return temperature against height by least squares, NaN where it cannot be told."""
    is_known = ~np.isnan(air_temperature)
    count = is_known.sum(axis=0)
    height = np.where(is_known, elevation[:, None], 0.0)
    mean_height = height.sum(axis=0) / np.maximum(count, 1)
    above = np.where(is_known, elevation[:, None] - mean_height, 0.0)
    relief = np.max(np.where(is_known, above, -np.inf), axis=0) - np.min(
        np.where(is_known, above, np.inf), axis=0
    )
    can_tell = (count >= FEWEST_FOR_A_LAPSE) & (relief >= LEAST_RELIEF_M)
    product = (above * np.where(is_known, air_temperature, 0.0)).sum(axis=0)
    slope: FloatArray = np.divide(
        product, (above**2).sum(axis=0), out=np.full(count.shape, np.nan), where=can_tell
    )
    return slope


def combine_stations(
    hours: StationHours,
    *,
    elevation: FloatArray,
    weight: FloatArray,
    at_elevation: float,
    lapse_rate: FloatArray,
) -> StationHours:
    """
    Return the weather at one height out of all stations.

    Parameters
    ----------
    hours : StationHours
        Shape (station, hour). A missing hour of a station leaves its weight to the others; what
        it differs from them by is not made up for.
    elevation : [m]
        Shape (station,).
    weight : [1]
        Shape (station,).
    at_elevation : [m]
        Where the result shall hold.
    lapse_rate : [K m-1]
        Shape (hour,).

    Returns
    -------
    StationHours
        Shape (hour,), NaN where nobody measured.

    Notes
    -----
    Temperature is weighted after it was brought to one height, and humidity as vapour pressure,
    since relative humidity cannot be averaged. Directions are those of the mean vector; the
    speed is the mean of speeds, since that of the mean vector dwindles as stations differ in
    direction. Rain is not averaged at all, or it would rain a little in too many hours: it is
    that of the heaviest station which measured it.
    """
    above = (elevation - at_elevation)[:, None]
    temperature = _mean(hours.air_temperature + lapse_rate[None, :] * above, weight)
    vapour = _mean(vapour_pressure(hours.air_temperature, hours.relative_humidity), weight)
    angle = np.radians(hours.wind_from_direction)
    east = _mean(hours.wind_speed * np.sin(angle), weight)
    north = _mean(hours.wind_speed * np.cos(angle), weight)
    direction = np.degrees(np.arctan2(east, north)) % 360.0  # a full circle
    heaviest = np.argmax(shares_by_hour(hours.precipitation, weight), axis=0)
    return StationHours(
        air_temperature=temperature,
        relative_humidity=humidity_of(vapour, temperature),
        wind_speed=_mean(hours.wind_speed, weight),
        wind_from_direction=np.where((east == 0.0) & (north == 0.0), np.nan, direction),
        precipitation=np.take_along_axis(hours.precipitation, heaviest[None, :], axis=0)[0],
        cloud_cover=_mean(hours.cloud_cover, weight),
    )


def _mean(values: FloatArray, weight: FloatArray) -> FloatArray:
    share = shares_by_hour(values, weight)
    mean: FloatArray = (np.nan_to_num(values) * share).sum(axis=0)
    return np.where(share.sum(axis=0) > 0, mean, np.nan)
