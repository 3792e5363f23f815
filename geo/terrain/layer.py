"""The terrain layer of the season."""

from collections.abc import Iterator
from functools import partial
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
from geo.terrain.block_means import BlockCover, CellSize, Means, at_cells, block_means
from geo.terrain.cold_air import cold_air_accumulation, flow_accumulation, smoothing_size
from geo.terrain.depressions import depression_depth
from geo.terrain.doubt import (
    beyond_error,
    is_too_coarse,
    known_share,
    terrain_doubt,
    unknown_around,
)
from geo.terrain.drainage import steepest_receiver
from geo.terrain.mean_around import topographic_position, window_half
from geo.terrain.pool_depth import pool_depth_in_windows
from geo.terrain.slope import aspect, gradient_horn1981, slope
from geo.terrain.wind_layer import wind_at_blocks
from geo.terrain.windows import MOST_CELLS_AT_ONCE
from geo.terrain.zonal import mean_over_cover, zonal_mean
from geo.texts import mark

RADII = ("radius_small", "radius_middle", "radius_large")
SHAPES = ("rise eastward", "rise northward", "steepness", *RADII)


def terrain_of(season: xr.Dataset, *, most_cells: int = MOST_CELLS_AT_ONCE) -> xr.Dataset:
    """
    Return what the ground tells of each block.

    Parameters
    ----------
    season : xarray.Dataset
        With what the layer needs.
    most_cells : [1]
        Cells worked on at once; the result hangs on it by rounding only.

    Returns
    -------
    xarray.Dataset
        With what the layer gives. Of whole grids it keeps the pool depth alone.
    """
    ground = season.elevation_grid.values
    cell = CellSize(cell_width=float(season.cell_width), cell_height=float(season.cell_height))
    pool = values("microclimate", "pool")
    cover = BlockCover(
        season.cover_block.values,
        season.cover_cell.values,
        season.cover_share.values,
        season.sizes[v.BLOCK],
    )
    means = partial(block_means, cover=cover, most_cells=most_cells)
    still = _shape(means, ground, cell) | wind_at_blocks(season, means, ground, cell)
    depth = pool_depth_in_windows(
        ground,
        **cell,
        radius=pool["radius"],
        slope_limit=pool["slope_limit"],
        vertical_error=float(season.vertical_error),
        most_cells=most_cells,
    )
    depth, cold_air = _cold_air(season, means, depth, cell)
    elevation, known_cells = _over_blocks(season, ground)
    station = season.station_cell.values
    # A station off the map, or on unknown ground, is taken to stand in no pool.
    at_stations = np.nan_to_num(np.where(station >= 0, depth.ravel()[station], 0.0))
    given: dict[Variable, Any] = {
        v.POOL_DEPTH_GRID: depth,
        v.ELEVATION: elevation,
        v.POOL_DEPTH: _over_blocks(season, depth)[0],
        v.STATION_POOL_DEPTH: float(at_stations @ season.station_weight.values),
        **still,
        **cold_air,
    }
    given |= _trust(season, given, known_cells, cell)
    radii = [values("microclimate", "terrain")[name] for name in RADII]
    return xr.Dataset(
        {variable.name: (variable.dims, array) for variable, array in given.items()},
        coords={v.RADIUS: radii, v.SECTOR: sector_directions()},
    )


def _shape(means: Means, ground: FloatArray, cell: CellSize) -> dict[Variable, FloatArray]:
    """Return what else the ground tells of each block; nothing in the model hangs on it yet."""
    terrain = values("microclimate", "terrain")
    radii = [terrain[name] for name in RADII]

    def shapes(grid: FloatArray) -> Iterator[FloatArray]:
        east, north = gradient_horn1981(grid, **cell)
        yield east
        yield north
        yield np.degrees(np.arctan(slope(east, north)))
        del east, north  # not needed any more, and large
        for radius in radii:
            yield topographic_position(grid, **cell, radius=radius)

    halo = max(1, *(window_half(**cell, radius=radius)[0] for radius in radii))
    east, north, steepness, *positions = means(
        at_cells(shapes), ground, quantities=len(SHAPES), halo=halo
    )
    is_level = slope(east, north) < terrain["level_slope"]
    return {
        v.SLOPE: steepness,
        v.ASPECT: np.where(is_level, np.nan, aspect(east, north)),
        v.TOPOGRAPHIC_POSITION: np.stack(positions, axis=1),
    }


def _trust(
    season: xr.Dataset,
    given: dict[Variable, FloatArray],
    known_cells: FloatArray,
    cell: CellSize,
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
    season: xr.Dataset, means: Means, pool_depth_grid: FloatArray, cell: CellSize
) -> tuple[FloatArray, dict[Variable, FloatArray]]:
    """Return pool depth with drawn lines, and where cold air gathers and stands."""
    ground = season.elevation_grid.values
    air_ground = _air_ground(season, ground)
    receiver = steepest_receiver(air_ground, **cell)
    smoothing_area = values("microclimate", "terrain")["smoothing_area"]

    def smoothed(area: FloatArray) -> list[FloatArray]:
        return [cold_air_accumulation(area, **cell, smoothing_area=smoothing_area)]

    drained = means(
        at_cells(smoothed),
        flow_accumulation(receiver, **cell),
        quantities=1,
        halo=smoothing_size(**cell, smoothing_area=smoothing_area)[0] // 2,
    )
    hollow = depression_depth(air_ground, receiver)
    del receiver  # not needed any more, and large
    depth = pool_depth_grid
    if air_ground is not ground:
        depth = pool_depth_with_lines(
            depth,
            hollow_grid=depression_depth(ground, steepest_receiver(ground, **cell)),
            hollow_grid_with_lines=hollow,
        )
    hollow_at_cover = beyond_error(
        hollow.ravel()[season.cover_cell.values], vertical_error=float(season.vertical_error)
    )
    return depth, {
        v.DEPRESSION_DEPTH: mean_over_cover(hollow_at_cover, **_cover(season))[0],
        v.COLD_AIR_ACCUMULATION: drained[0],
    }


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
    question=mark("where cold air pools"),
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
    compute=terrain_of,
)
