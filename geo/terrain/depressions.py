"""How deep are closed depressions: ground from which air cannot flow off without rising?"""

from collections.abc import Iterator

import numpy as np
from scipy.ndimage import label
from scipy.sparse import csr_array
from scipy.sparse.csgraph import breadth_first_order, minimum_spanning_tree

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.terrain.windows import bands

CELLS_AT_ONCE = 1 << 20  # our own choice: some tens of megabytes for the working arrays
OUTSIDE = 0  # the basin of unknown ground, and of all beyond the grid
HALF_OF_NEIGHBOURS = ((0, 1), (1, -1), (1, 0), (1, 1))  # each pair of cells once


def depression_depth(
    elevation_grid: FloatArray, receiver: IntArray, *, most_cells: int = CELLS_AT_ONCE
) -> FloatArray:
    r"""
    Return how far each cell lies below the level at which its depression would spill.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown: air may leave there, as over the grid's edge.
    receiver : [1]
        Same shape, as `steepest_receiver` gives it.
    most_cells : [1]
        Cells worked on at once.

    Returns
    -------
    [m]
        Same shape, 0 outside depressions. NaN where the ground is unknown.

    Notes
    -----
    The spill level is the smallest surface with :math:`w \ge z` and
    :math:`w = \max(z, \min_{neighbours} w)` (Planchon and Darboux 2001 without their slope;
    planchon2001). All cells that drain to one lowest spot are a basin, and basins meet at
    passes: the way off that rises least runs along the minimum spanning tree of basins and
    their lowest passes. A cell's surface is the level of its basin, or its own ground above it.
    """
    basin, count = _basins(receiver, most_cells)
    level = _spill_level(*_passes(elevation_grid, basin, count, most_cells), count)
    depth: AnyArray = np.empty(elevation_grid.shape)
    for band in bands(elevation_grid.shape, most_cells=most_cells):
        over = level[basin[band.rows]] - elevation_grid[band.rows]
        depth[band.rows] = np.maximum(over, 0.0)
    return depth


def _basins(receiver: IntArray, most_cells: int) -> tuple[IntArray, int]:
    """Return the basin of each cell, and how many there are with the outside."""
    columns = receiver.shape[1]
    own = np.arange(receiver.size, dtype=receiver.dtype).reshape(receiver.shape)
    # Lowest cells that touch are equally high, or one would drain to the other: one basin.
    lowest, count = label(receiver == own, structure=np.ones((3, 3)), output=receiver.dtype)
    known = receiver >= 0
    end: AnyArray = np.where(known, receiver, own).ravel()
    del own
    pieces = [slice(start, start + most_cells) for start in range(0, end.size, most_cells)]
    while pieces:  # each round doubles how far every cell has looked down its way
        pieces = [piece for piece in pieces if _look_further(end, piece)]
    basin: AnyArray = np.empty_like(lowest)
    for band in bands(receiver.shape, most_cells=most_cells):
        cells = slice(band.rows.start * columns, band.rows.stop * columns)
        basin[band.rows] = lowest.ravel()[end[cells]].reshape(-1, columns)
    return basin, count + 1


def _look_further(end: AnyArray, piece: slice) -> bool:
    further = end[end[piece]]
    is_new = bool((further != end[piece]).any())
    end[piece] = further
    return is_new


def _passes(
    elevation_grid: FloatArray, basin: IntArray, count: int, most_cells: int
) -> tuple[IntArray, IntArray, FloatArray]:
    """Return each pair of basins that touch, with the height of their lowest pass."""
    pairs, heights = [np.empty(0, np.int64)], [np.empty(0)]
    for band in bands(elevation_grid.shape, most_cells=most_cells):
        found = list(_touching(elevation_grid, basin, count, rows=band.rows))
        pair, height = _lowest(*(np.concatenate(part) for part in zip(*found, strict=True)))
        pairs.append(pair)
        heights.append(height)
    pair, height = _lowest(np.concatenate(pairs), np.concatenate(heights))
    one, other = np.divmod(pair, count)
    return one, other, height


def _touching(
    elevation_grid: FloatArray, basin: IntArray, count: int, *, rows: slice
) -> Iterator[tuple[IntArray, FloatArray]]:
    """Yield pairs of basins, as one number each, with the height of a pass between them."""
    last = len(basin)
    # A ring of outside around the grid: over its edge, air leaves at the height of the edge.
    ring = ((int(rows.start == 0), int(rows.stop == last)), (1, 1))
    some = slice(rows.start, min(rows.stop + 1, last))
    whose = np.pad(basin[some], ring, constant_values=OUTSIDE)
    ground = np.pad(elevation_grid[some], ring, constant_values=np.nan)
    height, width = whose.shape
    for down, right in HALF_OF_NEIGHBOURS:
        here = slice(0, height - down), slice(max(-right, 0), width - max(right, 0))
        there = slice(down, height), slice(max(right, 0), width - max(-right, 0))
        touch = np.flatnonzero(whose[here] != whose[there])
        one, other = whose[here].ravel()[touch], whose[there].ravel()[touch]
        low, high = np.minimum(one, other).astype(np.int64), np.maximum(one, other)
        # The higher of both cells; beside unknown ground, the known one.
        over = np.fmax(ground[here].ravel()[touch], ground[there].ravel()[touch])
        yield low * count + high, over


def _lowest(pair: IntArray, height: FloatArray) -> tuple[IntArray, FloatArray]:
    order = np.argsort(pair)
    pair, height = pair[order], height[order]
    first = np.flatnonzero(np.append(True, pair[1:] != pair[:-1])[: pair.size])
    return pair[first], np.minimum.reduceat(height, first) if first.size else height


def _spill_level(one: IntArray, other: IntArray, height: FloatArray, count: int) -> FloatArray:
    """Return the level of each basin: the highest pass on its lowest way out."""
    order = np.argsort(height)
    rank: AnyArray = np.empty(order.size)
    # Ranks, from 1: the tree takes a pass at height 0 for no pass.
    rank[order] = np.arange(1, order.size + 1)
    tree = minimum_spanning_tree(csr_array((rank, (one, other)), shape=(count, count)))
    _, towards = breadth_first_order(tree, OUTSIDE, directed=False)
    towards = np.maximum(towards, OUTSIDE)
    tree = tree.tocoo()
    leaves_by: AnyArray = np.zeros(count, np.int64)
    # Each pass of the tree is the way out of one of the two basins it joins.
    is_child = towards[tree.row] == tree.col
    is_child &= tree.row != OUTSIDE
    child = np.where(is_child, tree.row, tree.col)
    leaves_by[child] = tree.data.astype(np.int64)
    while (towards != OUTSIDE).any():
        np.maximum(leaves_by, leaves_by[towards], out=leaves_by)
        towards = towards[towards]
    level: FloatArray = np.append(np.nan, height[order])[leaves_by]
    return level
