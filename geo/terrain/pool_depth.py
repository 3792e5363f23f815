"""How deep does a spot lie in its surroundings, so that cold air can stand on it?"""

from math import pi, sqrt

import numpy as np
from scipy.ndimage import uniform_filter

from geo.arrays import FloatArray
from geo.terrain.slope import gradient_horn1981, slope


def mean_around(
    elevation_grid: FloatArray, *, cell_width: float, cell_height: float, radius: float
) -> FloatArray:
    """
    Return the mean ground around each cell.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.
    radius : [m]
        How far "around" reaches. A square with the area of that circle is used.

    Returns
    -------
    [m]
        Same shape; unknown cells and cells off the grid are left out of the mean, and a cell
        with nothing known around it is NaN.
    """
    side = sqrt(pi) * radius
    size = tuple(max(1, 2 * int(side / cell / 2) + 1) for cell in (cell_height, cell_width))
    known = ~np.isnan(elevation_grid)
    # Centred so that a running sum over high ground loses no digits; on the median, which is
    # the ground itself where all of it is level: then the mean around is exact, not nearly so.
    datum = float(np.nanmedian(elevation_grid)) if known.any() else 0.0
    share = uniform_filter(known.astype(np.float64), size, mode="constant")
    total = uniform_filter(np.where(known, elevation_grid - datum, 0.0), size, mode="constant")
    cells = size[0] * size[1]
    nothing_known = np.rint(share * cells) == 0  # rounded, since a running sum leaves a trace
    mean: FloatArray = np.where(nothing_known, np.nan, total / np.where(nothing_known, 1, share))
    return mean + datum


def pool_depth(
    elevation_grid: FloatArray,
    *,
    cell_width: float,
    cell_height: float,
    radius: float,
    slope_limit: float,
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

    Returns
    -------
    [m]
        Same shape, never negative, 0 on flat ground. NaN where the ground is unknown.

    Notes
    -----
    The topographic position index with its sign turned, damped by slope:
    :math:`D = \max(0, \bar z_R - z) \cdot \max(0, 1 - s / s_{max})`. Which radius counts as
    "surroundings" is the most influential choice of the whole weather model.
    """
    around = mean_around(
        elevation_grid, cell_width=cell_width, cell_height=cell_height, radius=radius
    )
    steepness = slope(
        *gradient_horn1981(elevation_grid, cell_width=cell_width, cell_height=cell_height)
    )
    depth: FloatArray = np.maximum(around - elevation_grid, 0.0)
    return depth * np.maximum(1.0 - steepness / slope_limit, 0.0)
