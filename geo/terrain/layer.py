"""The terrain layer of the season."""

from typing import Any

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.reference.number import values
from geo.season import variables as v
from geo.season.layer import Layer
from geo.season.sectors import sector_directions
from geo.season.variable import Variable
from geo.terrain.air_ground import pool_depth_with_lines, with_lines
from geo.terrain.cold_air import cold_air_accumulation, flow_accumulation
from geo.terrain.depressions import depression_depth
from geo.terrain.doubt import (
    beyond_error,
    is_too_coarse,
    known_share,
    terrain_doubt,
    unknown_around,
)
from geo.terrain.mean_around import topographic_position, window_half
from geo.terrain.pool_depth import pool_depth_in_windows
from geo.terrain.shelter import upwind_shelter, wind_share
from geo.terrain.slope import aspect, gradient_horn1981, slope
from geo.terrain.windbreaks import WindbreakLaw, Windbreaks, windbreak_factor
from geo.terrain.zonal import mean_over_cover, zonal_mean

RADII = ("radius_small", "radius_middle", "radius_large")


def _compute(season: xr.Dataset) -> xr.Dataset:
    ground = season.elevation_grid.values
    cell = {"cell_width": float(season.cell_width), "cell_height": float(season.cell_height)}
    pool = values("microclimate", "pool")
    air_ground = _air_ground(season, ground)
    depth = pool_depth_with_lines(
        pool_depth_in_windows(
            ground,
            cell_width=cell["cell_width"],
            cell_height=cell["cell_height"],
            radius=pool["radius"],
            slope_limit=pool["slope_limit"],
            vertical_error=float(season.vertical_error),
        ),
        elevation_grid=ground,
        air_ground_grid=air_ground,
    )
    elevation, known_cells = _over_blocks(season, ground)
    station = season.station_cell.values
    # A station off the map, or on unknown ground, is taken to stand in no pool.
    at_stations = np.nan_to_num(np.where(station >= 0, depth.ravel()[station], 0.0))
    given: dict[Variable, Any] = {
        v.POOL_DEPTH_GRID: depth,
        v.ELEVATION: elevation,
        v.POOL_DEPTH: _over_blocks(season, depth)[0],
        v.STATION_POOL_DEPTH: float(at_stations @ season.station_weight.values),
        **_shape(season, ground, cell),
        **_cold_air(season, air_ground, cell),
        **_shelter(season, ground, cell),
    }
    given |= _trust(season, given, known_cells, cell)
    radii = [values("microclimate", "terrain")[name] for name in RADII]
    return xr.Dataset(
        {variable.name: (variable.dims, array) for variable, array in given.items()},
        coords={v.RADIUS: radii, v.SECTOR: sector_directions()},
    )


def _shape(
    season: xr.Dataset, ground: FloatArray, cell: dict[str, float]
) -> dict[Variable, FloatArray]:
    """Return what else the ground tells of each block; nothing in the model hangs on it yet."""
    terrain = values("microclimate", "terrain")
    east, north = gradient_horn1981(ground, **cell)
    mean_east, mean_north = (_over_blocks(season, grid)[0] for grid in (east, north))
    is_level = slope(mean_east, mean_north) < terrain["level_slope"]
    positions = [topographic_position(ground, **cell, radius=terrain[name]) for name in RADII]
    return {
        v.SLOPE: _over_blocks(season, np.degrees(np.arctan(slope(east, north))))[0],
        v.ASPECT: np.where(is_level, np.nan, aspect(mean_east, mean_north)),
        v.TOPOGRAPHIC_POSITION: np.stack(
            [_over_blocks(season, grid)[0] for grid in positions], axis=1
        ),
    }


def _trust(
    season: xr.Dataset,
    given: dict[Variable, FloatArray],
    known_cells: FloatArray,
    cell: dict[str, float],
) -> dict[Variable, FloatArray]:
    """Return how far the ground is known, and the stations' ground where a block has none."""
    covered = known_share(known_cells, season.block_cells.values)
    half = window_half(**cell, radius=values("microclimate", "pool")["radius"])
    unknown = unknown_around(season.elevation_grid.values, cell=season.cover_cell.values, half=half)
    unknown_share, _ = mean_over_cover(unknown, **_cover(season))
    stand_in = {
        v.ELEVATION: season.station_elevation.values,
        v.POOL_DEPTH: given[v.STATION_POOL_DEPTH],
    }
    return {
        variable: np.where(np.isnan(given[variable]), of_stations, given[variable])
        for variable, of_stations in stand_in.items()
    } | {
        v.TERRAIN_COVERED: covered,
        v.TERRAIN_DOUBT: terrain_doubt(
            covered,
            unknown_share,
            is_too_coarse(season.block_cells.values, half=half),
            float(season.vertical_error),
            **values("microclimate", "ground"),
        ),
    }


def _air_ground(season: xr.Dataset, ground: FloatArray) -> FloatArray:
    """Return the ground with what is drawn across it; the very same if nothing is."""
    return with_lines(
        ground,
        line_cell=season.line_cell.values,
        line_is_drain=season.line_is_drain.values,
        line_height=season.line_height.values,
        dam_height=values("microclimate", "dam")["height"],
        drain_depth=values("microclimate", "drain")["depth"],
    )


def _cold_air(
    season: xr.Dataset, air_ground: FloatArray, cell: dict[str, float]
) -> dict[Variable, FloatArray]:
    """Return where cold air gathers and stands; nothing in the model hangs on it yet."""
    smoothing_area = values("microclimate", "terrain")["smoothing_area"]
    drained = cold_air_accumulation(
        flow_accumulation(air_ground, **cell), **cell, smoothing_area=smoothing_area
    )
    hollow = beyond_error(depression_depth(air_ground), vertical_error=float(season.vertical_error))
    return {
        v.DEPRESSION_DEPTH: _over_blocks(season, hollow)[0],
        v.COLD_AIR_ACCUMULATION: _over_blocks(season, drained)[0],
    }


def _shelter(
    season: xr.Dataset, ground: FloatArray, cell: dict[str, float]
) -> dict[Variable, FloatArray]:
    """Return how sheltered each block is from wind of each sector, and what that leaves of it."""
    table = values("microclimate", "shelter")
    reach = {"reach": table.pop("reach"), "half_sector": table.pop("half_sector")}
    by_sector = [
        mean_over_cover(
            upwind_shelter(
                ground, season.cover_cell.values, **cell, wind_from_direction=direction, **reach
            ),
            **_cover(season),
        )[0]
        for direction in sector_directions().tolist()
    ]
    shelter = np.stack(by_sector, axis=1)
    return {
        v.SHELTER: shelter,
        # Where nothing is known the wind of the open is taken.
        v.WIND_SHARE: wind_share(np.nan_to_num(shelter), **table) * _behind_windbreaks(season),
    }


def _behind_windbreaks(season: xr.Dataset) -> FloatArray:
    """Return the share of the wind of each sector that drawn windbreaks leave to each block."""
    table = values("microclimate", "windbreak")
    usual_height, usual_porosity = table.pop("height"), table.pop("porosity")
    height, porosity = season.windbreak_height.values, season.windbreak_porosity.values
    return windbreak_factor(
        Windbreaks(
            start=np.column_stack([season.windbreak_start_x, season.windbreak_start_y]),
            end=np.column_stack([season.windbreak_end_x, season.windbreak_end_y]),
            height=np.where(np.isnan(height), usual_height, height),
            porosity=np.where(np.isnan(porosity), usual_porosity, porosity),
        ),
        WindbreakLaw(**table),
        point_block=season.point_block.values,
        point_x=season.point_x.values,
        point_y=season.point_y.values,
        point_share=season.point_share.values,
        block_count=season.sizes[v.BLOCK],
        wind_from_direction=sector_directions(),
    )


def _over_blocks(season: xr.Dataset, grid: FloatArray) -> tuple[FloatArray, FloatArray]:
    return zonal_mean(
        grid,
        cover_cell=season.cover_cell.values,
        **_cover(season),
    )


def _cover(season: xr.Dataset) -> dict[str, Any]:
    return {
        "cover_block": season.cover_block.values,
        "cover_share": season.cover_share.values,
        "block_count": season.sizes[v.BLOCK],
    }


TERRAIN = Layer(
    name="terrain",
    question="where cold air pools",
    needs=(
        v.ELEVATION_GRID,
        v.CELL_WIDTH,
        v.CELL_HEIGHT,
        v.COVER_BLOCK,
        v.COVER_CELL,
        v.COVER_SHARE,
        v.BLOCK_CELLS,
        v.VERTICAL_ERROR,
        v.STATION_ELEVATION,
        v.STATION_CELL,
        v.STATION_WEIGHT,
        v.AREA,
        v.LINE_CELL,
        v.LINE_IS_DRAIN,
        v.LINE_HEIGHT,
        v.WINDBREAK_START_X,
        v.WINDBREAK_START_Y,
        v.WINDBREAK_END_X,
        v.WINDBREAK_END_Y,
        v.WINDBREAK_HEIGHT,
        v.WINDBREAK_POROSITY,
        v.POINT_BLOCK,
        v.POINT_X,
        v.POINT_Y,
        v.POINT_SHARE,
    ),
    gives=(
        v.POOL_DEPTH_GRID,
        v.ELEVATION,
        v.POOL_DEPTH,
        v.STATION_POOL_DEPTH,
        v.TERRAIN_COVERED,
        v.TERRAIN_DOUBT,
        v.SLOPE,
        v.ASPECT,
        v.TOPOGRAPHIC_POSITION,
        v.DEPRESSION_DEPTH,
        v.COLD_AIR_ACCUMULATION,
        v.SHELTER,
        v.WIND_SHARE,
    ),
    compute=_compute,
)
