"""How deep does a spot lie in its surroundings, so that cold air can stand on it?"""

from functools import partial

import numpy as np

from geo.arrays import FloatArray
from geo.terrain.doubt import beyond_error
from geo.terrain.mean_around import topographic_position, window_half
from geo.terrain.slope import gradient_horn1981, slope
from geo.terrain.windows import MOST_CELLS_AT_ONCE, in_row_windows


def pool_depth(
    elevation_grid: FloatArray,
    *,
    cell_width: float,
    cell_height: float,
    radius: float,
    slope_limit: float,
    vertical_error: float = 0.0,
) -> FloatArray:
    r"""
    Return how deep each cell lies below its surroundings, less where the ground is steep.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.
    radius : [m]
        How far the surroundings reach.
    slope_limit : [1]
        Rise over run from which on no pool stands.
    vertical_error : [m]
        Of the elevation file: so much less deep counts each cell, see `beyond_error`.

    Returns
    -------
    [m]
        Same shape, never negative, 0 on flat ground. NaN where the ground is unknown.

    Notes
    -----
    The topographic position index with its sign turned, damped by slope:
    :math:`D = \max(0, \bar z_R - z - e) \cdot \max(0, 1 - s / s_{max})`. Which radius counts as
    "surroundings" is the most influential choice of the whole weather model.
    """
    position = topographic_position(
        elevation_grid, cell_width=cell_width, cell_height=cell_height, radius=radius
    )
    steepness = slope(
        *gradient_horn1981(elevation_grid, cell_width=cell_width, cell_height=cell_height)
    )
    # Cells larger than the surroundings tell of no pool: known ground without a position has none.
    is_alone = np.isnan(position) & ~np.isnan(elevation_grid)
    depth: FloatArray = np.where(is_alone, 0.0, np.maximum(-position, 0.0))
    depth = beyond_error(depth, vertical_error=vertical_error)
    return depth * np.maximum(1.0 - steepness / slope_limit, 0.0)


def pool_depth_in_windows(
    elevation_grid: FloatArray,
    *,
    cell_width: float,
    cell_height: float,
    radius: float,
    slope_limit: float,
    vertical_error: float = 0.0,
    most_cells: int = MOST_CELLS_AT_ONCE,
) -> FloatArray:
    """
    Return what `pool_depth` gives, a band of rows at a time on large grids.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.
    radius : [m]
        How far the surroundings reach.
    slope_limit : [1]
        Rise over run from which on no pool stands.
    vertical_error : [m]
        Of the elevation file: so much less deep counts each cell, see `beyond_error`.
    most_cells : [1]
        Cells worked on at once, without those around them.

    Returns
    -------
    [m]
        Same shape.
    """
    half = window_half(cell_width=cell_width, cell_height=cell_height, radius=radius)
    halo = max(1, half[0])  # the slope looks one row around, however small the radius
    kernel = partial(
        pool_depth,
        cell_width=cell_width,
        cell_height=cell_height,
        radius=radius,
        slope_limit=slope_limit,
        vertical_error=vertical_error,
    )
    return in_row_windows(kernel, elevation_grid, halo=halo, most_cells=most_cells)
