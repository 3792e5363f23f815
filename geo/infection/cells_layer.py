"""The layer that gives every cell of the elevation model its season so far."""

import xarray as xr

from geo.infection.over_season import season_mean
from geo.season import variables as v
from geo.season.layer import Layer
from geo.season.pixels import at_pixels
from geo.season.today import today_index
from geo.texts import mark


def _compute(season: xr.Dataset) -> xr.Dataset:
    at_spots = season_mean(season.favourability_at_spot.values, today=today_index(season))
    grid = at_pixels(
        at_spots[season.spot_of_knot.values],
        knot_pool_depth=season.knot_pool_depth.values,
        knot_elevation=season.knot_elevation.values,
        pool_depth_grid=season.pool_depth_grid.values,
        elevation_grid=season.elevation_grid.values,
    )
    name, dims = v.SEASON_FAVOURABILITY_GRID.name, v.SEASON_FAVOURABILITY_GRID.dims
    return xr.Dataset({name: (dims, grid)})


FAVOURABLE_CELLS = Layer(
    name="cells",
    question=mark("how favourable each cell has been"),
    needs=(
        v.FAVOURABILITY_AT_SPOT,
        v.HOUR_DAY,
        v.IS_FORECAST,
        v.SPOT_OF_KNOT,
        v.KNOT_POOL_DEPTH,
        v.KNOT_ELEVATION,
        v.POOL_DEPTH_GRID,
        v.ELEVATION_GRID,
    ),
    gives=(v.SEASON_FAVOURABILITY_GRID,),
    compute=_compute,
)
