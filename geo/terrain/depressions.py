"""How deep are closed depressions: ground from which air cannot flow off without rising?"""

import numpy as np

from geo.arrays import FloatArray


def depression_depth(elevation_grid: FloatArray) -> FloatArray:
    r"""
    Return how far each cell lies below the level at which its depression would spill.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown: air may leave there, as over the grid's edge.

    Returns
    -------
    [m]
        Same shape, 0 outside depressions. NaN where the ground is unknown.

    Notes
    -----
    The spill level is the smallest surface with :math:`w \ge z` and
    :math:`w = \max(z, \min_{neighbours} w)`, reached from above by sweeping the grid row by row
    and column by column in both directions until nothing changes (Planchon and Darboux 2001
    without their slope; planchon2001).
    """
    known = ~np.isnan(elevation_grid)
    ground = np.where(known, elevation_grid, -np.inf)
    level = np.full_like(ground, np.inf)
    level[~known] = -np.inf
    level[0], level[-1] = ground[0], ground[-1]
    level[:, 0], level[:, -1] = ground[:, 0], ground[:, -1]
    before = np.full_like(level, np.nan)
    # Levels only ever fall, and only to one of the grid's own heights: so this ends. A round
    # carries them straight across the grid; only winding valleys need more than a few.
    while not np.array_equal(before, level):
        before = level.copy()
        for grid, surface in ((ground, level), (ground.T, level.T)):
            _sweep(grid, surface)
            _sweep(grid[::-1], surface[::-1])
    with np.errstate(invalid="ignore"):  # inf - inf over unknown cells
        return np.where(known, level - elevation_grid, np.nan)


def _sweep(ground: FloatArray, level: FloatArray) -> None:
    """Lower each row to what the row before it lets through, in place."""
    for row in range(1, len(ground)):
        before = level[row - 1]
        lowest = before.copy()
        np.minimum(lowest[1:], before[:-1], out=lowest[1:])
        np.minimum(lowest[:-1], before[1:], out=lowest[:-1])
        np.minimum(level[row], np.maximum(ground[row], lowest), out=level[row])
