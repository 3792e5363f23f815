"""The forecast hours as the rules read them: block by block, for a few days only."""

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

import numpy as np
import xarray as xr

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.season.between import at_blocks
from geo.season.farm import Farm
from geo.weather.psychrometer import air_pressure, delta_t
from geo.windows.air import hours_in_sun, wind_at_blocks

MOST_HOURS = 120  # our choice: five days, beyond which an hour of a forecast says little


@dataclass(frozen=True, slots=True)
class Forecast:
    """
    What the forecast hours bring to each block.

    Attributes
    ----------
    start : tuple of datetime.datetime
        Local start of each hour.
    hour : numpy.ndarray
        [h] Shape (hour,): since the season's first hour.
    day : numpy.ndarray
        [d] Shape (hour,): place of its local day in the season.
    temperature, humidity, delta_t, wind : numpy.ndarray
        [degC], [%], [K], [m s-1] Shape (block, hour).
    rain, cloud, wind_from, sunny_hours : numpy.ndarray
        [mm], [1], [degree], [h] Shape (hour,).
    """

    start: tuple[datetime, ...]
    hour: FloatArray
    day: IntArray
    temperature: FloatArray
    humidity: FloatArray
    delta_t: FloatArray
    wind: FloatArray
    rain: FloatArray
    cloud: FloatArray
    wind_from: FloatArray
    sunny_hours: FloatArray


def forecast_of(farm: Farm, season: xr.Dataset) -> Forecast:
    """
    Return the hours that spraying can be planned for.

    Parameters
    ----------
    farm : Farm
        Knows today and the time zone.
    season : xarray.Dataset
        With the weather layers.

    Returns
    -------
    Forecast
        From the first hour that is not measured, today or later, for at most five days.
    """
    day = season["hour_day"].values
    is_ahead = season["is_forecast"].values == 1
    is_ahead &= season["day"].values.astype("datetime64[D]")[day] >= np.datetime64(farm.today)
    hour = np.flatnonzero(is_ahead)[:MOST_HOURS]
    spot, weight = season["spot_of_block"].values, season["spot_weight"].values

    def of_blocks(name: str) -> FloatArray:
        return at_blocks(season[name].values[:, hour], spot, weight)

    temperature, humidity = (
        of_blocks("air_temperature_at_spot"), of_blocks("relative_humidity_at_spot"),
    )  # fmt: skip
    pressure = air_pressure(season["elevation"].values)[:, None]
    wind_from = season["wind_from_direction"].values[hour]
    return Forecast(
        start=_local(season["hour"].values[hour], farm.zone),
        hour=hour.astype(np.float64),
        day=day[hour],
        temperature=temperature,
        humidity=humidity,
        delta_t=delta_t(temperature, humidity, pressure=pressure),
        wind=wind_at_blocks(
            season["wind_speed"].values[hour], wind_from, season["wind_share"].values
        ),
        rain=season["precipitation"].values[hour],
        cloud=season["cloud_cover"].values[hour],
        wind_from=wind_from,
        sunny_hours=hours_in_sun(season["solar_elevation"].values)[hour],
    )


def _local(hours: AnyArray, zone: str) -> tuple[datetime, ...]:
    moments = hours.astype("datetime64[s]").astype(datetime)
    return tuple(
        moment.replace(tzinfo=ZoneInfo("UTC")).astimezone(ZoneInfo(zone)) for moment in moments
    )
