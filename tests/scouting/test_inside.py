"""Places within an outline: always inside it, away from holes, on the side that is asked for."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from geo.scouting.inside import drawn_places, edge_places, inner

SQUARE = shapely.box(0, 0, 200, 100)
WITH_HOLE = SQUARE.difference(shapely.box(80, 20, 120, 80))
IN_PARTS = shapely.union(SQUARE, shapely.box(300, 0, 340, 40))
shapes = st.sampled_from([SQUARE, WITH_HOLE, IN_PARTS])
turns = st.floats(0, 360)
seeds = st.integers(0, 2**32 - 1)
margins = st.floats(0.1, 60.0)


@given(shapes, turns, margins, seeds)
def test_each_place_is_inside_and_keeps_its_margin(
    shape: shapely.Geometry, turn: float, margin: float, seed: int
) -> None:
    outline = affinity.rotate(shape, turn)
    region = inner(outline, margin)
    chance = np.random.default_rng(seed)
    towards = np.array([np.sin(turn), np.cos(turn)])
    places = shapely.points(
        np.concatenate(
            [drawn_places(region, 9, chance, apart=6.0), edge_places(region, towards, 4, chance)]
        )
    )
    assert len(places) == 13
    assert shapely.contains(outline, places).all()
    kept = shapely.distance(shapely.boundary(outline), places).min()
    assert kept >= min(margin, shapely.distance(shapely.boundary(outline), region)) - 1e-6


def test_in_a_narrow_outline_the_margin_shrinks_and_something_is_left() -> None:
    sliver = shapely.box(0, 0, 60, 2)
    region = inner(sliver, 3.0)
    assert region.area > 0
    assert region.distance(sliver.boundary) == pytest.approx(0.5, abs=0.05)


@given(seeds)
def test_each_half_of_a_region_is_drawn_as_often_as_its_area_says(seed: int) -> None:
    drawn = drawn_places(WITH_HOLE, 400, np.random.default_rng(seed))
    east = (drawn[:, 0] > 100).sum()
    # Five standard deviations of the binomial distribution with 400 trials.
    assert abs(east - 200) < 50


def test_drawn_places_stay_apart_as_long_as_there_is_room() -> None:
    drawn = drawn_places(SQUARE, 12, np.random.default_rng(3), apart=8.0)
    apart = np.hypot(*(drawn[:, None] - drawn[None]).T)
    assert apart[~np.eye(12, dtype=bool)].min() >= 8.0
    crowded = drawn_places(shapely.box(0, 0, 3, 3), 12, np.random.default_rng(3), apart=8.0)
    assert len(crowded) == 12


def test_drawn_places_keep_away_from_those_taken() -> None:
    taken = np.array([[100.0, 50.0]])
    drawn = drawn_places(SQUARE, 8, np.random.default_rng(5), apart=30.0, taken=taken)
    assert np.hypot(*(drawn - taken).T).min() >= 30.0


def test_the_edge_towards_the_north_is_the_northern_one_and_all_of_it() -> None:
    places = edge_places(SQUARE, np.array([0.0, 1.0]), 10, np.random.default_rng(1))
    assert (places[:, 1] == 100.0).all()
    assert np.sort(places[:, 0] // 20).tolist() == list(range(10))


def test_towards_a_corner_both_edges_face() -> None:
    towards = np.array([1.0, 1.0]) / np.sqrt(2)
    places = edge_places(SQUARE, towards, 30, np.random.default_rng(1))
    assert ((places[:, 0] == 200.0) | (places[:, 1] == 100.0)).all()
    assert (places[:, 0] == 200.0).any()
    assert (places[:, 1] == 100.0).any()


def test_where_no_edge_faces_a_side_the_one_that_faces_it_most_is_taken() -> None:
    wedge = shapely.Polygon([(0, 0), (1000, -1), (1000, 1)])
    places = edge_places(wedge, np.array([-1.0, 0.0]), 5, np.random.default_rng(1))
    assert shapely.distance(wedge, shapely.points(places)).max() < 1e-9


def test_no_places_asked_for_give_none() -> None:
    chance = np.random.default_rng(1)
    assert drawn_places(SQUARE, 0, chance).shape == (0, 2)
    assert edge_places(SQUARE, np.array([0.0, 1.0]), 0, chance).shape == (0, 2)
