"""Cold air flows down: the same area as by a plain loop from the highest cell to the lowest."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.cold_air import cold_air_accumulation, flow_accumulation
from geo.terrain.drainage import steepest_receiver

GRID = {"cell_width": 10.0, "cell_height": 20.0}


def accumulated(heights: np.ndarray, **cell: float) -> np.ndarray:
    return flow_accumulation(steepest_receiver(heights, **cell), **cell)


def looped(heights: np.ndarray) -> np.ndarray:
    area = np.where(np.isnan(heights), np.nan, 200.0)
    for flat in np.argsort(-np.nan_to_num(heights, nan=-np.inf).ravel(), kind="stable"):
        row, column = np.unravel_index(flat, heights.shape)
        best, receiver = 0.0, None
        for down in (-1, 0, 1):
            for right in (-1, 0, 1):
                there = (row + down, column + right)
                if (down, right) == (0, 0) or not all(
                    0 <= place < size for place, size in zip(there, heights.shape, strict=True)
                ):
                    continue
                fall = (heights[row, column] - heights[there]) / np.hypot(20 * down, 10 * right)
                if fall > best:
                    best, receiver = fall, there
        if receiver is not None:
            area[receiver] += area[row, column]
    return area


@settings(max_examples=20)
@given(seed=st.integers(0, 10_000), unknown=st.floats(0.0, 0.2), most_cells=st.integers(1, 300))
def test_the_draining_area_is_that_of_a_plain_loop(
    seed: int, unknown: float, most_cells: int
) -> None:
    chance = np.random.default_rng(seed)
    heights = chance.normal(0.0, 1.0, (13, 16)).cumsum(axis=0)
    heights[chance.uniform(size=heights.shape) < unknown] = np.nan
    found = flow_accumulation(steepest_receiver(heights, **GRID), **GRID, most_cells=most_cells)
    np.testing.assert_allclose(found, looped(heights), rtol=1e-9)


def test_a_hollow_keeps_the_air_of_all_the_ground_around_it() -> None:
    east, north = np.meshgrid(np.arange(11) - 5.0, np.arange(11) - 5.0)
    area = accumulated(np.hypot(east, north), cell_width=10.0, cell_height=10.0)
    assert area[5, 5] == pytest.approx(121 * 100.0)


def test_smoothing_spreads_the_channel_over_about_a_hectare() -> None:
    area = np.full((41, 41), 100.0)
    area[20, 20] = 1e8
    sizes = {"cell_width": 10.0, "cell_height": 10.0, "smoothing_area": 10_000.0}
    smooth = cold_air_accumulation(area, **sizes)
    assert smooth[0, 0] == pytest.approx(2.0)
    assert smooth[20, 20] == pytest.approx(np.log10((120 * 100.0 + 1e8) / 121.0))
    # 11 by 11 cells of 10 m are the odd square nearest to a hectare.
    assert np.count_nonzero(smooth > 2.001) == 121


def test_unknown_ground_stays_unknown() -> None:
    heights = np.arange(30.0).reshape(5, 6)
    heights[2, 3] = np.nan
    area = accumulated(heights, **GRID)
    smooth = cold_air_accumulation(area, smoothing_area=2000.0, **GRID)
    assert np.isnan(area).sum() == np.isnan(smooth).sum() == 1
