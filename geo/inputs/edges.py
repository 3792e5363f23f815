"""Outlines as plain arrays: their edges, and points that stand for their area."""

from dataclasses import dataclass

import numpy as np
import shapely

from geo.arrays import AnyArray, FloatArray, IntArray

PIECES_A_SIDE = 4  # a block is cut into at most 4 x 4 pieces (our choice: 16 points a block)
SMALLEST_SHARE = 1e-6  # of a block: smaller pieces are slivers of the cutting


@dataclass(frozen=True, slots=True)
class Edges:
    """
    Every edge of every outline.

    Attributes
    ----------
    source : numpy.ndarray
        Which outline it belongs to.
    start, end : numpy.ndarray
        Shape (edge, 2), m. Outer rings run against the clock and holes with it, so that the
        area is always on the left.
    """

    source: IntArray
    start: FloatArray
    end: FloatArray


@dataclass(frozen=True, slots=True)
class Points:
    """
    Points that stand for blocks.

    Attributes
    ----------
    block : numpy.ndarray
        Which block a point stands for.
    place : numpy.ndarray
        Shape (point, 2), m; always inside the block.
    share : numpy.ndarray
        Share of the block's area; the shares of a block add up to 1.
    """

    block: IntArray
    place: FloatArray
    share: FloatArray


def edges_of(outlines: AnyArray) -> Edges:
    """
    Return the edges of outlines.

    Parameters
    ----------
    outlines : numpy.ndarray of shapely geometry
        Polygons with or without holes and parts, in metres.

    Returns
    -------
    Edges
        In the order of the outlines.
    """
    parts, part_source = shapely.get_parts(shapely.orient_polygons(outlines), return_index=True)
    rings, ring_part = shapely.get_rings(parts, return_index=True)
    corners, corner_ring = shapely.get_coordinates(rings, return_index=True)
    is_edge = corner_ring[1:] == corner_ring[:-1]
    source = part_source[ring_part[corner_ring[:-1][is_edge]]]
    return Edges(source.astype(np.int64), corners[:-1][is_edge], corners[1:][is_edge])


def points_of(outlines: AnyArray) -> Points:
    """
    Return points that stand for the area of outlines.

    Each outline is cut by a grid over its bounding box, and each piece stands for its own area.

    Parameters
    ----------
    outlines : numpy.ndarray of shapely geometry
        Polygons with or without holes and parts, in metres.

    Returns
    -------
    Points
        In the order of the outlines.
    """
    west, south, east, north = shapely.bounds(outlines).T[:, :, np.newaxis]
    column, row = np.meshgrid(np.arange(PIECES_A_SIDE), np.arange(PIECES_A_SIDE))
    width, height = (east - west) / PIECES_A_SIDE, (north - south) / PIECES_A_SIDE
    left, low = west + column.ravel() * width, south + row.ravel() * height
    cells = shapely.box(left, low, left + width, low + height)
    pieces = shapely.intersection(outlines[:, np.newaxis], cells)
    share = shapely.area(pieces) / shapely.area(outlines)[:, np.newaxis]
    is_kept = share > SMALLEST_SHARE
    share = np.where(is_kept, share, 0.0)
    share /= share.sum(axis=1, keepdims=True)
    block = np.nonzero(is_kept)[0]
    kept = pieces[is_kept]
    centre = shapely.centroid(kept)
    # The middle of a bent piece may lie outside it.
    is_inside = shapely.contains(kept, centre)
    place = np.where(is_inside, centre, shapely.point_on_surface(kept))
    return Points(block.astype(np.int64), shapely.get_coordinates(place), share[is_kept])
