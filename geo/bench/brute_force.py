"""The long way round: each cell of the elevation grid as a weather spot of its own."""

from dataclasses import replace

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.infection.over_season import daily_favourability, season_mean
from geo.infection.panicle_mildew import panicle_mildew_parameters, rain_weight
from geo.season.days import day_starts
from geo.season.today import today_index
from geo.weather.at_spots import air_temperature_at_spots, relative_humidity_at_spots
from geo.weather.layer import pool_parameters


def brute_force(season: xr.Dataset, cell: IntArray) -> tuple[FloatArray, FloatArray]:
    """
    Return what some cells feel, each computed hour by hour.

    Parameters
    ----------
    season : xarray.Dataset
        After the infection layer.
    cell : [1]
        Flat indices of cells, shape (cell,).

    Returns
    -------
    [1]
        Mean favourability of the season so far, shape (cell,).
    [degC]
        Temperature in the coolest hour of the last measured night, shape (cell,).
    """
    mildew = panicle_mildew_parameters()
    temperature = air_temperature_at_spots(
        season.air_temperature.values,
        season.pool_strength.values,
        height_above_station=season.elevation_grid.values.ravel()[cell]
        - float(season.station_elevation),
        pool_depth=season.pool_depth_grid.values.ravel()[cell],
        station_pool_depth=float(season.station_pool_depth),
        parameters=replace(
            pool_parameters(),
            full_strength=float(season.pool_full_strength),
            scale_depth=float(season.pool_scale_depth),
        ),
    )
    humidity = relative_humidity_at_spots(
        season.air_temperature.values, season.relative_humidity.values, temperature
    )
    rain = rain_weight(season.precipitation.values, mildew, rain_mode=season.attrs["rain_mode"])
    daily = daily_favourability(
        temperature, humidity, rain, mildew, starts=day_starts(season.hour_day.values)
    )
    favourability = season_mean(daily, today=today_index(season))
    return favourability, temperature[:, int(season.last_night_hour)]


def share_of_range(found: FloatArray, exact: FloatArray) -> FloatArray:
    """
    Return the errors as shares of the range of the exact answers.

    Parameters
    ----------
    found, exact : [any]
        Shape (cell,).

    Returns
    -------
    [1]
        Shape (cell,).
    """
    share: FloatArray = np.abs(found - exact) / np.ptp(exact)
    return share
