"""Slope and aspect: a plane, and an independent loop."""

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.slope import aspect, gradient_horn1981, slope

INSIDE = (slice(1, -1), slice(1, -1))


def smooth_surface(seed: int, *, rows: int = 9, columns: int = 11) -> np.ndarray:
    chance = np.random.default_rng(seed)
    east, north = np.meshgrid(np.linspace(0, 1, columns), np.linspace(1, 0, rows))
    waves = chance.normal(size=(4, 4))
    return sum(
        40.0 * size * np.sin(3.0 * a * east + 3.0 * b * north + phase)
        for size, a, b, phase in waves
    )


@pytest.mark.published("horn1981", "the third-order finite difference, computed on a plane")
def test_a_plane_rising_east_and_north_has_its_own_slope_and_aspect() -> None:
    rows, columns, size = 7, 7, 5.0
    east_step = 0.1 * size * np.arange(columns)
    north_step = 0.2 * size * np.arange(rows)[::-1, None]
    east, north = gradient_horn1981(east_step + north_step, cell_width=size, cell_height=size)
    np.testing.assert_allclose(east[INSIDE], 0.1)
    np.testing.assert_allclose(north[INSIDE], 0.2)
    steepness = np.degrees(np.arctan(slope(east, north)))
    np.testing.assert_allclose(steepness[INSIDE], 12.6044, atol=5e-5)
    np.testing.assert_allclose(aspect(east, north)[INSIDE], 206.565, atol=5e-4)


@pytest.mark.parametrize(
    ("east", "north", "falls_towards"),
    [(0.0, -1.0, 0.0), (-1.0, 0.0, 90.0), (0.0, 1.0, 180.0), (1.0, 0.0, 270.0)],
)
def test_aspect_is_the_compass_direction_of_the_fall(east, north, falls_towards) -> None:
    assert aspect(np.array(east), np.array(north)) == pytest.approx(falls_towards)


@pytest.mark.published("horn1981", "the third-order finite difference, as a plain loop")
@settings(max_examples=25)
@given(seed=st.integers(0, 10_000), width=st.floats(1.0, 90.0), height=st.floats(1.0, 90.0))
def test_gradient_agrees_with_a_plain_loop(seed: int, width: float, height: float) -> None:
    ground = smooth_surface(seed)
    east, north = gradient_horn1981(ground, cell_width=width, cell_height=height)
    for row in range(1, ground.shape[0] - 1):
        for column in range(1, ground.shape[1] - 1):
            z = ground[row - 1 : row + 2, column - 1 : column + 2]
            rise_east = (z[0, 2] + 2 * z[1, 2] + z[2, 2]) - (z[0, 0] + 2 * z[1, 0] + z[2, 0])
            rise_north = (z[0, 0] + 2 * z[0, 1] + z[0, 2]) - (z[2, 0] + 2 * z[2, 1] + z[2, 2])
            assert east[row, column] == pytest.approx(rise_east / (8 * width), abs=1e-9)
            assert north[row, column] == pytest.approx(rise_north / (8 * height), abs=1e-9)


def test_an_unknown_neighbour_counts_as_level_and_an_unknown_cell_stays_unknown() -> None:
    ground = np.zeros((3, 5))
    ground[1, 4] = np.nan
    east, north = gradient_horn1981(ground, cell_width=1.0, cell_height=1.0)
    assert np.isnan(east).sum() == np.isnan(north).sum() == 1
    assert east[1, 3] == 0.0


def test_the_edge_of_the_grid_is_rather_too_level() -> None:
    plane = 0.2 * np.arange(5.0)[None, :] + np.zeros((4, 1))
    east, north = gradient_horn1981(plane, cell_width=1.0, cell_height=1.0)
    np.testing.assert_allclose(east[:, [0, -1]], 0.1)
    np.testing.assert_allclose(east[:, 1:-1], 0.2)
    np.testing.assert_allclose(north, 0.0)


def test_each_kind_of_array_is_taken(as_array) -> None:
    plane = as_array(0.25 * np.arange(5.0)[None, :] + np.zeros((5, 1)))
    east, north = gradient_horn1981(plane, cell_width=1.0, cell_height=1.0)
    np.testing.assert_allclose(slope(east, north)[INSIDE], 0.25)


def lakes_basin() -> dict[str, np.ndarray]:
    """Return ground and answers of the open data set, in metres, sines and radians."""
    with np.load(Path(__file__).parent / "data" / "lakes_basin.npz") as codes:
        scale = {"elevation": (2384.0, 3581.0), "sine_of_slope": (0.0, 1.0)}
        scale["aspect"] = (-3.141592741, 3.141496897)
        return {
            name: low + codes[name] * (high - low) / 65535.0 for name, (low, high) in scale.items()
        }


@pytest.mark.published("topocalc", "tests/Lakes/gold_ipw/gold_gradient16.ipw, 40 x 40 window")
def test_slopes_of_a_mountain_basin_agree_with_another_program_up_to_its_scheme() -> None:
    basin = lakes_basin()
    east, north = gradient_horn1981(basin["elevation"], cell_width=50.0, cell_height=50.0)
    # Their gradient is the central difference alone; Horn's is its 1-2-1 mean over three rows or
    # columns, so theirs is averaged likewise before the two are held together.
    steep = np.tan(np.arcsin(basin["sine_of_slope"]))
    their_east, their_north = (
        -steep * np.sin(np.pi - basin["aspect"]),
        -steep * np.cos(np.pi - basin["aspect"]),
    )
    inside = (slice(1, -1), slice(1, -1))
    mean_east = (their_east[:-2] + 2 * their_east[1:-1] + their_east[2:])[:, 1:-1] / 4
    mean_north = (their_north[:, :-2] + 2 * their_north[:, 1:-1] + their_north[:, 2:])[1:-1] / 4
    # 16-bit codes of the sine and of heights over 1200 m leave about 5e-4 of rise over run.
    np.testing.assert_allclose(east[inside], mean_east, atol=2e-3)
    np.testing.assert_allclose(north[inside], mean_north, atol=2e-3)
