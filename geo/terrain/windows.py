"""How is a grid worked on that is too large to be worked on at once?"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np

from geo.arrays import AnyArray, FloatArray

MOST_CELLS_AT_ONCE = 8_000_000  # some 64 MB an array: a kernel holds about ten of them


class Band(NamedTuple):
    """
    Some rows of a grid, with as many around them as a kernel looks at.

    Attributes
    ----------
    rows : slice
        Of the grid.
    around : slice
        Of the grid, with the halo.
    within : slice
        The same rows as ``rows``, counted from the first of ``around``.
    """

    rows: slice
    around: slice
    within: slice


def bands(
    shape: tuple[int, ...], *, halo: int = 0, most_cells: int = MOST_CELLS_AT_ONCE
) -> Iterator[Band]:
    """
    Cut a grid into bands of rows.

    Parameters
    ----------
    shape : tuple of int
        Rows and columns.
    halo : [1]
        How many rows around a cell the kernel looks at.
    most_cells : [1]
        Cells in a band, without its halo.

    Yields
    ------
    Band
        From the first row to the last.
    """
    rows, columns = shape
    deep = max(1, most_cells // max(columns, 1))
    for first in range(0, rows, deep):
        last = min(first + deep, rows)
        start = max(first - halo, 0)
        yield Band(
            slice(first, last),
            slice(start, min(last + halo, rows)),
            slice(first - start, last - start),
        )


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
    result: AnyArray = np.empty(grid.shape, grid.dtype)
    for band in bands(grid.shape, halo=halo, most_cells=most_cells):
        result[band.rows] = kernel(np.asarray(grid[band.around]))[band.within]
    return result
