"""The mean of a grid over each block, exact to the share of every cell."""

import numpy as np

from geo.arrays import AnyArray, FloatArray, IntArray


def zonal_mean(
    grid: FloatArray,
    *,
    cover_block: IntArray,
    cover_cell: IntArray,
    cover_share: FloatArray,
    block_count: int,
) -> tuple[FloatArray, FloatArray]:
    """
    Return each block's area-weighted mean and how many of its cells are known.

    Parameters
    ----------
    grid : [any]
        Shape (row, column). NaN where unknown.
    cover_block : [1]
        Block of each covered cell, shape (cover,).
    cover_cell : [1]
        Flat index of each covered cell.
    cover_share : [1]
        Share of each cell that lies inside the block.
    block_count : [1]
        Number of blocks.

    Returns
    -------
    [any]
        Mean, shape (block,); NaN for a block with nothing known.
    [1]
        Cells with a known value, by their shares inside the block, shape (block,); 0 for none.
    """
    return mean_over_cover(
        grid.ravel()[cover_cell],
        cover_block=cover_block,
        cover_share=cover_share,
        block_count=block_count,
    )


def mean_over_cover(
    value: FloatArray, *, cover_block: IntArray, cover_share: FloatArray, block_count: int
) -> tuple[FloatArray, FloatArray]:
    """
    Return each block's mean of what is known at its covered cells.

    Parameters
    ----------
    value : [any]
        At each covered cell, shape (cover,). NaN where unknown.
    cover_block : [1]
        Block of each covered cell.
    cover_share : [1]
        Share of each cell that lies inside the block.
    block_count : [1]
        Number of blocks.

    Returns
    -------
    [any]
        Mean, shape (block,); NaN for a block with nothing known.
    [1]
        Cells with a known value, by their shares inside the block, shape (block,); 0 for none.
    """
    known = ~np.isnan(value)
    weight: AnyArray = np.bincount(cover_block[known], cover_share[known], minlength=block_count)
    total = np.bincount(cover_block[known], (cover_share * value)[known], minlength=block_count)
    mean = np.full(block_count, np.nan)
    np.divide(total, weight, out=mean, where=weight > 0)
    return mean, weight
