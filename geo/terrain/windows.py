"""How is a grid worked on that is too large to be worked on at once?"""

from collections.abc import Callable

import numpy as np

from geo.arrays import AnyArray, FloatArray

MOST_CELLS_AT_ONCE = 8_000_000  # some 64 MB an array: a kernel holds about ten of them


def in_row_windows(
    kernel: Callable[[FloatArray], FloatArray],
    grid: FloatArray,
    *,
    halo: int,
    most_cells: int = MOST_CELLS_AT_ONCE,
) -> FloatArray:
    """
    Return what a kernel makes of a grid, a band of rows at a time.

    Parameters
    ----------
    kernel : callable
        Grid in, grid of the same shape out.
    grid : [any]
        Shape (row, column). May lie on disk, mapped into memory.
    halo : [1]
        How many rows around a cell the kernel looks at: so many more are given to it.
    most_cells : [1]
        Cells in a band, without its halo.

    Returns
    -------
    [any]
        Same shape; the same as the kernel gives at once.
    """
    rows, columns = grid.shape
    deep = max(1, most_cells // max(columns, 1))
    if rows <= deep:
        return kernel(grid)
    result: AnyArray = np.empty(grid.shape, grid.dtype)
    for first in range(0, rows, deep):
        last = min(first + deep, rows)
        start, stop = max(first - halo, 0), min(last + halo, rows)
        result[first:last] = kernel(np.asarray(grid[start:stop]))[first - start : last - start]
    return result
