"""Within a block: past every tree on the shortest way, in and out at one place."""

from itertools import permutations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.scouting.inside_walk import apart, block_walk, walking_minutes, way_in
from tests.scouting.made_walk import trees

places = st.lists(
    st.tuples(st.integers(0, 200), st.integers(0, 200)), min_size=1, max_size=5, unique=True
)


def metres(way: tuple[float, float], order: tuple[tuple[float, float], ...]) -> float:
    line = np.array([way, *order, way], dtype=float)
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


@settings(max_examples=15, deadline=None)
@given(places)
def test_no_order_of_the_trees_is_shorter(found: list[tuple[int, int]]) -> None:
    walk = block_walk(trees(*found), (0.0, 0.0))
    order = tuple((stop.east, stop.north) for stop in walk.stops)
    assert sorted(order) == sorted(found)
    assert walk.metres == pytest.approx(metres((0.0, 0.0), order))
    shortest = min(metres((0.0, 0.0), other) for other in permutations(found))
    # The search counts in whole seconds: a metre a tree at walking speed.
    assert walk.metres <= shortest + len(found) + 1


def test_the_time_is_three_minutes_a_tree_and_the_way() -> None:
    walk = block_walk(trees((0.0, 100.0), (0.0, 350.0)), (0.0, 0.0))
    assert walk.metres == pytest.approx(700.0)
    # 700 m at 3.5 km/h are 12 minutes.
    assert walk.minutes == pytest.approx(2 * 3.0 + 12.0)


@pytest.mark.common_practice("20 stops of 3 minutes and 1.5 km at 3.5 km/h take 86 minutes")
def test_a_round_of_twenty_trees_takes_what_is_usual() -> None:
    assert 20 * 3 + float(walking_minutes(np.array(1500.0))) == pytest.approx(86.0, abs=0.5)


def test_a_block_is_entered_where_its_outline_is_nearest() -> None:
    block = shapely.box(10, 10, 30, 20)
    assert way_in(block, shapely.Point(0, 15)) == (10.0, 15.0)
    assert way_in(block, shapely.LineString([(0, 0), (10, 0)])) == (10.0, 10.0)


def test_distances_are_straight() -> None:
    assert apart(np.array([[0.0, 0.0], [3.0, 4.0]])).tolist() == [[0.0, 5.0], [5.0, 0.0]]
