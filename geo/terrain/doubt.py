"""How far can the ground be trusted, and what stands in where it is not known?"""

import numpy as np

from geo.arrays import AnyArray, FloatArray, IntArray

WHOLE_DIGITS = 4  # a ten-thousandth of a block is less than shares of cells are exact to


def beyond_error(depth: FloatArray, *, vertical_error: float) -> FloatArray:
    """
    Return what is left of a depth when the elevation file's own error is taken off.

    Parameters
    ----------
    depth : [m]
        Not negative. NaN where unknown.
    vertical_error : [m]
        By how much a height may be off from cell to cell.

    Returns
    -------
    [m]
        Same shape: 0 up to the error, and from there on by so much less. Taken off, not cut off:
        a depth just beyond the error is then a pool of next to nothing, while a cut would make
        noise that passes it a pool of full depth and a cliff on the map. The price is that each
        pool counts as shallower by the error, which the ground's doubt covers.
    """
    if vertical_error == 0.0:
        return depth
    left: FloatArray = np.maximum(depth - vertical_error, 0.0)
    return left


def known_share(known_cells: FloatArray, block_cells: FloatArray) -> FloatArray:
    """
    Return how much of each block has known ground.

    Parameters
    ----------
    known_cells : [1]
        Cells of known ground in each block.
    block_cells : [1]
        Cells in the whole block, those off the grid too.

    Returns
    -------
    [1]
        Share from 0 to 1.
    """
    share: FloatArray = np.minimum(np.round(known_cells / block_cells, WHOLE_DIGITS), 1.0)
    return share


def is_too_coarse(block_cells: FloatArray, *, half: tuple[int, int]) -> AnyArray:
    """
    Return which blocks are too small for the elevation's cells to tell of a pool.

    Parameters
    ----------
    block_cells : [1]
        Size of each block in cells.
    half : [1]
        Rows and columns to each side within which pools are judged.

    Returns
    -------
    [1]
        True for a block smaller than a cell; for all where a cell is all there is around.
    """
    found: AnyArray = (block_cells < 1.0) | (0 in half)
    return found


def unknown_around(
    elevation_grid: FloatArray, *, cell: IntArray, half: tuple[int, int]
) -> FloatArray:
    """
    Return how much of the ground around cells is unknown or off the grid.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell : [1]
        Flat index of the cells asked for.
    half : [1]
        Rows up and down, columns left and right that count as around.

    Returns
    -------
    [1]
        Share from 0 to 1, shape of ``cell``.
    """
    rows, columns = elevation_grid.shape
    row, column = np.divmod(cell, columns)
    top, bottom = np.maximum(row - half[0], 0), np.minimum(row + half[0] + 1, rows)
    left, right = np.maximum(column - half[1], 0), np.minimum(column + half[1] + 1, columns)
    known = (bottom - top) * (right - left)
    is_unknown = np.isnan(elevation_grid)
    if is_unknown.any():
        # Sums over all that lies up and to the left: four of them give any rectangle.
        total = np.zeros((rows + 1, columns + 1), dtype=np.int32)
        np.cumsum(is_unknown, axis=0, out=total[1:, 1:])
        np.cumsum(total[1:, 1:], axis=1, out=total[1:, 1:])
        known = known - (
            total[bottom, right] - total[top, right] - total[bottom, left] + total[top, left]
        )
    around = (2 * half[0] + 1) * (2 * half[1] + 1)
    share: FloatArray = 1.0 - known / around
    return share


def terrain_doubt(
    terrain_covered: FloatArray,
    unknown_share: FloatArray,
    is_coarse: AnyArray,
    vertical_error: float,
    *,
    missing_doubt: float,
    coarse_doubt: float,
    edge_doubt: float,
    error_doubt: float,
) -> FloatArray:
    """
    Return how doubtful a block's hazard is for want of good terrain.

    Parameters
    ----------
    terrain_covered : [1]
        Share of each block with known ground.
    unknown_share : [1]
        Share of the ground around it that is unknown; NaN for a block off the grid.
    is_coarse : [1]
        Whether the cells are too large for the block.
    vertical_error : [m]
        Of the elevation file.
    missing_doubt : [1]
        Doubt if nothing is known of the block's ground.
    coarse_doubt : [1]
        Doubt if cells are too large for the block.
    edge_doubt : [1]
        Doubt if nothing were known around.
    error_doubt : [m-1]
        Doubt for each metre of vertical error.

    Returns
    -------
    [1]
        Standard deviation of the hazard's logarithm: the four parts are taken to be independent,
        so that their squares add up. 0 for perfect ground.
    """
    parts = (
        missing_doubt * (1.0 - terrain_covered),
        coarse_doubt * is_coarse,
        edge_doubt * np.nan_to_num(unknown_share, nan=1.0),
        np.full(terrain_covered.shape, error_doubt * vertical_error),
    )
    doubt: FloatArray = np.sqrt(sum(np.square(part) for part in parts))
    return doubt
