"""The mean ground around a cell: a plane is its own mean, up to its edges and round its gaps."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.mean_around import mean_around, topographic_position

GRID = {"cell_width": 10.0, "cell_height": 20.0}


def rough(seed: int, *, unknown: float = 0.0) -> np.ndarray:
    chance = np.random.default_rng(seed)
    heights = 1500.0 + chance.normal(0.0, 30.0, (12, 17)).cumsum(axis=0).cumsum(axis=1) / 20.0
    return np.where(chance.uniform(size=heights.shape) < unknown, np.nan, heights)


def plane(rows: int, columns: int) -> np.ndarray:
    return 900.0 + 0.4 * np.arange(rows)[:, None] - 1.1 * np.arange(columns)[None, :]


@settings(max_examples=15)
@given(seed=st.integers(0, 10_000), radius=st.floats(15.0, 90.0), unknown=st.floats(0.0, 0.6))
def test_it_is_the_least_squares_plane_of_a_plain_loop(
    seed: int, radius: float, unknown: float
) -> None:
    heights = rough(seed, unknown=unknown)
    found = mean_around(heights, radius=radius, **GRID)
    side = np.sqrt(np.pi) * radius  # of the square as large as the circle
    down, across = int(side / 20.0 / 2.0), int(side / 10.0 / 2.0)
    for row, column in np.ndindex(*heights.shape):
        rows, columns = np.mgrid[
            max(row - down, 0) : min(row + down + 1, 12),
            max(column - across, 0) : min(column + across + 1, 17),
        ]
        window = heights[rows, columns]
        known = ~np.isnan(window)
        terms = np.stack([np.ones(known.sum()), (rows - row)[known], (columns - column)[known]])
        if np.linalg.matrix_rank(terms) < 3:
            continue  # known along one line or less: the slope across it is nobody's to say
        fit, *_ = np.linalg.lstsq(terms.T, window[known], rcond=None)
        assert found[row, column] == pytest.approx(fit[0], abs=2e-3)


@pytest.mark.parametrize("radius", [30.0, 100.0, 1000.0])
def test_a_plane_has_no_position_anywhere_not_even_at_its_low_edge(radius: float) -> None:
    tilted = plane(30, 40)
    tilted[4:7, 10:13] = np.nan
    position = topographic_position(tilted, radius=radius, **GRID)
    np.testing.assert_allclose(position[~np.isnan(tilted)], 0.0, atol=1e-3)
    assert np.isnan(position[np.isnan(tilted)]).all()


def test_well_within_known_ground_it_is_the_plain_mean() -> None:
    heights = rough(4)
    found = mean_around(heights, radius=30.0, **GRID)
    assert found[6, 8] == pytest.approx(heights[5:8, 6:11].mean(), abs=1e-9)


@pytest.mark.published("weiss2001", "definition of the index, from memory")
def test_a_ridge_stands_out_and_a_valley_does_not() -> None:
    wave = 20.0 * np.cos(np.arange(60) / 60.0 * 2.0 * np.pi)[None, :] + np.zeros((40, 1))
    position = topographic_position(wave, radius=150.0, **GRID)
    assert position[20, 30] < -1.0  # the bottom of the wave
    assert position[20, 45] == pytest.approx(0.0, abs=0.2)  # half-way up


def test_where_nothing_is_known_nothing_is_said() -> None:
    assert np.isnan(mean_around(np.full((5, 6), np.nan), radius=50.0, **GRID)).all()


def test_a_cell_alone_in_its_surroundings_has_no_position() -> None:
    assert np.isnan(topographic_position(rough(1), radius=5.0, **GRID)).all()


def test_ground_known_at_a_few_cells_of_a_large_grid_is_enough() -> None:
    heights = np.full((300, 400), np.nan)
    heights[150:153, 200:203] = 700.0
    found = mean_around(heights, radius=60.0, **GRID)
    assert found[151, 201] == pytest.approx(700.0)
