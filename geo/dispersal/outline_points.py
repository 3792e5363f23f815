"""Which few points stand for an outline seen from afar? Four with its middle and its spread."""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray

CORNER_SIGNS = ((1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0))


@dataclass(frozen=True, slots=True)
class Outlines:
    """
    Outlines seen from afar.

    Attributes
    ----------
    area : numpy.ndarray
        Shape (outline,), m2.
    middle : numpy.ndarray
        Centroid, shape (outline, 2), m.
    reach : numpy.ndarray
        Distance from the centroid to the farthest corner, shape (outline,), m.
    points : numpy.ndarray
        Shape (outline, 4, 2), m. Their mean and their second moments are those of the area.
    """

    area: FloatArray
    middle: FloatArray
    reach: FloatArray
    points: FloatArray


def outlines_of(
    edges: tuple[FloatArray, FloatArray, FloatArray, FloatArray],
    edge_outline: IntArray,
    *,
    outline_count: int,
) -> Outlines:
    """
    Return area, middle, reach and four points of each outline.

    Parameters
    ----------
    edges : [m]
        Start x, start y, end x, end y of every edge, the area on the left, shape (edge,) each.
    edge_outline : [1]
        Outline of each edge.
    outline_count : [1]
        Number of outlines; each has an edge.

    Returns
    -------
    Outlines
        By Green's theorem: one triangle to the outline's first corner an edge.
    """
    start, end = np.stack(edges[:2], axis=1), np.stack(edges[2:], axis=1)
    first = np.zeros((outline_count, 2))
    first[edge_outline[::-1]] = start[::-1]
    # Large map coordinates would eat the digits of a small outline.
    start, end = start - first[edge_outline], end - first[edge_outline]

    def summed(value: FloatArray) -> FloatArray:
        total = np.zeros(outline_count)
        np.add.at(total, edge_outline, value)
        return total

    turn = start[:, 0] * end[:, 1] - start[:, 1] * end[:, 0]
    area = summed(turn) / 2.0
    # A triangle's first and second moments by its corners.
    centre = np.stack([summed(turn * (start + end)[:, k]) / 6.0 for k in (0, 1)], axis=1)
    centre /= area[:, None]
    moments = np.empty((outline_count, 2, 2))
    for k, m in ((0, 0), (0, 1), (1, 1)):
        twice = 2.0 * start[:, k] * start[:, m] + 2.0 * end[:, k] * end[:, m]
        cross = start[:, k] * end[:, m] + end[:, k] * start[:, m]
        # A twelfth of the triangle's area, which is half its turn.
        moment = summed(turn * (twice + cross)) / 24.0 / area - centre[:, k] * centre[:, m]
        moments[:, k, m] = moments[:, m, k] = moment
    spread, axis = np.linalg.eigh(moments)
    # Along the two main axes, one standard deviation each way.
    arms = axis * np.sqrt(np.maximum(spread, 0.0))[:, None, :]
    points = np.einsum("oxk,pk->opx", arms, np.array(CORNER_SIGNS))
    reach = np.zeros(outline_count)
    np.maximum.at(reach, edge_outline, np.hypot(*(start - centre[edge_outline]).T))
    middle = centre + first
    return Outlines(area, middle, reach, middle[:, None, :] + points)
