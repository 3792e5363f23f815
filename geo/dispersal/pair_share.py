"""What share of a source's spores lands in a block, for chosen pairs only?"""

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.dispersal.area_share import LONGEST_EDGE, along_edge, cut_edges
from geo.dispersal.kernels import Kernel

TERMS_AT_ONCE = 250_000  # some megabytes an array, whatever the farm, cut or not
TINY = 1e-9  # m: a side without length has no direction, and no share

Edges = tuple[FloatArray, FloatArray, FloatArray, FloatArray]


def share_of_pairs(
    points: tuple[FloatArray, FloatArray],
    *,
    point_block: IntArray,
    point_share: FloatArray,
    edges: Edges,
    edge_source: IntArray,
    pairs: tuple[IntArray, IntArray],
    kernel: Kernel,
) -> FloatArray:
    """
    Return what each block receives from each source it is paired with.

    Parameters
    ----------
    points : [m]
        East and north of the points that stand for blocks, shape (point,) each.
    point_block : [1]
        Block of each point, never falling.
    point_share : [1]
        Share of its block each point stands for.
    edges : [m]
        Start x, start y, end x, end y of every outline edge, shape (edge,) each.
    edge_source : [1]
        Source of each edge, never falling.
    pairs : [1]
        Block and source of each pair, shape (pair,) each.
    kernel : Kernel
        Where spores go.

    Returns
    -------
    [1]
        Shape (pair,): the boundary integral of `share_landing`, averaged over the block's points.
    """
    block, source = pairs
    first_point, point_count = _runs(point_block, block)
    first_edge, edge_count = _runs(edge_source, source)
    terms = point_count * edge_count
    share = np.zeros(block.size)
    for chunk in _chunks(terms):
        pair, within = _expanded(terms[chunk])
        pair += chunk.start
        point = first_point[pair] + within // edge_count[pair]
        edge = first_edge[pair] + within % edge_count[pair]
        start_x, start_y, end_x, end_y = edges
        side = (start_x[edge], start_y[edge], end_x[edge], end_y[edge])
        landed = _along_sides(points[0][point], points[1][point], side, kernel)
        share[chunk] = np.bincount(
            pair - chunk.start, landed * point_share[point], minlength=chunk.stop - chunk.start
        )
    return np.clip(share, 0.0, 1.0)


def _along_sides(
    point_x: FloatArray, point_y: FloatArray, sides: Edges, kernel: Kernel
) -> FloatArray:
    """
    Return the boundary integral of each point along its side, in pieces where it must be.

    Along a piece the integrand bends over the kernel's own length or over the distance of the
    point, whichever is larger: so the far side of a field needs no more pieces than a near one
    of a wide kernel.
    """
    start_x, start_y, end_x, end_y = sides
    step_x, step_y = end_x - start_x, end_y - start_y
    length = np.hypot(step_x, step_y)
    along = (point_x - start_x) * step_x + (point_y - start_y) * step_y
    place = np.clip(along / np.maximum(length, TINY) ** 2, 0.0, 1.0)
    apart = np.hypot(start_x + place * step_x - point_x, start_y + place * step_y - point_y)
    longest = np.maximum(LONGEST_EDGE * kernel.scale, apart)
    cut, whose = cut_edges(sides, np.arange(length.size), longest=longest)
    landed = along_edge(point_x[whose], point_y[whose], cut, kernel)
    return np.bincount(whose, landed, minlength=length.size).astype(np.float64, copy=False)


def _runs(owner: IntArray, wanted: IntArray) -> tuple[IntArray, IntArray]:
    """Return the first place of each wanted owner in a sorted list of owners, and its count."""
    first = np.searchsorted(owner, wanted)
    return first, np.searchsorted(owner, wanted, side="right") - first


def _chunks(terms: IntArray) -> list[slice]:
    """Return runs of pairs with about as many terms each as fit in memory."""
    number = np.cumsum(terms) // TERMS_AT_ONCE
    starts = np.flatnonzero(np.diff(number, prepend=-1)).tolist()
    return [slice(a, b) for a, b in zip(starts, [*starts[1:], terms.size], strict=True)]


def _expanded(count: IntArray) -> tuple[IntArray, IntArray]:
    """Return the owner of each term, and its place among the owner's terms."""
    owner = np.repeat(np.arange(count.size), count)
    return owner, np.arange(owner.size) - np.repeat(np.cumsum(count) - count, count)
