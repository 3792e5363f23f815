"""What is the shortest way between points, along tracks, and where does it bend?"""

from dataclasses import dataclass

import numpy as np
import shapely
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import dijkstra

from geo.arrays import AnyArray, BoolArray, FloatArray, IntArray
from geo.routing.tracks import Tracks

# A piece of no length would look like no piece at all to the search.
_LEAST_M = 1e-6
# Touching a block's edge is not driving through it (our choice).
_CROSSED_M = 1.0
_NO_PLACE = -9999  # scipy's own mark for "nothing before it"


@dataclass(frozen=True, slots=True)
class Ways:
    """
    Shortest ways between points.

    Attributes
    ----------
    point : numpy.ndarray
        Metres east and north, shape (point, 2).
    distance : numpy.ndarray
        Metres to drive from each to each, shape (point, point); the same there and back.
    is_straight : numpy.ndarray
        Whether that is a straight line, since no track joins the two; shape (point, point).
    off_track : numpy.ndarray
        Metres from each point to the nearest track, shape (point,); infinite without tracks.
    place : numpy.ndarray
        Every corner of the net, points last, shape (place, 2).
    before : numpy.ndarray
        Place before each place on the way from each point, shape (point, place).
    """

    point: FloatArray
    distance: FloatArray
    is_straight: BoolArray
    off_track: FloatArray
    place: FloatArray
    before: IntArray

    def bends(self, start: int, end: int) -> FloatArray:
        """
        Return where a way begins, bends and ends.

        Parameters
        ----------
        start, end : int
            Numbers of the two points.

        Returns
        -------
        numpy.ndarray
            Metres east and north, shape (bend, 2); at least both points, one if they are the same.
        """
        if start == end:
            return self.point[[start]]
        if self.is_straight[start, end]:
            return self.point[[start, end]]
        offset = len(self.place) - len(self.point)
        way = [offset + end]
        while way[-1] != offset + start:
            way.append(int(self.before[start, way[-1]]))
        corners = self.place[way[::-1]]
        is_new = np.r_[True, (np.abs(np.diff(corners, axis=0)) > _LEAST_M).any(axis=1)]
        return corners[is_new]


def ways_between(tracks: Tracks, point: FloatArray, *, reach: float) -> Ways:
    """
    Return the shortest ways from each point to each.

    A point off the tracks is led to the nearest place on one, straight, and that counts.

    Parameters
    ----------
    tracks : Tracks
        As from `tracks_of`.
    point : [m]
        East and north, shape (point, 2).
    reach : [m]
        A point farther from every track is not led to one.

    Returns
    -------
    Ways
        On tracks the distance obeys the triangle inequality. Where no track joins two points it
        is that of the straight line.
    """
    straight = np.hypot(*(point[:, None, :] - point[None, :, :]).transpose(2, 0, 1))
    apart = ~np.eye(len(point), dtype=bool)
    if not len(tracks.start) or not len(point):
        before = np.full((len(point), len(point)), _NO_PLACE)
        off_track = np.full(len(point), np.inf)
        return Ways(point, straight, apart, off_track, point, before)
    piece, along, off_track = _feet(tracks, point)
    place, start, end, length = _with_points(tracks, point, piece, along)
    is_led = off_track <= reach
    offset = len(place) - len(point)
    kept = np.r_[np.ones(len(start) - len(point), dtype=bool), is_led]
    distance, before = dijkstra(
        _graph(start[kept], end[kept], length[kept], len(place)),
        directed=False,
        indices=np.arange(offset, len(place)),
        return_predecessors=True,
    )
    distance = distance[:, offset:]
    distance = np.minimum(distance, distance.T)  # there and back are summed in another order
    is_straight = apart & np.isinf(distance)
    return Ways(
        point=point,
        distance=np.where(is_straight, straight, np.where(apart, distance, 0.0)),
        is_straight=is_straight,
        off_track=off_track,
        place=place,
        before=before.astype(np.int64),
    )


def crossed_by(bends: FloatArray, outlines: AnyArray) -> IntArray:
    """
    Return which blocks a way leads through.

    Parameters
    ----------
    bends : [m]
        As from `Ways.bends`.
    outlines : numpy.ndarray
        Blocks, shape (block,).

    Returns
    -------
    numpy.ndarray
        Their numbers, in ascending order. A way along the edge leads through none.
    """
    if len(bends) == 1:
        return np.array([], dtype=np.int64)
    way = shapely.linestrings(bends)
    inside = shapely.length(shapely.intersection(way, outlines))
    along = shapely.length(shapely.intersection(way, shapely.boundary(outlines)))
    return np.flatnonzero(inside - along > _CROSSED_M)


def _feet(tracks: Tracks, point: FloatArray) -> tuple[IntArray, FloatArray, FloatArray]:
    """Return for each point the nearest piece, how far along it, and how far off it."""
    pieces, spots = tracks.pieces, shapely.points(point)
    piece = shapely.STRtree(pieces).query_nearest(spots, all_matches=False)[1]
    return (
        piece,
        shapely.line_locate_point(pieces[piece], spots),
        shapely.distance(pieces[piece], spots),
    )


def _with_points(
    tracks: Tracks, point: FloatArray, piece: IntArray, along: FloatArray
) -> tuple[FloatArray, IntArray, IntArray, FloatArray]:
    """
    Return the net cut where points are led to it, and the points, whose leads stand last.

    Along a piece the feet on it follow one another from its start to its end.
    """
    nodes, count = len(tracks.place), len(point)
    foot = shapely.get_coordinates(shapely.line_interpolate_point(tracks.pieces[piece], along))
    place = np.concatenate([tracks.place, foot, point])
    order = np.lexsort([along, piece])
    follows = np.r_[False, piece[order][1:] == piece[order][:-1]]
    is_last = np.r_[~follows[1:], True]
    number = nodes + order
    before = np.where(follows, np.r_[0, number[:-1]], tracks.start[piece[order]])
    whole = np.setdiff1d(np.arange(len(tracks.start)), piece)
    start = np.concatenate([tracks.start[whole], before, number[is_last], nodes + np.arange(count)])
    end = np.concatenate(
        [
            tracks.end[whole],
            number,
            tracks.end[piece[order][is_last]],
            nodes + count + np.arange(count),
        ]
    )
    return place, start, end, np.hypot(*(place[start] - place[end]).T)


def _graph(start: IntArray, end: IntArray, length: FloatArray, count: int) -> AnyArray:
    """Return the net for the search; of two pieces between the same places the shorter counts."""
    low, high = np.minimum(start, end), np.maximum(start, end)
    order = np.lexsort([length, high, low])
    low, high, length = low[order], high[order], length[order]
    is_first = np.r_[True, (low[1:] != low[:-1]) | (high[1:] != high[:-1])]
    weight = np.maximum(length, _LEAST_M)[is_first]
    ends = (low[is_first], high[is_first])
    graph: AnyArray = coo_matrix((weight, ends), shape=(count, count)).tocsr()
    return graph
