"""Cells between knots: exact where a table is smooth, unknown where the ground is."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.season.pixels import at_pixels

DEPTHS = 30.0 * np.linspace(0.0, 1.0, 9) ** 2
HEIGHTS = np.linspace(400.0, 520.0, 7)


def cells(shape: tuple[int, int], *, seed: int = 1) -> tuple[np.ndarray, np.ndarray]:
    chance = np.random.default_rng(seed)
    return chance.uniform(0.0, 30.0, shape), chance.uniform(400.0, 520.0, shape)


def found_at(table: np.ndarray, depth: np.ndarray, height: np.ndarray, **more: int) -> np.ndarray:
    return at_pixels(
        table,
        knot_pool_depth=DEPTHS,
        knot_elevation=HEIGHTS,
        pool_depth_grid=depth,
        elevation_grid=height,
        **more,
    )


@given(a=st.floats(-3, 3), b=st.floats(-3, 3), seed=st.integers(0, 99))
def test_what_is_a_plane_over_depth_and_height_comes_back(a: float, b: float, seed: int) -> None:
    depth, height = cells((4, 5), seed=seed)
    table = a * DEPTHS[:, None] + b * HEIGHTS[None, :]
    np.testing.assert_allclose(
        found_at(table, depth, height), a * depth + b * height, rtol=1e-5, atol=1e-4
    )


def test_a_pool_formula_is_met_to_within_a_thousandth() -> None:
    depth, height = cells((40, 50))
    table = np.exp(-DEPTHS / 30.0)[:, None] + 0.001 * HEIGHTS[None, :]
    np.testing.assert_allclose(
        found_at(table, depth, height), np.exp(-depth / 30.0) + 0.001 * height, atol=1e-3
    )


@given(at_once=st.integers(1, 400))
def test_windows_never_change_the_result(at_once: int) -> None:
    depth, height = cells((17, 11))
    depth[3, 4] = np.nan
    table = np.sin(DEPTHS / 9.0)[:, None] * HEIGHTS[None, :]
    np.testing.assert_array_equal(
        found_at(table, depth, height, cells_at_once=at_once), found_at(table, depth, height)
    )


def test_unknown_ground_stays_in_its_cell() -> None:
    depth, height = cells((3, 4))
    depth[0, 1], height[2, 3] = np.nan, np.nan
    unknown = np.isnan(found_at(np.ones((9, 7)), depth, height))
    assert np.argwhere(unknown).tolist() == [[0, 1], [2, 3]]


def test_an_unknown_knot_leaves_every_cell_unknown() -> None:
    table = np.ones((9, 7))
    table[2, 2] = np.nan
    assert np.isnan(found_at(table, *cells((3, 4)))).all()


def test_beyond_the_knots_a_cell_feels_the_last_one() -> None:
    table = DEPTHS[:, None] + HEIGHTS[None, :]
    outside = found_at(table, np.array([[0.0, 99.0]]), np.array([[300.0, 900.0]]))
    assert outside.tolist() == [[400.0, 550.0]]


def test_a_spline_never_leaves_the_range_of_its_knots() -> None:
    table = np.zeros((9, 7))
    table[:, 4:] = 1.0
    found = found_at(table, *cells((50, 50)))
    assert (found.min(), found.max()) == (0.0, pytest.approx(1.0))
