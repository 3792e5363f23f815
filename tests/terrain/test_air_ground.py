"""Drawn dams hold cold air and drains let it off."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.terrain.air_ground import pool_depth_with_lines, with_lines
from geo.terrain.depressions import depression_depth
from geo.terrain.drainage import steepest_receiver

ROWS, COLUMNS = 9, 12
USUAL = {"dam_height": 2.0, "drain_depth": 3.0}


def valley() -> np.ndarray:
    """Return a valley that falls towards the east, 1 m a cell, between walls of 5 m a cell."""
    across = 5.0 * np.abs(np.arange(ROWS) - ROWS // 2)
    return 100.0 + across[:, None] - np.arange(float(COLUMNS))


def column(number: int) -> np.ndarray:
    return np.arange(ROWS) * COLUMNS + number


def lined(
    ground: np.ndarray, cells: np.ndarray, *, is_drain: int = 0, height: float = np.nan
) -> np.ndarray:
    return with_lines(
        ground,
        line_cell=cells,
        line_is_drain=np.full(cells.size, is_drain),
        line_height=np.full(cells.size, height),
        **USUAL,
    )


def depth_with(ground: np.ndarray, air_ground: np.ndarray) -> np.ndarray:
    pool = np.where(np.isnan(ground), np.nan, 1.0)
    return pool_depth_with_lines(
        pool, hollow_grid=hollows(ground), hollow_grid_with_lines=hollows(air_ground)
    )


def hollows(ground: np.ndarray) -> np.ndarray:
    return depression_depth(ground, steepest_receiver(ground, cell_width=5.0, cell_height=5.0))


def test_without_lines_the_ground_and_the_pools_are_the_very_same() -> None:
    ground, none = valley(), np.zeros(0, dtype=np.int64)
    assert lined(ground, none) is ground
    assert (depth_with(ground, ground) == 1.0).all()


def test_a_dam_across_a_valley_deepens_the_pool_behind_it_by_the_hollow_it_closes() -> None:
    ground = valley()
    middle = ROWS // 2
    depth = depth_with(ground, lined(ground, column(8), height=4.0))
    # The dam's top lies at 96 m on the valley's floor of 92 m, so air stands up to 96 m behind it.
    np.testing.assert_allclose(depth[middle, :8], 1.0 + np.maximum(np.arange(8) - 4.0, 0.0))
    assert (depth[:, 9:] == 1.0).all()


def test_a_dam_without_a_height_has_the_usual_one() -> None:
    ground = valley()
    np.testing.assert_array_equal(
        lined(ground, column(8)), lined(ground, column(8), height=USUAL["dam_height"])
    )
    np.testing.assert_array_equal(
        lined(ground, column(8), is_drain=1),
        lined(ground, column(8), is_drain=1, height=USUAL["drain_depth"]),
    )


def test_a_drain_through_the_rim_empties_a_hollow() -> None:
    ground = lined(valley(), column(8), height=4.0)  # a bank that the elevation file knows of
    middle = ROWS // 2
    gap = np.array([middle * COLUMNS + 8])
    depth = depth_with(ground, lined(ground, gap, is_drain=1, height=5.0))
    # Three metres stood there and the pool was one metre deep: no pool is left, and none below it.
    assert (depth[middle, 5:8] == 0.0).all()
    assert depth[middle, 2] == 1.0


def test_a_drain_goes_through_a_dam_and_the_highest_dam_counts() -> None:
    ground = np.zeros((1, 3))
    cell, is_drain = np.array([0, 0, 1, 1, 1, 2]), np.array([0, 0, 0, 1, 1, 1])
    height = np.array([1.0, 2.5, 4.0, 0.5, 1.5, np.nan])
    found = with_lines(ground, line_cell=cell, line_is_drain=is_drain, line_height=height, **USUAL)
    assert found.tolist() == [[2.5, -1.5, -3.0]]


@given(seed=st.integers(0, 999), height=st.floats(0.1, 20.0), number=st.integers(0, COLUMNS - 1))
def test_pools_are_never_negative_and_unknown_ground_stays_unknown(
    seed: int, height: float, number: int
) -> None:
    chance = np.random.default_rng(seed)
    ground = chance.normal(100.0, 3.0, (ROWS, COLUMNS))
    ground[chance.uniform(size=ground.shape) < 0.1] = np.nan
    for is_drain in (0, 1):
        depth = depth_with(ground, lined(ground, column(number), is_drain=is_drain, height=height))
        np.testing.assert_array_equal(np.isnan(depth), np.isnan(ground))
        assert np.nanmin(depth) >= 0.0
