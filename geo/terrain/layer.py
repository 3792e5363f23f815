"""The terrain layer of the season."""

import numpy as np
import xarray as xr

from geo.reference.number import values
from geo.season import variables as v
from geo.season.layer import Layer
from geo.terrain.pool_depth import pool_depth
from geo.terrain.zonal import zonal_mean


def _compute(season: xr.Dataset) -> xr.Dataset:
    pool = values("microclimate", "pool")
    depth = pool_depth(
        season.elevation_grid.values,
        cell_width=float(season.cell_width),
        cell_height=float(season.cell_height),
        radius=pool["radius"],
        slope_limit=pool["slope_limit"],
    )
    cover = {
        "cover_block": season.cover_block.values,
        "cover_cell": season.cover_cell.values,
        "cover_share": season.cover_share.values,
        "block_count": season.sizes["block"],
    }
    elevation, covered = zonal_mean(season.elevation_grid.values, **cover)
    block_depth, _ = zonal_mean(depth, **cover)
    cell = season.station_cell.values
    # A station off the map, or on unknown ground, is taken to stand in no pool.
    at_stations = np.nan_to_num(np.where(cell >= 0, depth.ravel()[cell], 0.0))
    return xr.Dataset(
        {
            v.POOL_DEPTH_GRID.name: (v.POOL_DEPTH_GRID.dims, depth),
            v.ELEVATION.name: (v.ELEVATION.dims, elevation),
            v.POOL_DEPTH.name: (v.POOL_DEPTH.dims, block_depth),
            v.STATION_POOL_DEPTH.name: ((), float(at_stations @ season.station_weight.values)),
            v.TERRAIN_COVERED.name: (v.TERRAIN_COVERED.dims, covered),
        }
    )


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
        v.STATION_CELL,
        v.STATION_WEIGHT,
        v.AREA,
    ),
    gives=(
        v.POOL_DEPTH_GRID,
        v.ELEVATION,
        v.POOL_DEPTH,
        v.STATION_POOL_DEPTH,
        v.TERRAIN_COVERED,
    ),
    compute=_compute,
)
