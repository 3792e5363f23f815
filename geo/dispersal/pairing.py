"""How exactly is each pair of block and source worked?"""

from functools import partial

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.dispersal.area_share import mean_over_points, share_landing
from geo.dispersal.exchange import Exchange
from geo.dispersal.far_grid import (
    CELLS_A_DISTANCE,
    FarGrid,
    SoftKernel,
    interpolation,
    sector_from,
)
from geo.dispersal.kernels import Kernel
from geo.dispersal.near import NEAR_DISTANCE, SLOPE_STEP, farthest, has_far_part, near_pairs
from geo.dispersal.outline_points import Outlines, outlines_of
from geo.dispersal.pair_share import Edges, share_of_pairs

# All our own choices; geo/bench shows the error they leave against the dense table.
ALL_NEAR_PAIRS = 250_000  # a table of 2 MB: nothing to save
# An outline is too large for four points where the kernel falls by e within so many reaches.
LARGEST_REACH = 1.0
LEAST_MASS = 3e-4  # share beyond a distance that is not worth an integral
PAIRS_AT_ONCE = 200_000
MARGIN_CELLS = 3  # room for the interpolation's knots


def exchange_between(
    points: tuple[FloatArray, FloatArray],
    *,
    point_block: IntArray,
    point_share: FloatArray,
    edges: Edges,
    edge_source: IntArray,
    counts: tuple[int, int],
    kernel: Kernel,
    all_near_pairs: int = ALL_NEAR_PAIRS,
) -> Exchange:
    """
    Return the exchange between blocks and sources.

    Parameters
    ----------
    points : [m]
        East and north of the points that stand for blocks, shape (point,) each.
    point_block : [1]
        Block of each point, never falling.
    point_share : [1]
        Share of its block each point stands for.
    edges : [m]
        Start x, start y, end x, end y of every outline edge, the area on the left.
    edge_source : [1]
        Source of each edge, never falling.
    counts : [1]
        Number of blocks and of sources.
    kernel : Kernel
        Where spores go.
    all_near_pairs : [1]
        Up to so many pairs each is worked by the boundary integral.

    Returns
    -------
    Exchange
        Exact between near outlines; softened and laid on a grid between far ones.
    """
    outlines = outlines_of(edges, edge_source, outline_count=counts[1])
    if counts[0] * counts[1] <= all_near_pairs:
        by_point = share_landing(
            *points,
            edges=edges,
            edge_outline=edge_source,
            outline_count=counts[1],
            kernel=kernel,
        )
        share = mean_over_points(by_point, point_block, point_share, block_count=counts[0])
        block, source = (index.ravel() for index in np.indices(counts))
        return exchange_from(outlines, (block, source), share.ravel(), None, counts, None)
    exact = partial(
        share_of_pairs,
        points,
        point_block=point_block,
        point_share=point_share,
        edges=edges,
        edge_source=edge_source,
        kernel=kernel,
    )
    if not has_far_part(kernel):
        pairs = near_pairs(outlines, block_count=counts[0], gap=farthest(kernel))
        return exchange_from(outlines, pairs, exact(pairs=pairs), None, counts, None)
    block, source = pairs = near_pairs(outlines, block_count=counts[0])
    far = far_grid(outlines, block_count=counts[0], kernel=kernel)
    share, still, turning = _from_afar(outlines, pairs, far.soft)
    is_exact = _is_close(outlines, pairs, kernel)
    share[is_exact] = exact(pairs=(block[is_exact], source[is_exact]))
    return exchange_from(outlines, pairs, share, (still, turning), counts, far)


def exchange_from(
    outlines: Outlines,
    pairs: tuple[IntArray, IntArray],
    share: FloatArray,
    soft: tuple[FloatArray, FloatArray] | None,
    counts: tuple[int, int],
    far: FarGrid | None,
) -> Exchange:
    """
    Return an exchange from what its pairs share.

    Parameters
    ----------
    outlines : Outlines
        Of the sources; the first are the blocks.
    pairs : [1]
        Block and source of each near pair, shape (pair,) each, by block, then by source.
    share : [1]
        What each block receives from its source at full sporulation, shape (pair,).
    soft : [1]
        What of it is on the grid already: the still and the turning part; None without a grid.
    counts : [1]
        Number of blocks and of sources.
    far : FarGrid or None
        The grid.

    Returns
    -------
    Exchange
        Ready to send spores.
    """
    block, source = pairs
    soft = soft if soft is not None else (np.zeros(share.size), np.zeros(share.size))
    offset = outlines.middle[block] - outlines.middle[source]
    return Exchange(
        *counts,
        first=np.searchsorted(block, np.arange(counts[0] + 1)),
        source=source,
        share=share,
        still=soft[0],
        turning=soft[1],
        sector=sector_from(offset[:, 0], offset[:, 1]),
        apart=np.hypot(offset[:, 0], offset[:, 1]),
        home_share=share[block == source],
        far=far,
    )


def far_grid(outlines: Outlines, *, block_count: int, kernel: Kernel) -> FarGrid:
    """
    Return the grid that carries spores between outlines that are not near.

    Parameters
    ----------
    outlines : Outlines
        Of the sources; the first are the blocks.
    block_count : [1]
        Number of blocks.
    kernel : Kernel
        Where spores go.

    Returns
    -------
    FarGrid
        Over all outlines.
    """
    cell = NEAR_DISTANCE / CELLS_A_DISTANCE
    flat = outlines.points.reshape(-1, 2)
    west, south = flat.min(axis=0) - MARGIN_CELLS * cell
    width, height = np.ceil(np.ptp(flat, axis=0) / cell).astype(np.int64) + 2 * MARGIN_CELLS
    shape = (int(height), int(width))
    read = interpolation(outlines.points, west=west, south=south, cell=cell, shape=shape)
    laid = read.multiply(outlines.area[:, None]).tocsr()
    return FarGrid(laid, read[:block_count], shape, cell, SoftKernel(kernel, NEAR_DISTANCE))


def _from_afar(
    outlines: Outlines, pairs: tuple[IntArray, IntArray], soft: SoftKernel
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return share, still and turning part of the softened share, all by four points a side."""
    result = np.zeros((3, pairs[0].size))  # a row for each of the three
    for start in range(0, pairs[0].size, PAIRS_AT_ONCE):
        block, source = (index[start : start + PAIRS_AT_ONCE] for index in pairs)
        offset = outlines.points[block][:, :, None] - outlines.points[source][:, None]
        apart = np.hypot(offset[..., 0], offset[..., 1])
        density, turning = soft.density(apart), soft.turning(apart)
        three = soft.kernel.density(apart), density * (1.0 - turning), density * turning
        for row, values in zip(result, three, strict=True):
            row[start : start + block.size] = values.mean(axis=(1, 2)) * outlines.area[source]
    return result[0], result[1], result[2]


def _is_close(outlines: Outlines, pairs: tuple[IntArray, IntArray], kernel: Kernel) -> BoolArray:
    """Return which pairs four points would not do for."""
    block, source = pairs
    apart = np.hypot(*(outlines.middle[block] - outlines.middle[source]).T)
    reach = outlines.reach[block], outlines.reach[source]
    gap = np.maximum(apart - reach[0] - reach[1], 0.0)
    fall = _steepest_beyond(gap, kernel)
    is_steep = np.maximum(*reach) * fall > LARGEST_REACH
    is_close: BoolArray = (is_steep & (kernel.mass_within(gap) < 1.0 - LEAST_MASS)) | (gap == 0.0)
    return is_close


def _steepest_beyond(gap: FloatArray, kernel: Kernel) -> FloatArray:
    """Return the steepest relative fall per metre at a distance or farther."""
    # A kernel that is flat at its peak is steepest at some distance from it.
    distance = np.arange(0.0, NEAR_DISTANCE + 2.0 * SLOPE_STEP, SLOPE_STEP)
    fall = -np.diff(np.log(kernel.density(distance))) / SLOPE_STEP
    steepest = np.maximum.accumulate(fall[::-1])[::-1]
    return np.interp(gap, distance[:-1], steepest)
