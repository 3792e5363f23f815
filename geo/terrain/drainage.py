"""Which way does air drain from each cell?"""

import numpy as np

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.terrain.windows import bands

NEIGHBOURS = tuple(
    (down, right) for down in (-1, 0, 1) for right in (-1, 0, 1) if (down, right) != (0, 0)
)
CELLS_IN_CACHE = 1 << 18  # a few arrays of so many stay near the processor


def steepest_receiver(
    elevation_grid: FloatArray,
    *,
    cell_width: float,
    cell_height: float,
    most_cells: int = CELLS_IN_CACHE,
) -> IntArray:
    """
    Return the neighbour that each cell's air flows to.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.
    most_cells : [1]
        Cells worked on at once.

    Returns
    -------
    [1]
        Same shape, 32-bit if they do: flat index of the steepest lower neighbour of eight, the
        cell's own where none is lower, -1 where the ground is unknown.
    """
    columns = elevation_grid.shape[1]
    index = np.result_type(np.int32, np.min_scalar_type(-elevation_grid.size))
    result: AnyArray = np.empty(elevation_grid.shape, index)
    for band in bands(elevation_grid.shape, halo=1, most_cells=most_cells):
        ground = np.pad(elevation_grid[band.around], 1, constant_values=np.nan)
        rows, first = band.rows.stop - band.rows.start, band.within.start + 1
        here = ground[first : first + rows, 1 : 1 + columns]
        steepest, step = np.zeros(here.shape), np.zeros(here.shape, index)
        for down, right in NEIGHBOURS:
            start = first + down
            fall = here - ground[start : start + rows, 1 + right : 1 + right + columns]
            fall *= 1.0 / np.hypot(down * cell_height, right * cell_width)
            steeper = fall > steepest  # false where either is NaN
            np.copyto(steepest, fall, where=steeper)
            np.copyto(step, down * columns + right, where=steeper)
        own = np.arange(band.rows.start * columns, band.rows.stop * columns, dtype=index)
        result[band.rows] = np.where(np.isnan(here), -1, own.reshape(here.shape) + step)
    return result
