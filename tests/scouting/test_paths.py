"""On tracks from gate to block and from block to block; straight only where none leads."""

from dataclasses import replace

import geopandas as gpd
import numpy as np
import pytest
from shapely import LineString, Point

from geo.scouting.paths import Paths
from geo.season.farm import Farm
from tests.laws.made_farm import made_farm

GATES = [("West", Point(0, 0)), ("East", Point(100, 0))]


def with_tracks(*lines: LineString) -> Farm:
    farm = made_farm()
    drawn = gpd.GeoDataFrame(
        {"kind": ["track"] * len(lines), "name": "a track"}, geometry=list(lines), crs=farm.crs
    )
    return replace(farm, places=drawn)


def test_the_way_follows_the_track_round_its_corner() -> None:
    paths = Paths(with_tracks(LineString([(0, 0), (100, 0), (100, 60)])), GATES)
    paths.lead_to([(100.0, 60.0), (100.0, 30.0)])
    assert paths.metres(0)[0].tolist() == pytest.approx([0.0, 160.0, 130.0])
    assert paths.metres(1)[0].tolist() == pytest.approx([0.0, 60.0, 30.0])
    # 160 m at 3.5 km/h.
    assert paths.minutes(0)[0, 1] == pytest.approx(160 / 3500 * 60)
    bends = paths.bends(0, 0, 1)
    assert (bends[0], bends[-1]) == ((0.0, 0.0), (100.0, 60.0))
    assert (100.0, 0.0) in bends
    assert LineString(bends).length == pytest.approx(160.0)
    assert paths.words == "tracks"
    assert paths.towards.distance(Point(50, 5)) == pytest.approx(5.0)


def test_without_tracks_ways_are_straight_and_say_so() -> None:
    paths = Paths(made_farm(), GATES)
    paths.lead_to([(30.0, 40.0)])
    assert paths.metres(0)[0, 1] == pytest.approx(50.0)
    assert paths.bends(0, 0, 1) == [(0.0, 0.0), (30.0, 40.0)]
    assert paths.words == "straight lines between blocks"
    assert paths.towards.distance(Point(100, 0)) == 0.0


def test_where_some_are_not_joined_it_is_said() -> None:
    apart = with_tracks(LineString([(0, 0), (100, 0)]), LineString([(0, 900), (100, 900)]))
    paths = Paths(apart, GATES)
    paths.lead_to([(50.0, 0.0), (50.0, 900.0)])
    assert paths.words == "tracks, and straight lines where none leads"


def test_a_walk_past_no_block_has_its_gate_alone() -> None:
    paths = Paths(made_farm(), GATES)
    paths.lead_to([])
    np.testing.assert_array_equal(paths.metres(1), [[0.0]])


def test_ways_are_asked_for_before_they_are_told() -> None:
    with pytest.raises(AssertionError, match="lead_to"):
        Paths(made_farm(), GATES).metres(0)
