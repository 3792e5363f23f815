"""Ways: shortest along tracks, the same there and back, straight only where no track leads."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.routing.tracks import tracks_of
from geo.routing.ways import crossed_by, ways_between

# A ladder of two long tracks and two rungs, in metres.
LADDER = [
    shapely.LineString([(0, 0), (300, 0)]),
    shapely.LineString([(0, 100), (300, 100)]),
    shapely.LineString([(0, 0), (0, 100)]),
    shapely.LineString([(200, 0), (200, 100)]),
]
COORDINATES = st.tuples(st.floats(-20, 320), st.floats(-20, 120))


def between(points, *, lines=LADDER, reach=250.0):
    """Return the ways between points."""
    return ways_between(tracks_of(lines, gap=2.0), np.array(points, dtype=float), reach=reach)


def test_the_way_leads_over_the_nearer_rung() -> None:
    ways = between([(150, 0), (150, 100)])
    assert ways.distance[0, 1] == pytest.approx(200.0, abs=0.01)
    assert ways.bends(0, 1) == pytest.approx(
        np.array([(150, 0), (200, 0), (200, 100), (150, 100)]), abs=0.01
    )


def test_what_lies_off_the_track_is_led_to_it_and_counts() -> None:
    ways = between([(50, -10), (100, 0)])
    assert ways.off_track == pytest.approx([10.0, 0.0])
    assert ways.distance[0, 1] == pytest.approx(60.0, abs=0.01)
    assert ways.bends(0, 1) == pytest.approx(np.array([(50, -10), (50, 0), (100, 0)]), abs=0.01)


def test_two_points_on_one_piece_need_no_crossing() -> None:
    ways = between([(220, 0), (280, 0), (250, 0)])
    assert ways.distance[0] == pytest.approx([0.0, 60.0, 30.0], abs=0.01)


def test_tracks_that_are_not_joined_are_bridged_by_a_straight_line_that_is_marked() -> None:
    island = shapely.LineString([(0, 500), (100, 500)])
    ways = between([(0, 0), (0, 500), (100, 500)], lines=[*LADDER, island])
    assert ways.is_straight.tolist() == [
        [False, True, True],
        [True, False, False],
        [True, False, False],
    ]
    assert ways.distance[0, 1] == pytest.approx(500.0)
    assert ways.bends(0, 1).tolist() == [[0, 0], [0, 500]]
    assert ways.distance[1, 2] == pytest.approx(100.0, abs=0.01)


def test_a_place_beyond_reach_of_every_track_is_not_led_to_one() -> None:
    ways = between([(0, 0), (0, -400)])
    assert ways.is_straight[0, 1]
    assert ways.off_track[1] == pytest.approx(400.0)


def test_without_tracks_all_ways_are_straight() -> None:
    ways = between([(0, 0), (30, 40)], lines=[])
    assert ways.distance.tolist() == [[0, 50], [50, 0]]
    assert ways.is_straight[0, 1]
    assert not ways.is_straight[0, 0]
    assert ways.bends(1, 1).tolist() == [[30, 40]]


def test_no_points_have_no_ways() -> None:
    assert between(np.empty((0, 2))).distance.shape == (0, 0)


def test_of_two_tracks_between_the_same_places_the_shorter_is_driven() -> None:
    bow = shapely.LineString([(0, 0), (150, 200), (300, 0)])
    ways = between([(0, 0), (300, 0)], lines=[bow, LADDER[0]])
    assert ways.distance[0, 1] == pytest.approx(300.0, abs=0.01)


@given(st.lists(COORDINATES, min_size=3, max_size=6))
@settings(max_examples=50)
def test_ways_are_the_same_there_and_back_and_no_detour_is_shorter(points) -> None:
    distance = between(points).distance
    assert (distance == distance.T).all()
    assert (np.diag(distance) == 0.0).all()
    assert (distance[:, None, :] <= distance[:, :, None] + distance[None, :, :] + 1e-6).all()


@given(st.lists(COORDINATES, min_size=2, max_size=5))
@settings(max_examples=50)
def test_bends_are_as_long_as_the_way_and_no_way_beats_a_straight_line(points) -> None:
    ways = between(points)
    for start, end in pairwise(range(len(points))):
        length = np.hypot(*np.diff(ways.bends(start, end), axis=0).T).sum()
        assert length == pytest.approx(ways.distance[start, end], abs=0.02)
        assert length >= np.hypot(*(ways.point[start] - ways.point[end])) - 0.02


def test_a_way_through_a_block_is_told_from_one_along_its_edge() -> None:
    blocks = np.array([shapely.box(10, 0, 50, 40), shapely.box(60, -20, 90, 20)])
    assert crossed_by(np.array([(0.0, 0.0), (100.0, 0.0)]), blocks).tolist() == [1]
    assert crossed_by(np.array([(0.0, 10.0), (100.0, 10.0)]), blocks).tolist() == [0, 1]
    assert crossed_by(np.array([(0.0, 0.0)]), blocks).tolist() == []
