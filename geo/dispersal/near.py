"""Which outlines are near each other, and do a kernel's spores go farther?"""

import numpy as np
from scipy.spatial import cKDTree

from geo.arrays import IntArray
from geo.dispersal.kernels import Kernel
from geo.dispersal.outline_points import Outlines

# All our own choices; geo/bench shows the error they leave against the dense table.
NEAR_DISTANCE = 1000.0  # m
LOST_MASS = 1e-6  # share of the spores of a thin tail that may be lost
ORDINARY = 0.99  # share of the outlines that are no larger than ordinary
SLOPE_STEP = 1.0  # m


def has_far_part(kernel: Kernel) -> bool:
    """
    Return whether spores beyond the near distance are worth a grid.

    Parameters
    ----------
    kernel : Kernel
        Where spores go.

    Returns
    -------
    bool
        False for a thin tail: then near pairs are all there is, and each is exact.
    """
    return farthest(kernel) == NEAR_DISTANCE


def farthest(kernel: Kernel) -> float:
    """
    Return how far from an outline its spores are followed without a grid.

    Parameters
    ----------
    kernel : Kernel
        Where spores go.

    Returns
    -------
    [m]
        Beyond it lies a millionth of the spores; at most the near distance.
    """
    distance = np.arange(0.0, NEAR_DISTANCE + SLOPE_STEP, SLOPE_STEP)
    beyond = 1.0 - kernel.mass_within(distance)
    return (
        float(distance[np.argmax(beyond < LOST_MASS)]) if beyond[-1] < LOST_MASS else NEAR_DISTANCE
    )


def near_pairs(
    outlines: Outlines, *, block_count: int, gap: float | None = None
) -> tuple[IntArray, IntArray]:
    """
    Return the pairs of block and source that are near each other.

    Parameters
    ----------
    outlines : Outlines
        Of the sources; the first are the blocks.
    block_count : [1]
        Number of blocks.
    gap : [m]
        If given, outlines so far apart or nearer are near, whatever their middles.

    Returns
    -------
    block : [1]
        Shape (pair,), never falling.
    source : [1]
        Shape (pair,), rising within a block. Middles lie within the near distance, or farther by
        the reach of outlines larger than it.
    """
    reach = outlines.reach
    shortest, margin = (NEAR_DISTANCE, 0.0) if gap is None else (0.0, gap)
    # Few outlines are large; the many small ones are found by one radius.
    ordinary = max(shortest, margin + 2.0 * float(np.quantile(reach, ORDINARY)))
    tree = cKDTree(outlines.middle)
    low, high = tree.query_pairs(ordinary, output_type="ndarray").T
    itself = np.arange(block_count)
    large = np.flatnonzero(margin + reach + reach.max() > ordinary)
    found = tree.query_ball_point(outlines.middle[large], margin + reach[large] + reach.max())
    hit = np.concatenate([np.zeros(0, dtype=np.int64), *map(np.asarray, found)]).astype(np.int64)
    whose = np.repeat(large, [len(places) for places in found])
    block = np.concatenate([itself, low, high, whose, hit])
    source = np.concatenate([itself, high, low, hit, whose])
    block, source = _once(block, source, block_count=block_count, source_count=reach.size)
    apart = np.hypot(*(outlines.middle[block] - outlines.middle[source]).T)
    is_near = apart <= np.maximum(shortest, margin + reach[block] + reach[source])
    return block[is_near], source[is_near]


def _once(
    block: IntArray, source: IntArray, *, block_count: int, source_count: int
) -> tuple[IntArray, IntArray]:
    """Return each pair of a block and a source once, by block, then by source."""
    is_block = block < block_count
    place = np.sort(block[is_block] * source_count + source[is_block])
    place = place[np.diff(place, prepend=-1) > 0]
    return place // source_count, place % source_count
