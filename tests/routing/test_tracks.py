"""Tracks: lines drawn by hand, made into one net."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geo.routing.tracks import tracks_of

LINE = shapely.LineString([(0, 0), (100, 0)])


def length(tracks) -> float:
    """Return how long all pieces are together."""
    return float(shapely.length(tracks.pieces).sum())


def test_lines_that_cross_meet_at_a_place_of_their_own() -> None:
    tracks = tracks_of([LINE, shapely.LineString([(50, -20), (50, 20)])], gap=5.0)
    assert len(tracks.start) == 4
    assert [50.0, 0.0] in tracks.place.tolist()
    assert tracks.joined == 0


@pytest.mark.parametrize(("miss", "joined", "metres"), [(3.0, 1, 137.0 + 3.0), (6.0, 0, 134.0)])
def test_an_end_that_misses_a_track_by_a_little_is_led_to_it(miss, joined, metres) -> None:
    tracks = tracks_of([LINE, shapely.LineString([(50, miss), (50, 40)])], gap=5.0)
    assert tracks.joined == joined
    assert length(tracks) == pytest.approx(metres, abs=0.01)


def test_a_ring_not_quite_shut_is_shut() -> None:
    ring = shapely.LineString([(2, 0), (100, 0), (100, 100), (0, 100), (0, 0)])
    assert length(tracks_of([ring], gap=5.0)) == pytest.approx(400.0, abs=0.01)


def test_a_line_no_longer_than_the_gap_is_no_ring() -> None:
    tracks = tracks_of([shapely.LineString([(0, 0), (4, 0)])], gap=5.0)
    assert (tracks.joined, len(tracks.start)) == (0, 1)


def test_a_track_of_several_parts_is_several_tracks_and_points_are_none() -> None:
    parts = shapely.MultiLineString([[(0, 0), (10, 0)], [(50, 0), (60, 0)]])
    tracks = tracks_of([parts, shapely.Point(3, 3), shapely.LineString()], gap=1.0)
    assert length(tracks) == pytest.approx(20.0)


def test_no_track_makes_no_piece() -> None:
    tracks = tracks_of([], gap=5.0)
    assert len(tracks.start) == 0
    assert len(tracks.pieces) == 0


@given(st.lists(st.tuples(st.integers(0, 50), st.integers(0, 50)), min_size=4, max_size=12))
def test_every_piece_is_straight_and_none_crosses_another(corners) -> None:
    lines = [shapely.LineString(pair) for pair in pairwise(corners) if pair[0] != pair[1]]
    pieces = tracks_of(lines, gap=0.5).pieces
    first, second = np.triu_indices(len(pieces), k=1)
    assert not shapely.crosses(pieces[first], pieces[second]).any()
