"""From a table over pool depth and height to every cell of the elevation grid between its knots."""

import numpy as np
from scipy.interpolate import RectBivariateSpline
from scipy.ndimage import map_coordinates

from geo.arrays import AnyArray, FloatArray

REFINEMENT = 8  # our own choice: the spline leaves less error than the straight lines across it
CELLS_AT_ONCE = 1 << 20  # our own choice: some tens of megabytes for the working arrays


def at_pixels(
    at_knots: FloatArray,
    *,
    knot_pool_depth: FloatArray,
    knot_elevation: FloatArray,
    pool_depth_grid: FloatArray,
    elevation_grid: FloatArray,
    cells_at_once: int = CELLS_AT_ONCE,
) -> AnyArray:
    """
    Return what each cell feels, from what the knots around it feel.

    Parameters
    ----------
    at_knots : [any]
        Shape (pool_knot, height_knot), at least four each.
    knot_pool_depth : [m]
        Shape (pool_knot,), rising.
    knot_elevation : [m]
        Shape (height_knot,), rising.
    pool_depth_grid, elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cells_at_once : [1]
        Rows are taken in windows of about so many cells, so that memory stays bounded.

    Returns
    -------
    [any]
        Shape (row, column), 32-bit numbers. NaN where the ground is unknown, or a knot is.

    Notes
    -----
    A cubic spline through the knots is drawn out once into a table eight times as fine; cells lie
    between its entries by straight lines. Cells beyond the knots feel what the last knot feels.
    """
    rows, columns = elevation_grid.shape
    found = np.full((rows, columns), np.nan, dtype=np.float32)
    if not np.isfinite(at_knots).all():
        return found
    fine_depth, fine_height = _refined(knot_pool_depth), _refined(knot_elevation)
    spline = RectBivariateSpline(knot_pool_depth, knot_elevation, at_knots)
    # Between kinks a spline may swing beyond what any knot feels; a share may not.
    table = np.clip(spline(fine_depth, fine_height), at_knots.min(), at_knots.max())
    step = max(1, cells_at_once // max(columns, 1))
    for first in range(0, rows, step):
        window = slice(first, first + step)
        depth, height = pool_depth_grid[window], elevation_grid[window]
        places = np.stack([_place(depth, fine_depth), _place(height, fine_height)])
        is_known = np.isfinite(places).all(axis=0)
        felt = map_coordinates(table, np.nan_to_num(places), order=1, mode="nearest")
        found[window] = np.where(is_known, felt, np.nan)
    return found


def _refined(knots: FloatArray) -> FloatArray:
    count = (knots.size - 1) * REFINEMENT + 1
    between: FloatArray = np.interp(np.linspace(0, knots.size - 1, count), range(knots.size), knots)
    return between


def _place(value: FloatArray, entries: FloatArray) -> FloatArray:
    place: FloatArray = np.interp(value, entries, np.arange(entries.size, dtype=float))
    return place
