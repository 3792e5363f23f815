"""Put what was read together as the one data set that travels."""

import numpy as np
import pandas as pd
import xarray as xr

from geo.arrays import AnyArray
from geo.inputs.edges import edges_of, points_of
from geo.inputs.land import Land
from geo.inputs.loggers import Loggers
from geo.inputs.scouting import Looks
from geo.inputs.stations import Site
from geo.inputs.timeline import Timeline
from geo.season import Variable
from geo.season import variables as v
from geo.season.acts import ACTS, UNKNOWN_SPRAY
from geo.season.contract import check

_HOUR = pd.Timedelta(hours=1)
_Arrays = dict[Variable, AnyArray]


def assembled(
    land: Land,
    timeline: Timeline,
    *,
    site: Site,
    loggers: Loggers,
    sprays: pd.DataFrame,
    looks: Looks,
) -> xr.Dataset:
    """
    Return the season as read.

    Parameters
    ----------
    land : Land
        Where everything is.
    timeline : Timeline
        Hours, days and weather.
    site : Site
        Where the weather holds.
    loggers : Loggers
        What hangs in the blocks.
    sprays : pandas.DataFrame
        Block, material and time of each spray that was done, and of each other act.
    looks : Looks
        What was found on panicles.

    Returns
    -------
    xarray.Dataset
        Every variable that comes from files, checked; where the elevation grid begins is in the
        attributes ``grid_west`` and ``grid_north`` (m).

    Raises
    ------
    ContractError
        If we made a mistake.
    """
    arrays = {
        **_ground(land),
        **_stations(site, timeline),
        v.LOGGER_CELL: loggers.cell,
        v.LOGGER_AIR_TEMPERATURE: loggers.air_temperature,
        **_outlines(land),
        **_windbreaks(land),
        **_hours(timeline),
        **_diary(sprays, timeline),
        **_looks(looks),
    }
    names = [str(name) for name in land.blocks.index]
    sources = names + [str(name) for name in land.neighbours.index]
    season = xr.Dataset(
        {variable.name: (variable.dims, array) for variable, array in arrays.items()},
        coords={
            v.BLOCK: np.array(names, dtype=str),
            v.STATION: np.array([station.name for station in site.stations], dtype=str),
            v.LOGGER: np.array(loggers.names, dtype=str),
            v.SOURCE: np.array(sources, dtype=str),
            v.DAY: timeline.days.to_numpy().astype("datetime64[ns]"),
            v.HOUR: timeline.weather.index.to_numpy().astype("datetime64[ns]"),
        },
        attrs={
            "grid_west": land.ground.west,
            "grid_north": land.ground.north,
            "last_measured": timeline.last_measured.strftime("%Y-%m-%dT%H:%M"),
        },
    )
    for variable in arrays:
        season[variable.name].attrs.update(
            units=variable.unit, long_name=variable.meaning, made_by="inputs"
        )
    check(season, arrays, of="inputs")
    return season


def _ground(land: Land) -> _Arrays:
    return {
        v.ELEVATION_GRID: land.ground.grid,
        v.CELL_WIDTH: np.array(land.ground.cell_width),
        v.CELL_HEIGHT: np.array(land.ground.cell_height),
        v.COVER_BLOCK: land.cover.block,
        v.COVER_CELL: land.cover.cell,
        v.COVER_SHARE: land.cover.share,
        v.BLOCK_CELLS: land.cover.block_cells,
        v.VERTICAL_ERROR: np.array(land.ground.vertical_error),
        v.LINE_CELL: land.lines.cell,
        v.LINE_IS_DRAIN: land.lines.is_drain,
        v.LINE_HEIGHT: land.lines.height,
    }


def _stations(site: Site, timeline: Timeline) -> _Arrays:
    return {
        v.STATION_ELEVATION: np.array(site.elevation),
        v.STATION_CELL: site.cell,
        v.STATION_WEIGHT: timeline.station_share,
    }


def _outlines(land: Land) -> _Arrays:
    outlines = land.blocks.geometry.to_numpy()
    edges = edges_of(np.concatenate([outlines, land.neighbours.geometry.to_numpy()]))
    points = points_of(outlines)
    return {
        v.AREA: land.blocks["area"].to_numpy(),
        v.CULTIVAR_SHARE_TEXT: _words(land.blocks["shares"]),
        v.HAD_MILDEW_LAST_SEASON: land.blocks["had_mildew"].to_numpy(),
        v.EDGE_SOURCE: edges.source,
        v.EDGE_START_X: edges.start[:, 0],
        v.EDGE_START_Y: edges.start[:, 1],
        v.EDGE_END_X: edges.end[:, 0],
        v.EDGE_END_Y: edges.end[:, 1],
        v.POINT_BLOCK: points.block,
        v.POINT_X: points.place[:, 0],
        v.POINT_Y: points.place[:, 1],
        v.POINT_SHARE: points.share,
        v.SOURCE_STATUS: np.concatenate(
            [np.full(len(outlines), "scouted"), _words(land.neighbours["status"])]
        ),
    }


def _windbreaks(land: Land) -> _Arrays:
    return {
        v.WINDBREAK_START_X: land.windbreaks.start[:, 0],
        v.WINDBREAK_START_Y: land.windbreaks.start[:, 1],
        v.WINDBREAK_END_X: land.windbreaks.end[:, 0],
        v.WINDBREAK_END_Y: land.windbreaks.end[:, 1],
        v.WINDBREAK_HEIGHT: land.windbreaks.height,
        v.WINDBREAK_POROSITY: land.windbreaks.porosity,
    }


def _hours(timeline: Timeline) -> _Arrays:
    weather = timeline.weather
    return {
        v.HOUR_DAY: timeline.hour_day,
        v.SOLAR_ELEVATION: timeline.solar_elevation,
        v.SUNRISE: timeline.sunrise,
        v.AIR_TEMPERATURE: weather["air_temperature"].to_numpy(),
        v.RELATIVE_HUMIDITY: weather["relative_humidity"].to_numpy(),
        v.WIND_SPEED: weather["wind_speed"].to_numpy(),
        v.WIND_FROM_DIRECTION: weather["wind_from_direction"].to_numpy(),
        v.PRECIPITATION: weather["precipitation"].to_numpy(),
        v.CLOUD_COVER: weather["cloud_cover"].to_numpy(),
        v.IS_FORECAST: weather["is_forecast"].to_numpy(),
        v.IS_FILLED: weather["is_filled"].to_numpy(),
        # Seasons start by themselves: forgotten within hours of the first day.
        v.POOL_STRENGTH_BEFORE: np.array(0.0),
    }


def _diary(rows: pd.DataFrame, timeline: Timeline) -> _Arrays:
    since = (rows["time"] - timeline.weather.index[0]) / _HOUR
    is_act = rows["material"].isin([*ACTS, UNKNOWN_SPRAY]).to_numpy(dtype=bool)
    sprays, acts = rows[~is_act], rows[is_act]
    return {
        v.SPRAY_BLOCK: sprays["block"].to_numpy(np.int64),
        v.SPRAY_HOUR: since[~is_act].to_numpy(float),
        v.SPRAY_MATERIAL: _words(sprays["material"]),
        v.ACT_BLOCK: acts["block"].to_numpy(np.int64),
        v.ACT_HOUR: since[is_act].to_numpy(float),
        v.ACT_KIND: _words(acts["material"]),
    }


def _looks(looks: Looks) -> _Arrays:
    visits, portions = looks.visits, looks.portions
    return {
        v.VISIT_BLOCK: visits["source"].to_numpy(np.int64),
        v.VISIT_DISEASE: _words(visits["disease"]),
        v.VISIT_DAY: visits["day"].to_numpy(np.int64),
        v.VISIT_INSPECTED: visits["inspected"].to_numpy(np.int64),
        v.VISIT_INFECTED: visits["infected"].to_numpy(np.int64),
        v.PORTION_BLOCK: portions["block"].to_numpy(np.int64),
        v.PORTION_DAY: portions["day"].to_numpy(np.int64),
        v.PORTION_STAGE: _words(portions["stage"]),
        v.PORTION_SHARE: portions["share"].to_numpy(float),
    }


def _words(texts: pd.Series) -> AnyArray:
    return np.array(texts.tolist(), dtype=str)
