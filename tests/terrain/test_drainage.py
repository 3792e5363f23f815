"""Air drains to the steepest lower neighbour."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.terrain.drainage import steepest_receiver

CELL = {"cell_width": 10.0, "cell_height": 20.0}


def test_on_a_plane_air_drains_straight_down_and_at_the_edge_it_stays() -> None:
    falls_east = -np.arange(4.0) + np.zeros((3, 1))
    expected = [[1, 2, 3, 3], [5, 6, 7, 7], [9, 10, 11, 11]]
    np.testing.assert_array_equal(steepest_receiver(falls_east, **CELL), expected)


def test_level_ground_keeps_its_air_and_unknown_ground_has_none() -> None:
    ground = np.zeros((2, 3))
    ground[1, 1] = np.nan
    assert steepest_receiver(ground, **CELL).tolist() == [[0, 1, 2], [3, -1, 5]]


def test_a_nearer_neighbour_wins_over_a_farther_one_as_low() -> None:
    ground = np.array([[9.0, 0.0, 9.0], [0.0, 5.0, 9.0], [0.0, 0.0, 9.0]])
    assert steepest_receiver(ground, **CELL)[1, 1] == 3  # 10 m to the west, 20 m and more else


@given(seed=st.integers(0, 999), most_cells=st.integers(1, 200))
def test_bands_give_what_the_whole_gives(seed: int, most_cells: int) -> None:
    chance = np.random.default_rng(seed)
    ground = np.round(chance.normal(100.0, 2.0, (11, 9)), 1)
    ground[chance.uniform(size=ground.shape) < 0.1] = np.nan
    whole = steepest_receiver(ground, **CELL)
    np.testing.assert_array_equal(steepest_receiver(ground, **CELL, most_cells=most_cells), whole)
    assert (np.take(ground, whole[whole >= 0]) <= ground[whole >= 0]).all()
