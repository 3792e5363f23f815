"""What is the mean of a large grid's kernels over each block, without keeping their results?"""

from collections.abc import Callable, Iterable
from typing import NamedTuple, TypedDict

import numpy as np

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.terrain.windows import MOST_CELLS_AT_ONCE, bands

Grids = Callable[[FloatArray], Iterable[FloatArray]]
ValuesAt = Callable[[FloatArray, IntArray], Iterable[FloatArray]]
Means = Callable[..., FloatArray]  # `block_means` of known blocks


class CellSize(TypedDict):
    """Width and height of a cell, in m."""

    cell_width: float
    cell_height: float


class BlockCover(NamedTuple):
    """
    Which cells blocks cover.

    Attributes
    ----------
    block : numpy.ndarray
        [1] Block of each covered cell.
    cell : numpy.ndarray
        [1] Its flat index.
    share : numpy.ndarray
        [1] Share of the cell inside the block.
    block_count : int
        [1] Number of blocks.
    """

    block: IntArray
    cell: IntArray
    share: FloatArray
    block_count: int


def block_means(
    values_at: ValuesAt,
    grid: FloatArray,
    cover: BlockCover,
    *,
    quantities: int,
    halo: int,
    most_cells: int = MOST_CELLS_AT_ONCE,
) -> FloatArray:
    """
    Return each block's means of what a kernel makes of a grid, a band of rows at a time.

    Parameters
    ----------
    values_at : callable
        Rows of the grid and flat indices into them in; quantities at those cells out, one array
        after the other.
    grid : [any]
        Shape (row, column). NaN where unknown.
    cover : BlockCover
        How the blocks lie on the grid.
    quantities : [1]
        How many arrays the kernel gives.
    halo : [1]
        How many rows around a cell the kernel looks at.
    most_cells : [1]
        Cells in a band, without its halo.

    Returns
    -------
    [any]
        Shape (quantity, block): the area-weighted mean of what is known, NaN for a block with
        nothing known. Bands that no block touches are never worked on.
    """
    columns = grid.shape[1]
    order = np.argsort(cover.cell, kind="stable")
    cell = cover.cell[order]
    weight = np.zeros((quantities, cover.block_count))
    total = np.zeros((quantities, cover.block_count))
    for band in bands(grid.shape, halo=halo, most_cells=most_cells):
        ends = np.searchsorted(cell, [band.rows.start * columns, band.rows.stop * columns])
        here = order[slice(*ends)]
        if not here.size:
            continue
        inside = cell[slice(*ends)] - band.around.start * columns
        block, share = cover.block[here], cover.share[here]
        for place, value in enumerate(values_at(np.asarray(grid[band.around]), inside)):
            known = ~np.isnan(value)
            weight[place] += np.bincount(block, share * known, cover.block_count)
            total[place] += np.bincount(
                block, share * np.where(known, value, 0.0), cover.block_count
            )
    mean: AnyArray = np.full(total.shape, np.nan)
    return np.divide(total, weight, out=mean, where=weight > 0)


def at_cells(grids: Grids) -> ValuesAt:
    """
    Return a kernel of whole grids as one of cells.

    Parameters
    ----------
    grids : callable
        Grid in, grids of the same shape out, one after the other.

    Returns
    -------
    callable
        For `block_means`.
    """

    def values_at(grid: FloatArray, cell: IntArray) -> Iterable[FloatArray]:
        for made in grids(grid):
            yield made.ravel()[cell]

    return values_at
