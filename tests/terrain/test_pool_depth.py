"""How deep a cell lies in its surroundings."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.mean_around import mean_around
from geo.terrain.pool_depth import pool_depth

GRID = {"cell_width": 10.0, "cell_height": 20.0}


def ground(seed: int, *, unknown: float = 0.0) -> np.ndarray:
    chance = np.random.default_rng(seed)
    heights = 1500.0 + chance.normal(0.0, 30.0, (12, 17)).cumsum(axis=0).cumsum(axis=1) / 20.0
    return np.where(chance.uniform(size=heights.shape) < unknown, np.nan, heights)


@settings(max_examples=30)
@given(height=st.floats(-400.0, 8800.0), rows=st.integers(1, 40), columns=st.integers(1, 40))
def test_level_ground_is_no_pool_at_all(height: float, rows: int, columns: int) -> None:
    level = np.full((rows, columns), height)
    depth = pool_depth(level, radius=150.0, slope_limit=0.3, **GRID)
    assert (depth == 0.0).all()


def test_a_hollow_is_deep_a_hilltop_is_not() -> None:
    east, north = np.meshgrid(np.arange(41) - 20.0, np.arange(41) - 20.0)
    hill = 30.0 * np.exp(-(east**2 + north**2) / 200.0)
    sizes = {"cell_width": 20.0, "cell_height": 20.0, "radius": 300.0, "slope_limit": 0.3}
    assert pool_depth(hill, **sizes)[20, 20] == 0.0
    assert pool_depth(-hill, **sizes)[20, 20] > 10.0


def test_ground_as_steep_as_the_limit_holds_no_pool() -> None:
    bowl = 0.3 * 10.0 * np.abs(np.arange(-20, 21.0))[None, :] + np.zeros((41, 1))
    depth = pool_depth(bowl, cell_width=10.0, cell_height=10.0, radius=100.0, slope_limit=0.3)
    assert depth[20, 20] > 5.0
    np.testing.assert_allclose(depth[:, 21:38], 0.0, atol=1e-9)


def test_unknown_ground_stays_unknown_and_is_left_out_of_its_surroundings() -> None:
    heights = ground(3)
    heights[4, 5] = np.nan
    depth = pool_depth(heights, radius=60.0, slope_limit=9.0, **GRID)
    assert np.flatnonzero(np.isnan(depth)).tolist() == [4 * 17 + 5]


def test_a_grid_without_any_known_ground_is_unknown() -> None:
    depth = pool_depth(np.full((4, 4), np.nan), radius=60.0, slope_limit=0.3, **GRID)
    assert np.isnan(depth).all()


def test_lifting_all_ground_changes_nothing() -> None:
    sizes = {"radius": 60.0, "slope_limit": 2.0, **GRID}
    low = pool_depth(ground(5), **sizes)
    np.testing.assert_allclose(pool_depth(ground(5) + 2000.0, **sizes), low, atol=1e-8)


def test_each_kind_of_array_is_taken(as_array) -> None:
    found = mean_around(as_array(ground(1)), radius=60.0, **GRID)
    np.testing.assert_allclose(found, mean_around(ground(1), radius=60.0, **GRID), rtol=1e-6)


def test_cells_larger_than_the_surroundings_tell_of_no_pool() -> None:
    coarse = ground(2, unknown=0.2)
    depth = pool_depth(coarse, cell_width=900.0, cell_height=900.0, radius=300.0, slope_limit=0.3)
    np.testing.assert_array_equal(depth, np.where(np.isnan(coarse), np.nan, 0.0))
