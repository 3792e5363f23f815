"""Which tracks meet where? Lines as drawn, made into one net of places and straight pieces."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from geo.arrays import AnyArray, FloatArray, IntArray

# Corners are told apart to the millimetre (our choice): finer than any survey of a farm.
GRID_M = 0.001


@dataclass(frozen=True, slots=True)
class Tracks:
    """
    A net of tracks.

    Attributes
    ----------
    place : numpy.ndarray
        Metres east and north of each corner and crossing, shape (place, 2).
    start, end : numpy.ndarray
        Places that a straight piece joins, shape (piece,). It may be driven both ways.
    joined : int
        Ends that missed the next track and were led to it.
    """

    place: FloatArray
    start: IntArray
    end: IntArray
    joined: int

    @property
    def pieces(self) -> AnyArray:
        """
        Return the straight pieces.

        Returns
        -------
        numpy.ndarray
            Lines of two corners, shape (piece,).
        """
        corners = np.stack([self.place[self.start], self.place[self.end]], axis=1)
        lines: AnyArray = shapely.linestrings(corners)
        return lines


def tracks_of(lines: Sequence[BaseGeometry], *, gap: float) -> Tracks:
    """
    Return the net that drawn lines make up.

    Where two lines cross they meet, and an end that lies near another track leads to it, since
    nobody draws to the metre.

    Parameters
    ----------
    lines : sequence of shapely geometry
        Tracks, in metres; of one part or several. Points and empty ones are left out.
    gap : [m]
        How far an end may miss a track and still meet it.

    Returns
    -------
    Tracks
        Without a piece if nothing is drawn.

    Examples
    --------
    >>> across = [shapely.LineString([(0, 0), (10, 0)]), shapely.LineString([(5, -5), (5, 5)])]
    >>> len(tracks_of(across, gap=1.0).start)
    4
    """
    parts = shapely.get_parts(np.array(lines, dtype=object))
    parts = parts[(shapely.get_dimensions(parts) == 1) & (shapely.length(parts) > 0)]
    leads = _leads(parts, gap)
    net = shapely.union_all(np.concatenate([parts, leads]), grid_size=GRID_M)
    corners, of_line = shapely.get_coordinates(shapely.get_parts(net), return_index=True)
    place, number = np.unique(corners, axis=0, return_inverse=True)
    number = number.reshape(-1)
    is_piece = of_line[1:] == of_line[:-1]
    joins = np.column_stack([number[:-1], number[1:]])[is_piece]
    joins = np.unique(np.sort(joins, axis=1), axis=0)
    return Tracks(place=place, start=joins[:, 0], end=joins[:, 1], joined=len(leads))


def _leads(lines: AnyArray, gap: float) -> AnyArray:
    """Return short lines from ends that miss a track to the nearest place on it."""
    if not len(lines):
        return lines
    first, last = shapely.get_point(lines, 0), shapely.get_point(lines, -1)
    ends, owner = np.concatenate([first, last]), np.tile(np.arange(len(lines)), 2)
    end, line = shapely.STRtree(lines).query(ends, predicate="dwithin", distance=gap)
    is_other = owner[end] != line
    to_others = shapely.shortest_line(ends[end[is_other]], lines[line[is_other]])
    # A ring drawn not quite shut is shut; a line no longer than the gap is no ring.
    misses = shapely.distance(first, last)
    is_ring = (misses <= gap) & (shapely.length(lines) > 2.0 * gap)  # there and back
    closing = shapely.shortest_line(first[is_ring], last[is_ring])
    leads = np.concatenate([to_others, closing])
    missing: AnyArray = leads[shapely.length(leads) > GRID_M]
    return missing
