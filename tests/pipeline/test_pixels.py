"""Cells of the demo's elevation grid, between knots and each computed by itself."""

import numpy as np
import pytest

from geo.bench.brute_force import brute_force, share_of_range
from tests.demo_run import demo_outcome

MOST = 1e-4  # of the range, for 99 cells in a hundred


@pytest.fixture(scope="module")
def compared() -> tuple[list[np.ndarray], list[np.ndarray]]:
    season = demo_outcome().season
    known = np.flatnonzero(np.isfinite(season.pool_depth_grid.values.ravel()))
    cell = np.random.default_rng(4).choice(known, 3000, replace=False)
    names = ("season_favourability_grid", "last_night_temperature_grid")
    grids = [season[name].values.ravel()[cell] for name in names]
    return grids, list(brute_force(season, cell))


@pytest.mark.parametrize("which", [0, 1], ids=["favourability", "last night"])
def test_a_cell_is_within_a_ten_thousandth_of_a_spot_of_its_own(
    compared: tuple[list[np.ndarray], list[np.ndarray]], which: int
) -> None:
    found, exact = (both[which] for both in compared)
    assert np.quantile(share_of_range(found, exact), 0.99) < MOST


def test_a_blocks_own_spot_and_the_grid_tell_the_same() -> None:
    season = demo_outcome().season
    today = int(season.hour_day.values[season.is_forecast.values == 0][-1])
    of_block = season.favourability.values[:, : today + 1].mean(axis=1)
    grid = season.season_favourability_grid.values.ravel()
    covered = grid[season.cover_cell.values] * season.cover_share.values
    block = season.cover_block.values
    mean = np.bincount(block, covered) / np.bincount(block, season.cover_share.values)
    # The response bends only a little over a block, so its mean is nearly that of the mean ground.
    np.testing.assert_allclose(mean, of_block, atol=0.003)


def test_the_last_night_is_coolest_where_pools_are_deepest() -> None:
    season = demo_outcome().season
    night, depth = (
        season[name].values.ravel() for name in ("last_night_temperature_grid", "pool_depth_grid")
    )
    deep = depth > np.nanquantile(depth, 0.99)
    assert np.nanmedian(night[deep]) < np.nanmedian(night) - 0.3
