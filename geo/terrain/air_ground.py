"""The ground as cold air meets it: with the dams and drains that somebody drew."""

import numpy as np

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.terrain.windows import bands


def with_lines(
    elevation_grid: FloatArray,
    *,
    line_cell: IntArray,
    line_is_drain: IntArray,
    line_height: FloatArray,
    dam_height: float,
    drain_depth: float,
) -> FloatArray:
    """
    Return the ground with drawn lines in it.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown, and so it stays.
    line_cell : [1]
        Flat index of each cell under a line.
    line_is_drain : [1]
        1 for a drain, 0 for a dam.
    line_height : [m]
        Height of a dam or depth of a drain, NaN where the drawing gives none.
    dam_height, drain_depth : [m]
        What is taken there.

    Returns
    -------
    [m]
        Same shape. Under several dams the highest counts, under a drain the deepest drain alone:
        a drain goes through a dam.
    """
    if line_cell.size == 0:
        return elevation_grid
    usual = np.where(line_is_drain == 1, drain_depth, dam_height)
    height = np.where(np.isnan(line_height), usual, line_height)
    cell, line = np.unique(line_cell, return_inverse=True)
    lifted, cut = np.zeros(cell.size), np.zeros(cell.size)
    np.maximum.at(lifted, line, np.where(line_is_drain == 1, 0.0, height))
    np.maximum.at(cut, line, np.where(line_is_drain == 1, height, 0.0))
    ground: AnyArray = elevation_grid.copy()
    ground.ravel()[cell] += np.where(cut > 0.0, -cut, lifted)
    return ground


def pool_depth_with_lines(
    pool_depth_grid: FloatArray, *, hollow_grid: FloatArray, hollow_grid_with_lines: FloatArray
) -> FloatArray:
    """
    Return pool depth with what drawn lines hold back or let off.

    Parameters
    ----------
    pool_depth_grid : [m]
        Of the ground without lines. NaN where unknown.
    hollow_grid, hollow_grid_with_lines : [m]
        Depth of closed depressions in the ground without lines and with them.

    Returns
    -------
    [m]
        Same shape, never negative: deeper by the hollow that a dam closes, shallower by that
        which a drain opens. Our own rule: a wall a cell wide hardly lifts the mean ground around
        it, so that pool depth by itself would not see it.
    """
    depth: AnyArray = np.empty_like(pool_depth_grid)
    for band in bands(depth.shape):
        change = hollow_grid_with_lines[band.rows] - hollow_grid[band.rows]
        depth[band.rows] = np.maximum(pool_depth_grid[band.rows] + change, 0.0)
    return depth
