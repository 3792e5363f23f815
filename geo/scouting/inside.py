"""Where inside an outline does a tree stand that is drawn by lot, or faces a given side?"""

import numpy as np
import shapely

from geo.arrays import FloatArray

FACING = 0.5  # our choice: an edge faces a side within 60 degrees, the cosine of which is 0.5
DRAWS_A_PLACE = 12  # our choice: so many tries to keep places apart
FINENESS = 0.01  # of the inscribed circle's radius: our choice


def inner(outline: shapely.Geometry, margin: float) -> shapely.Geometry:
    """
    Return the part of an outline that keeps away from its edges, those of holes included.

    Parameters
    ----------
    outline : shapely.Geometry
        Polygon or polygons, in metres.
    margin : float
        Metres to keep; in an outline narrower than four times as much, half the radius of the
        largest circle within it.

    Returns
    -------
    shapely.Geometry
        Never empty.
    """
    size = np.sqrt(outline.area)
    radius = shapely.maximum_inscribed_circle(outline, tolerance=FINENESS * size).length
    return outline.buffer(-min(margin, radius / 2.0))


def drawn_places(
    region: shapely.Geometry,
    count: int,
    chance: np.random.Generator,
    *,
    apart: float = 0.0,
    taken: FloatArray | None = None,
) -> FloatArray:
    """
    Return places drawn by lot, each part of the region as likely as any other of its size.

    Parameters
    ----------
    region : shapely.Geometry
        Polygon or polygons with some area.
    count : int
        How many.
    chance : numpy.random.Generator
        Seeded.
    apart : float
        Metres between any two, as far as a few more draws can keep them.
    taken : numpy.ndarray, optional
        Places to keep away from too, shape (place, 2).

    Returns
    -------
    numpy.ndarray
        Shape (place, 2), all within the region.
    """
    corners = _triangles(region)
    one, two = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    tries = max(count, 1) * DRAWS_A_PLACE
    which = chance.choice(len(corners), size=tries, p=area / area.sum())
    along = chance.random((tries, 2))
    # A point beyond the triangle's far side is turned back into it.
    along = np.where(along.sum(axis=1, keepdims=True) > 1.0, 1.0 - along, along)
    drawn = corners[which, 0] + along[:, :1] * one[which] + along[:, 1:] * two[which]
    return _kept_apart(drawn, count, apart=apart, taken=taken)


def edge_places(
    region: shapely.Geometry, towards: FloatArray, count: int, chance: np.random.Generator
) -> FloatArray:
    """
    Return places along the edge that faces a side, spread over all of it.

    Parameters
    ----------
    region : shapely.Geometry
        Polygon or polygons.
    towards : numpy.ndarray
        East and north of the direction, of length 1.
    count : int
        How many: one in each of as many equal stretches, drawn by lot within its middle half.
    chance : numpy.random.Generator
        Seeded.

    Returns
    -------
    numpy.ndarray
        Shape (place, 2), on the edge of the region.
    """
    start, end = _outer_edges(region)
    step = end - start
    length = np.hypot(step[:, 0], step[:, 1])
    # Outer rings run anticlockwise: outwards is to the right.
    facing = (step[:, 1] * towards[0] - step[:, 0] * towards[1]) / length
    is_in = facing >= min(FACING, facing.max())
    start, step, length = start[is_in], step[is_in], length[is_in]
    until = np.cumsum(length)
    # Within the middle half of its stretch, so that no two stand side by side.
    within = 0.25 + chance.random(count) / 2.0
    place = (np.arange(count) + within) / max(count, 1) * until[-1]
    edge = np.minimum(np.searchsorted(until, place, side="right"), length.size - 1)
    along = (place - until[edge] + length[edge]) / length[edge]
    found: FloatArray = start[edge] + along[:, None] * step[edge]
    return found


def _triangles(region: shapely.Geometry) -> FloatArray:
    """Return the corners of triangles that make up the region, shape (triangle, 3, 2)."""
    pieces = shapely.get_parts(shapely.constrained_delaunay_triangles(region))
    # A triangle's ring has four points, the last one the first.
    corners: FloatArray = shapely.get_coordinates(pieces).reshape(-1, 4, 2)[:, :3]
    return corners


def _outer_edges(region: shapely.Geometry) -> tuple[FloatArray, FloatArray]:
    parts = shapely.get_parts(shapely.orient_polygons(region))
    start, end = [], []
    for ring in shapely.get_exterior_ring(parts):
        corners = shapely.get_coordinates(ring)
        start.append(corners[:-1])
        end.append(corners[1:])
    return np.concatenate(start), np.concatenate(end)


def _kept_apart(
    drawn: FloatArray, count: int, *, apart: float, taken: FloatArray | None
) -> FloatArray:
    """Return the first places that are far enough from all before; at the end, any."""
    kept = [] if taken is None else list(taken)
    before = len(kept)
    rest: list[FloatArray] = []
    for place in drawn:
        if len(kept) == before + count:
            break
        is_near = kept and np.hypot(*(np.array(kept) - place).T).min() < apart
        (rest if is_near else kept).append(place)
    short = before + count - len(kept)
    return np.array([*kept[before:], *rest[:short]]).reshape(-1, 2)
