"""A grid worked on in bands of rows."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.pool_depth import pool_depth, pool_depth_in_windows
from geo.terrain.windows import in_row_windows

LAW = {"cell_width": 10.0, "cell_height": 20.0, "slope_limit": 0.3}


def ground(seed: int, *, unknown: float = 0.0) -> np.ndarray:
    chance = np.random.default_rng(seed)
    heights = 1500.0 + chance.normal(0.0, 5.0, (31, 17)).cumsum(axis=0).cumsum(axis=1) / 20.0
    return np.where(chance.uniform(size=heights.shape) < unknown, np.nan, heights)


@settings(max_examples=40)
@given(
    seed=st.integers(0, 1000), most_cells=st.integers(0, 600), radius=st.sampled_from([5, 60, 400])
)
def test_windows_of_any_height_give_the_pools_of_the_whole(
    seed: int, most_cells: int, radius: int
) -> None:
    heights = ground(seed)
    whole = pool_depth(heights, radius=radius, **LAW)
    banded = pool_depth_in_windows(heights, radius=radius, most_cells=most_cells, **LAW)
    np.testing.assert_allclose(banded, whole, rtol=0.0, atol=1e-9)


@settings(max_examples=40)
@given(seed=st.integers(0, 1000), most_cells=st.integers(0, 600))
def test_unknown_ground_changes_nothing_but_itself(seed: int, most_cells: int) -> None:
    heights = ground(seed, unknown=0.2)
    whole = pool_depth(heights, radius=80.0, **LAW)
    banded = pool_depth_in_windows(heights, radius=80.0, most_cells=most_cells, **LAW)
    np.testing.assert_array_equal(np.isnan(banded), np.isnan(heights))
    np.testing.assert_allclose(banded, whole, rtol=0.0, atol=1e-9)


def test_no_band_is_larger_than_asked_but_for_its_surroundings() -> None:
    seen: list[int] = []

    def watched(grid: np.ndarray) -> np.ndarray:
        seen.append(len(grid))
        return grid

    heights = ground(1).astype(np.float32)
    copy = in_row_windows(watched, heights, halo=2, most_cells=3 * 17)
    np.testing.assert_array_equal(copy, heights)
    assert copy.dtype == np.float32
    assert max(seen) == 3 + 2 + 2
