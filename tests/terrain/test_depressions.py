"""Depressions: the same as by flooding from the edge, cell by cell."""

import heapq

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.depressions import depression_depth
from geo.terrain.drainage import steepest_receiver


def depth_of(heights: np.ndarray, **most_cells: int) -> np.ndarray:
    receiver = steepest_receiver(heights, cell_width=10.0, cell_height=20.0)
    return depression_depth(heights, receiver, **most_cells)


def flooded(heights: np.ndarray) -> np.ndarray:
    """Return the spill level by a priority flood from the edge and from unknown cells."""
    rows, columns = heights.shape
    level = np.full(heights.shape, np.nan)
    queue: list[tuple[float, int, int]] = []
    for row, column in np.ndindex(rows, columns):
        is_edge = row in (0, rows - 1) or column in (0, columns - 1)
        around = heights[max(row - 1, 0) : row + 2, max(column - 1, 0) : column + 2]
        if not np.isnan(heights[row, column]) and (is_edge or np.isnan(around).any()):
            level[row, column] = heights[row, column]
            heapq.heappush(queue, (heights[row, column], row, column))
    while queue:
        height, row, column = heapq.heappop(queue)
        for down in range(max(row - 1, 0), min(row + 2, rows)):
            for right in range(max(column - 1, 0), min(column + 2, columns)):
                if np.isnan(level[down, right]) and not np.isnan(heights[down, right]):
                    level[down, right] = max(height, heights[down, right])
                    heapq.heappush(queue, (level[down, right], down, right))
    return level


@pytest.mark.published("planchon2001", "definition of the filled surface, from memory")
@settings(max_examples=25)
@given(
    seed=st.integers(0, 10_000),
    unknown=st.floats(0.0, 0.2),
    is_whole_metres=st.booleans(),
    most_cells=st.integers(1, 300),
)
def test_depths_are_those_of_a_flood_from_the_edge(
    seed: int, unknown: float, *, is_whole_metres: bool, most_cells: int
) -> None:
    chance = np.random.default_rng(seed)
    # Whole metres about sea level make flats, and passes at height 0.
    heights = np.round(chance.normal(0.0, 1.5, (14, 19)), 0 if is_whole_metres else 9)
    heights[chance.uniform(size=heights.shape) < unknown] = np.nan
    expected = flooded(heights) - heights
    np.testing.assert_array_equal(depth_of(heights, most_cells=most_cells), expected)


def test_unknown_ground_alone_has_no_depth() -> None:
    assert np.isnan(depth_of(np.full((3, 4), np.nan))).all()
    assert depth_of(np.ones((1, 1))).tolist() == [[0.0]]


def test_a_bowl_is_as_deep_as_its_rim_is_high() -> None:
    east, north = np.meshgrid(np.arange(21) - 10.0, np.arange(21) - 10.0)
    bowl = 50.0 + np.minimum(np.hypot(east, north), 8.0)
    depth = depth_of(bowl)
    assert depth[10, 10] == pytest.approx(8.0)
    assert depth[0, 0] == 0.0


def test_a_valley_that_winds_out_holds_nothing() -> None:
    # A snake of a channel, falling all along, in a block of high ground; it leaves at the edge.
    path = []
    for turn, row in enumerate(range(1, 200, 2)):
        along = range(1, 30) if turn % 2 == 0 else range(29, 0, -1)
        path += [(row, column) for column in along] + [(row + 1, along[-1])]
    heights = np.full((201, 31), 1000.0)
    heights[tuple(np.array(path).T)] = 500.0 - 0.1 * np.arange(len(path))
    assert depth_of(heights).max() == 0.0
