"""The layer that fits the pools' size to the farm's own loggers, before the weather is made."""

import numpy as np
import xarray as xr

from geo.reference.number import numbers, values
from geo.season import variables as v
from geo.season.layer import Layer
from geo.texts import mark
from geo.weather.layer import pool_parameters
from geo.weather.pool_fit import Estimate, Loggers, StationNights, fit_pools


def prior(quantity: str) -> Estimate:
    """
    Return what the table says of a size, its range taken as 90 %.

    Parameters
    ----------
    quantity : str
        A row of the pools.

    Returns
    -------
    Estimate
        Known without any logger.
    """
    number = numbers("microclimate")["pool", quantity]
    return Estimate(number.value, number.low, number.high)


def _compute(season: xr.Dataset) -> xr.Dataset:
    strength, depth = fit_pools(
        _station(season),
        _loggers(season),
        full_strength=prior("full_strength"),
        scale_depth=prior("scale_depth"),
        parameters=pool_parameters(),
        **values("microclimate", "logger"),
    )
    given = {
        v.POOL_FULL_STRENGTH: strength.value,
        v.POOL_FULL_STRENGTH_LOW: strength.low,
        v.POOL_FULL_STRENGTH_HIGH: strength.high,
        v.POOL_FULL_STRENGTH_PRIOR_SHARE: strength.prior_share,
        v.POOL_SCALE_DEPTH: depth.value,
        v.POOL_SCALE_DEPTH_LOW: depth.low,
        v.POOL_SCALE_DEPTH_HIGH: depth.high,
        v.POOL_SCALE_DEPTH_PRIOR_SHARE: depth.prior_share,
    }
    return xr.Dataset({variable.name: ((), number) for variable, number in given.items()})


def _station(season: xr.Dataset) -> StationNights:
    return StationNights(
        air_temperature=season.air_temperature.values,
        relative_humidity=season.relative_humidity.values,
        cloud_cover=season.cloud_cover.values,
        wind_speed=season.wind_speed.values,
        solar_elevation=season.solar_elevation.values,
        is_measured=season.is_forecast.values == 0,
        pool_depth=float(season.station_pool_depth),
    )


def _loggers(season: xr.Dataset) -> Loggers:
    cell = season.logger_cell.values
    return Loggers(
        air_temperature=season.logger_air_temperature.values,
        height_above_station=season.elevation_grid.values.ravel()[cell]
        - float(season.station_elevation),
        pool_depth=np.asarray(season.pool_depth_grid.values.ravel()[cell]),
    )


POOLS = Layer(
    name="pools",
    question=mark("how strong this farm's cool pools are"),
    needs=(
        v.AIR_TEMPERATURE,
        v.RELATIVE_HUMIDITY,
        v.CLOUD_COVER,
        v.WIND_SPEED,
        v.SOLAR_ELEVATION,
        v.IS_FORECAST,
        v.STATION_ELEVATION,
        v.STATION_POOL_DEPTH,
        v.ELEVATION_GRID,
        v.POOL_DEPTH_GRID,
        v.LOGGER_CELL,
        v.LOGGER_AIR_TEMPERATURE,
    ),
    gives=(
        v.POOL_FULL_STRENGTH,
        v.POOL_FULL_STRENGTH_LOW,
        v.POOL_FULL_STRENGTH_HIGH,
        v.POOL_FULL_STRENGTH_PRIOR_SHARE,
        v.POOL_SCALE_DEPTH,
        v.POOL_SCALE_DEPTH_LOW,
        v.POOL_SCALE_DEPTH_HIGH,
        v.POOL_SCALE_DEPTH_PRIOR_SHARE,
    ),
    compute=_compute,
)
