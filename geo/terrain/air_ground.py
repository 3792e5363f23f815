"""The ground as cold air meets it: with the dams and drains that somebody drew."""

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.terrain.depressions import depression_depth


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
    lifted, cut = np.zeros(elevation_grid.size), np.zeros(elevation_grid.size)
    np.maximum.at(lifted, line_cell, np.where(line_is_drain == 1, 0.0, height))
    np.maximum.at(cut, line_cell, np.where(line_is_drain == 1, height, 0.0))
    rise = np.where(cut > 0.0, -cut, lifted).reshape(elevation_grid.shape)
    ground: FloatArray = elevation_grid + rise
    return ground


def pool_depth_with_lines(
    pool_depth_grid: FloatArray, *, elevation_grid: FloatArray, air_ground_grid: FloatArray
) -> FloatArray:
    """
    Return pool depth with what drawn lines hold back or let off.

    Parameters
    ----------
    pool_depth_grid : [m]
        Of the ground without lines. NaN where unknown.
    elevation_grid : [m]
        The ground without lines.
    air_ground_grid : [m]
        The same with lines.

    Returns
    -------
    [m]
        Same shape, never negative: deeper by the hollow that a dam closes, shallower by that
        which a drain opens. Our own rule: a wall a cell wide hardly lifts the mean ground around
        it, so that pool depth by itself would not see it.
    """
    if air_ground_grid is elevation_grid:
        return pool_depth_grid
    change = depression_depth(air_ground_grid) - depression_depth(elevation_grid)
    depth: FloatArray = np.maximum(pool_depth_grid + change, 0.0)
    return depth
