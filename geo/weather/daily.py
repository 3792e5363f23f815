"""What was each day like at each spot: how dry by day, how wet by night?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.season.days import day_extremes, day_sum
from geo.weather.dew import condensed_water
from geo.weather.humidity import vapour_pressure
from geo.weather.psychrometer import air_pressure, delta_t, dew_point
from geo.weather.wetness import is_wet_by_dew_point, is_wet_by_humidity, is_wet_kim2002

LEAST_HUMIDITY_PERCENT = 0.01  # our choice: below any sensor's reading


@dataclass(frozen=True, slots=True)
class AirAtSpots:
    """
    The air of spots, hour by hour.

    Attributes
    ----------
    air_temperature : numpy.ndarray
        [degC] Shape (spot, hour).
    relative_humidity : numpy.ndarray
        [%] Same shape.
    elevation : numpy.ndarray
        [m] Shape (spot,).
    """

    air_temperature: FloatArray
    relative_humidity: FloatArray
    elevation: FloatArray


def day_delta_t(
    air: AirAtSpots, is_daylight: BoolArray, starts: IntArray
) -> tuple[FloatArray, FloatArray]:
    """
    Return how fast drops shrank at the least and at the most, in daylight.

    Parameters
    ----------
    air : AirAtSpots
        Of the spots.
    is_daylight : [1]
        Shape (hour,).
    starts : [1]
        First hour of each day.

    Returns
    -------
    [K]
        Least Delta T, shape (spot, day); NaN for a day without daylight.
    [K]
        Most.
    """
    depression = np.full(air.air_temperature.shape, np.nan)
    depression[:, is_daylight] = delta_t(
        air.air_temperature[:, is_daylight],
        air.relative_humidity[:, is_daylight],
        pressure=air_pressure(air.elevation)[:, None],
    )
    # These two pass over NaN, so that hours of the night count for nothing.
    least: FloatArray = np.fmin.reduceat(depression, starts, axis=-1)
    most: FloatArray = np.fmax.reduceat(depression, starts, axis=-1)
    return least, most


def day_dew(
    air: AirAtSpots, vapour_pressure_carried: FloatArray, is_dark: BoolArray, starts: IntArray
) -> FloatArray:
    """
    Return how much water stood out of the air in the dark, at the most.

    Parameters
    ----------
    air : AirAtSpots
        Of the spots.
    vapour_pressure_carried : [kPa]
        Of the station, shape (hour,).
    is_dark : [1]
        Shape (hour,).
    starts : [1]
        First hour of each day.

    Returns
    -------
    [g m-3]
        Shape (spot, day): of the dark hours of the local day, those before sunrise and those
        after sunset.
    """
    water = condensed_water(vapour_pressure_carried[None, :], air.air_temperature)
    by_night = np.where(is_dark | np.isnan(water), water, 0.0)
    return day_extremes(by_night, starts)[1]


def day_wet_hours(
    air: AirAtSpots,
    *,
    wind_speed: FloatArray,
    precipitation: FloatArray,
    humid_threshold: float,
    strict_threshold: float,
    depression: float,
    starts: IntArray,
) -> FloatArray:
    """
    Return the hours of the day in which leaves are wet, by four estimators.

    Parameters
    ----------
    air : AirAtSpots
        Of the spots.
    wind_speed : [m s-1]
        Station, shape (hour,). Shelter at a spot is left out: it would only lengthen wetness in
        one of the four.
    precipitation : [mm]
        Station, shape (hour,). An hour with rain is wet in all four.
    humid_threshold, strict_threshold : [%]
        Of the first two.
    depression : [K]
        Of the third.
    starts : [1]
        First hour of each day.

    Returns
    -------
    [h]
        Shape (estimator, spot, day), in the order of ``wetness.ESTIMATORS``.
    """
    temperature, humidity = air.air_temperature, air.relative_humidity
    # Bone-dry air has no dew point; a hundredth of a per cent has one far below any.
    vapour = vapour_pressure(temperature, np.maximum(humidity, LEAST_HUMIDITY_PERCENT))
    dew = dew_point(vapour)
    rules = (
        is_wet_by_humidity(humidity, threshold=humid_threshold),
        is_wet_by_humidity(humidity, threshold=strict_threshold),
        is_wet_by_dew_point(temperature, dew, depression=depression),
        is_wet_kim2002(temperature, humidity, dew, wind_speed[None, :]),
    )
    has_rain, is_unknown = precipitation > 0.0, np.isnan(humidity)
    return np.stack(
        [day_sum(np.where(is_unknown, np.nan, rule | has_rain), starts) for rule in rules]
    )
