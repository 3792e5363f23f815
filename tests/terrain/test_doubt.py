"""How far the ground can be trusted."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.doubt import (
    beyond_error,
    is_too_coarse,
    known_share,
    terrain_doubt,
    unknown_around,
)
from geo.terrain.pool_depth import pool_depth

SIZES = {"missing_doubt": 0.5, "coarse_doubt": 0.3, "edge_doubt": 0.2, "error_doubt": 0.02}
shares = st.floats(0.0, 1.0)


@settings(max_examples=40)
@given(
    seed=st.integers(0, 10_000),
    unknown=st.sampled_from([0.0, 0.1, 0.6, 1.0]),
    half=st.tuples(st.integers(0, 4), st.integers(0, 9)),
)
def test_what_is_unknown_around_agrees_with_a_plain_loop(seed, unknown, half) -> None:
    chance = np.random.default_rng(seed)
    grid = chance.normal(size=(6, 8))
    grid[chance.uniform(size=grid.shape) < unknown] = np.nan
    cell = chance.integers(0, grid.size, 12)
    found = unknown_around(grid, cell=cell, half=half)
    for one, share in zip(cell, found, strict=True):
        row, column = divmod(int(one), 8)
        around = [
            (row + down, column + right)
            for down in range(-half[0], half[0] + 1)
            for right in range(-half[1], half[1] + 1)
        ]
        known = sum(
            0 <= down < 6 and 0 <= right < 8 and not np.isnan(grid[down, right])
            for down, right in around
        )
        assert share == pytest.approx(1.0 - known / len(around))


def test_a_depth_counts_as_far_as_it_goes_beyond_the_error() -> None:
    depth = np.array([0.0, 0.4, 0.5, 0.6, 8.0, np.nan])
    np.testing.assert_array_equal(beyond_error(depth, vertical_error=0.0), depth)
    found = beyond_error(depth, vertical_error=0.5)
    np.testing.assert_allclose(found, [0.0, 0.0, 0.0, 0.1, 7.5, np.nan])


@given(error=st.floats(0.0, 10.0), low=st.floats(0.0, 50.0), more=st.floats(0.0, 50.0))
def test_deeper_ground_stays_deeper_and_no_depth_jumps(error, low, more) -> None:
    found = beyond_error(np.array([low, low + more]), vertical_error=error)
    assert -1e-9 <= found[1] - found[0] <= more + 1e-9


@given(seed=st.integers(0, 10_000), fall=st.floats(0.0, 0.1))
def test_steps_of_whole_metres_on_a_plane_hardly_make_a_pool(seed, fall) -> None:
    chance = np.random.default_rng(seed)
    turn = chance.uniform(0.0, 2.0 * np.pi)
    down, right = np.mgrid[0:60, 0:60] * 20.0
    plane = 300.0 + fall * (down * np.sin(turn) + right * np.cos(turn))
    sizes = {"cell_width": 20.0, "cell_height": 20.0, "radius": 300.0, "slope_limit": 0.3}
    steps = np.round(plane)
    noisy = pool_depth(steps, **sizes)
    found = pool_depth(steps, vertical_error=0.5, **sizes)
    # Half a step at the cell and half in the mean around it, less the error.
    assert found.max() <= 0.5
    assert found.mean() <= 0.1 * noisy.mean() + 0.01


@given(seed=st.integers(0, 10_000), error=st.floats(0.1, 5.0))
def test_noise_within_the_error_makes_next_to_no_pool(seed, error) -> None:
    noise = np.random.default_rng(seed).uniform(-error, error, (50, 50))
    sizes = {"cell_width": 30.0, "cell_height": 30.0, "radius": 300.0, "slope_limit": 9.0}
    found = pool_depth(400.0 + noise, vertical_error=error, **sizes)
    # The mean of some hundred cells around is itself off by a little.
    assert found.max() < 0.35 * error
    assert found.mean() < 0.01 * error


def test_a_share_is_that_of_the_whole_block() -> None:
    found = known_share(np.array([0.0, 5.0, 9.9999999, 10.0000001]), np.full(4, 10.0))
    assert found.tolist() == [0.0, 0.5, 1.0, 1.0]


def test_blocks_smaller_than_a_cell_or_cells_larger_than_the_surroundings_are_coarse() -> None:
    cells = np.array([0.9, 1.0, 40.0])
    assert is_too_coarse(cells, half=(3, 3)).tolist() == [True, False, False]
    assert is_too_coarse(cells, half=(0, 1)).all()


def test_perfect_ground_leaves_no_doubt() -> None:
    ones, zeros = np.ones(2), np.zeros(2)
    assert terrain_doubt(ones, zeros, zeros, 0.0, **SIZES).tolist() == [0.0, 0.0]


@given(covered=shares, unknown=shares, is_coarse=st.booleans(), error=st.floats(0.0, 20.0))
def test_each_fault_of_the_ground_widens_the_doubt(covered, unknown, is_coarse, error) -> None:
    def doubt(covered, unknown, is_coarse, error) -> float:
        arrays = (np.array([value]) for value in (covered, unknown, is_coarse))
        return float(terrain_doubt(*arrays, error, **SIZES)[0])

    here = doubt(covered, unknown, is_coarse, error)
    assert here == pytest.approx(
        np.linalg.norm([0.5 * (1 - covered), 0.3 * is_coarse, 0.2 * unknown, 0.02 * error])
    )
    assert doubt(0.5 * covered, unknown, is_coarse, error) >= here
    assert doubt(covered, 1.0, is_coarse, error) >= here
    assert doubt(covered, unknown, 1.0, error) >= here
    assert doubt(covered, unknown, is_coarse, error + 1.0) > here


def test_a_block_off_the_grid_knows_nothing_around() -> None:
    found = terrain_doubt(np.zeros(1), np.array([np.nan]), np.zeros(1), 0.0, **SIZES)
    assert found[0] == pytest.approx(np.hypot(0.5, 0.2))
