"""The weather layer of the season."""

from dataclasses import replace

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.reference.number import values
from geo.season import variables as v
from geo.season.between import at_blocks
from geo.season.days import day_extremes, day_mean, day_starts, day_sum
from geo.season.layer import Layer
from geo.season.pixels import at_pixels
from geo.season.variable import Variable
from geo.texts import mark
from geo.weather.at_spots import air_temperature_at_spots, relative_humidity_at_spots
from geo.weather.daily import AirAtSpots, day_delta_t, day_dew, day_wet_hours
from geo.weather.humidity import vapour_pressure
from geo.weather.last_night import last_night_hour
from geo.weather.pools import PoolParameters, pool_strength
from geo.weather.spots import Knots, choose_knots, choose_spots, with_knots
from geo.weather.wetness import ESTIMATORS
from geo.weather.wind import wind_at_blocks, wind_by_side


def pool_parameters() -> PoolParameters:
    """
    Return the pool parameters of the reference table.

    Returns
    -------
    PoolParameters
        The defaults.
    """
    pool = values("microclimate", "pool")
    # These two shape the terrain, not the air.
    del pool["radius"], pool["slope_limit"]
    return PoolParameters(
        **pool,
        cloud_longwave_factor=values("microclimate", "cloud")["longwave_factor"],
        lapse_rate=values("microclimate", "air")["lapse_rate"],
    )


def _compute(season: xr.Dataset) -> xr.Dataset:
    parameters = replace(
        pool_parameters(),
        full_strength=float(season.pool_full_strength),
        scale_depth=float(season.pool_scale_depth),
    )
    temperature = season.air_temperature.values
    humidity = season.relative_humidity.values
    strength = pool_strength(
        air_temperature=temperature,
        relative_humidity=humidity,
        cloud_cover=season.cloud_cover.values,
        wind_speed=season.wind_speed.values,
        solar_elevation=season.solar_elevation.values,
        parameters=parameters,
        start=float(season.pool_strength_before),
    )
    knots = choose_knots(season.pool_depth_grid.values, season.elevation_grid.values)
    of_blocks = choose_spots(
        season.pool_depth.values,
        season.elevation.values,
        station_pool_depth=float(season.station_pool_depth),
    )
    spots, spot_of_knot = with_knots(of_blocks, knots)
    spot_temperature = air_temperature_at_spots(
        temperature,
        strength,
        height_above_station=spots.elevation - float(season.station_elevation),
        pool_depth=spots.pool_depth,
        station_pool_depth=float(season.station_pool_depth),
        parameters=parameters,
    )
    spot_humidity = relative_humidity_at_spots(temperature, humidity, spot_temperature)
    starts = day_starts(season.hour_day.values)
    # Spots that only the site weather leans on, or no block at all, have no days of their own.
    felt = slice(0, int(spots.spot_of_block.max()) + 1)
    air = AirAtSpots(spot_temperature[felt], spot_humidity[felt], spots.elevation[felt])
    given = {
        v.POOL_STRENGTH: strength,
        v.SPOT_POOL_DEPTH: spots.pool_depth,
        v.SPOT_ELEVATION: spots.elevation,
        v.SPOT_OF_BLOCK: spots.spot_of_block,
        v.SPOT_WEIGHT: spots.weight,
        v.SPOT_OF_SITE: spots.spot_of_site,
        v.SITE_WEIGHT: spots.site_weight,
        v.AIR_TEMPERATURE_AT_SPOT: spot_temperature,
        v.RELATIVE_HUMIDITY_AT_SPOT: spot_humidity,
        v.RAIN: day_sum(season.precipitation.values, starts),
        v.KNOT_POOL_DEPTH: knots.pool_depth,
        v.KNOT_ELEVATION: knots.elevation,
        v.SPOT_OF_KNOT: spot_of_knot,
    } | {
        variable: at_blocks(array, spots.spot_of_block, spots.weight)
        for variable, array in _days(season, air, starts).items()
    }
    wet_hours = np.stack(
        [
            at_blocks(by_spot, spots.spot_of_block, spots.weight)
            for by_spot in _wet_hours(season, air, starts)
        ]
    )
    wind = wind_by_side(season.wind_speed.values, season.wind_from_direction.values, starts)
    mean_wind, highest_wind = wind_at_blocks(wind, season.wind_share.values)
    given |= {v.DAY_MEAN_WIND_SPEED: mean_wind, v.DAY_MAXIMUM_WIND_SPEED: highest_wind}
    given |= _last_night(season, spot_temperature[spot_of_knot], knots)
    given[v.WET_HOURS] = wet_hours
    given[v.WET_HOURS_DISAGREEMENT] = wet_hours.max(axis=0) - wet_hours.min(axis=0)
    return xr.Dataset(
        {variable.name: (variable.dims, array) for variable, array in given.items()},
        coords={v.ESTIMATOR: list(ESTIMATORS)},
    )


def _last_night(
    season: xr.Dataset, at_knots: FloatArray, knots: Knots
) -> dict[Variable, FloatArray]:
    hour = last_night_hour(
        season.air_temperature.values, season.solar_elevation.values, season.is_forecast.values
    )
    in_hour = at_knots[:, :, hour] if hour >= 0 else np.full(at_knots.shape[:2], np.nan)
    grid = at_pixels(
        in_hour,
        knot_pool_depth=knots.pool_depth,
        knot_elevation=knots.elevation,
        pool_depth_grid=season.pool_depth_grid.values,
        elevation_grid=season.elevation_grid.values,
    )
    return {v.LAST_NIGHT_HOUR: np.asarray(float(hour)), v.LAST_NIGHT_TEMPERATURE_GRID: grid}


def _days(season: xr.Dataset, air: AirAtSpots, starts: IntArray) -> dict[Variable, FloatArray]:
    is_dark = season.solar_elevation.values < 0.0
    carried = vapour_pressure(season.air_temperature.values, season.relative_humidity.values)
    lowest, highest = day_extremes(air.air_temperature, starts)
    least, most = day_delta_t(air, ~is_dark, starts)
    humid = np.where(
        np.isnan(air.relative_humidity),
        np.nan,
        air.relative_humidity >= values("microclimate", "air")["humid_threshold"],
    )
    return {
        v.DAY_MINIMUM_TEMPERATURE: lowest,
        v.DAY_MAXIMUM_TEMPERATURE: highest,
        v.DAY_MEAN_TEMPERATURE: day_mean(air.air_temperature, starts),
        v.HUMID_HOURS: day_sum(humid, starts),
        v.DEW: day_dew(air, carried, is_dark, starts),
        v.DAY_MINIMUM_DELTA_T: least,
        v.DAY_MAXIMUM_DELTA_T: most,
    }


def _wet_hours(season: xr.Dataset, air: AirAtSpots, starts: IntArray) -> FloatArray:
    return day_wet_hours(
        air,
        wind_speed=season.wind_speed.values,
        precipitation=season.precipitation.values,
        humid_threshold=values("microclimate", "air")["humid_threshold"],
        starts=starts,
        **values("microclimate", "wetness"),
    )


WEATHER = Layer(
    name="weather",
    question=mark("what each block feels, hour by hour"),
    needs=(
        v.AIR_TEMPERATURE,
        v.RELATIVE_HUMIDITY,
        v.CLOUD_COVER,
        v.WIND_SPEED,
        v.WIND_FROM_DIRECTION,
        v.WIND_SHARE,
        v.PRECIPITATION,
        v.SOLAR_ELEVATION,
        v.HOUR_DAY,
        v.IS_FORECAST,
        v.POOL_STRENGTH_BEFORE,
        v.ELEVATION_GRID,
        v.POOL_DEPTH_GRID,
        v.POOL_DEPTH,
        v.ELEVATION,
        v.STATION_POOL_DEPTH,
        v.STATION_ELEVATION,
        v.POOL_FULL_STRENGTH,
        v.POOL_SCALE_DEPTH,
    ),
    gives=(
        v.POOL_STRENGTH,
        v.SPOT_POOL_DEPTH,
        v.SPOT_ELEVATION,
        v.SPOT_OF_BLOCK,
        v.SPOT_WEIGHT,
        v.SPOT_OF_SITE,
        v.SITE_WEIGHT,
        v.AIR_TEMPERATURE_AT_SPOT,
        v.RELATIVE_HUMIDITY_AT_SPOT,
        v.DAY_MINIMUM_TEMPERATURE,
        v.DAY_MAXIMUM_TEMPERATURE,
        v.DAY_MEAN_TEMPERATURE,
        v.HUMID_HOURS,
        v.RAIN,
        v.DAY_MEAN_WIND_SPEED,
        v.DAY_MAXIMUM_WIND_SPEED,
        v.KNOT_POOL_DEPTH,
        v.KNOT_ELEVATION,
        v.SPOT_OF_KNOT,
        v.LAST_NIGHT_HOUR,
        v.LAST_NIGHT_TEMPERATURE_GRID,
        v.DEW,
        v.DAY_MINIMUM_DELTA_T,
        v.DAY_MAXIMUM_DELTA_T,
        v.WET_HOURS,
        v.WET_HOURS_DISAGREEMENT,
    ),
    compute=_compute,
)
