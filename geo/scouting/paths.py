"""Which way does one walk between gate and blocks: on tracks, or straight where none leads?"""

from collections.abc import Sequence

import numpy as np
import shapely

from geo.arrays import FloatArray, IntArray
from geo.reference.number import values
from geo.routing.tracks import tracks_of
from geo.routing.ways import Ways, ways_between
from geo.scouting.inside_walk import walking_minutes
from geo.season.farm import Farm
from geo.texts import phrase

Start = tuple[str, shapely.Point]


class Paths:
    """
    Ways on foot from each gate to each block, and between blocks.

    Parameters
    ----------
    farm : Farm
        For its tracks.
    starts : sequence of tuple
        Name and point of each gate where a walk may begin.
    """

    def __init__(self, farm: Farm, starts: Sequence[Start]) -> None:
        table = values("rounds", "way")
        lines = farm.places.geometry[(farm.places["kind"] == "track").to_numpy()]
        self._tracks = tracks_of(list(lines), gap=table["track_gap"])
        self._reach = table["track_reach"]
        self._starts = np.array([(point.x, point.y) for _, point in starts])
        self._ways: Ways | None = None

    @property
    def towards(self) -> shapely.Geometry:
        """
        Return where blocks are entered from.

        Returns
        -------
        shapely.Geometry
            The tracks; without any, the gates.
        """
        if len(self._tracks.start):
            return shapely.multilinestrings(self._tracks.pieces)
        return shapely.multipoints(self._starts)

    def lead_to(self, gates: Sequence[tuple[float, float]]) -> None:
        """
        Find the ways to blocks.

        Parameters
        ----------
        gates : sequence of tuple of float
            East and north of where each is entered.
        """
        places = np.concatenate([self._starts, np.array(gates).reshape(-1, 2)])
        self._ways = ways_between(self._tracks, places, reach=self._reach)

    def _places(self, start: int) -> IntArray:
        """Return the points of a walk from one gate: the gate, then the blocks."""
        many = len(self._found.point)
        return np.concatenate([[start], np.arange(len(self._starts), many)])

    @property
    def _found(self) -> Ways:
        if self._ways is None:
            raise AssertionError("paths: expected lead_to to be called first")
        return self._ways

    def metres(self, start: int) -> FloatArray:
        """
        Return how far it is between a gate and the blocks.

        Parameters
        ----------
        start : int
            Number of the gate.

        Returns
        -------
        numpy.ndarray
            Metres, shape (place, place): the gate, then the blocks.
        """
        places = self._places(start)
        distance: FloatArray = self._found.distance[np.ix_(places, places)]
        return distance

    def minutes(self, start: int) -> FloatArray:
        """
        Return how long that takes on foot.

        Parameters
        ----------
        start : int
            Number of the gate.

        Returns
        -------
        numpy.ndarray
            Minutes, shape (place, place).
        """
        return walking_minutes(self.metres(start))

    def bends(self, start: int, one: int, other: int) -> list[tuple[float, float]]:
        """
        Return where the way between two places bends.

        Parameters
        ----------
        start : int
            Number of the gate.
        one, other : int
            Places: 0 is the gate, then the blocks.

        Returns
        -------
        list of tuple of float
            East and north, with both ends.
        """
        places = self._places(start)
        found = self._found.bends(int(places[one]), int(places[other]))
        return [(float(east), float(north)) for east, north in found]

    @property
    def words(self) -> str:
        """
        Return what the ways are.

        Returns
        -------
        str
            Tracks, straight lines or both, in words.
        """
        apart = ~np.eye(len(self._found.point), dtype=bool)
        is_straight = self._found.is_straight[apart]
        if is_straight.all():
            return phrase("straight lines between blocks")
        if is_straight.any():
            return phrase("tracks, and straight lines where none leads")
        return phrase("tracks")
