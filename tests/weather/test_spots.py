"""Spots for weather: one each for few blocks, a grid for many."""

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from geo.season.between import at_blocks
from geo.weather.spots import choose_knots, choose_spots, with_knots

heights = st.floats(0.0, 900.0)
depths = st.floats(0.0, 80.0)


def test_few_blocks_are_each_their_own_spot() -> None:
    spots = choose_spots(np.array([3.0, np.nan]), np.array([10.0, 20.0]), station_pool_depth=1.5)
    assert spots.spot_of_block[:, 0].tolist() == [0, 1]
    assert spots.spot_of_site[:, 0].tolist() == [2, 3]
    np.testing.assert_array_equal(spots.pool_depth, [3.0, np.nan, 1.5, 1.5])
    np.testing.assert_array_equal(spots.elevation, [10.0, 20.0, 10.0, 20.0])


@given(
    blocks=st.lists(st.tuples(depths, heights), min_size=1, max_size=9),
    station=depths,
)
@example(blocks=[(51.0, 36.9), (21.6, 14.9)], station=1.0)  # on the last knot but for a digit
def test_a_grid_of_spots_gives_back_what_is_linear(
    blocks: list[tuple[float, float]], station: float
) -> None:
    depth, height = np.array(blocks).T
    spots = choose_spots(depth, height, station_pool_depth=station, exact_up_to_blocks=0)
    plane = 3.0 * spots.pool_depth - 2.0 * spots.elevation
    np.testing.assert_allclose(spots.weight.sum(axis=1), 1.0)
    # The vocabulary refuses a weight that is negative by a last digit.
    assert (spots.weight >= 0.0).all()
    assert (spots.site_weight >= 0.0).all()
    got = at_blocks(plane, spots.spot_of_block, spots.weight)
    np.testing.assert_allclose(got, 3.0 * depth - 2.0 * height, rtol=1e-9, atol=1e-8)
    site = at_blocks(plane, spots.spot_of_site, spots.site_weight)
    np.testing.assert_allclose(site, 3.0 * station - 2.0 * height, rtol=1e-9, atol=1e-8)


def test_a_block_without_terrain_leans_on_a_spot_without_terrain() -> None:
    spots = choose_spots(
        np.array([3.0, np.nan, 5.0]),
        np.array([10.0, np.nan, 30.0]),
        station_pool_depth=0.0,
        exact_up_to_blocks=0,
    )
    got = at_blocks(spots.elevation, spots.spot_of_block, spots.weight)
    assert np.isnan(got).tolist() == [False, True, False]


def test_a_large_farm_without_any_terrain_is_unknown_without_a_warning() -> None:
    nothing = np.full(3, np.nan)
    spots = choose_spots(nothing, nothing, station_pool_depth=0.0, exact_up_to_blocks=0)
    for corner, weight in (
        (spots.spot_of_block, spots.weight),
        (spots.spot_of_site, spots.site_weight),
    ):
        assert np.isnan(at_blocks(spots.elevation, corner, weight)).all()


@pytest.mark.parametrize("count", [400, 401])
def test_up_to_400_blocks_are_exact(count: int) -> None:
    spots = choose_spots(np.arange(count) / 9.0, np.ones(count), station_pool_depth=0.0)
    assert (spots.pool_depth.size == 2 * count) == (count == 400)


def test_knots_reach_from_level_ground_to_the_deepest_cell_and_over_all_heights() -> None:
    depth = np.array([[0.0, 7.0], [np.nan, 21.0]])
    knots = choose_knots(depth, np.array([[400.0, np.nan], [410.0, 655.0]]))
    assert (knots.pool_depth[0], knots.pool_depth[-1]) == (0.0, 21.0)
    assert (knots.elevation[0], knots.elevation[-1]) == (400.0, 655.0)
    assert (np.diff(knots.pool_depth, 2) > 0).all()
    assert np.diff(knots.elevation).max() <= 10.0


@pytest.mark.parametrize(("highest", "count"), [(401.0, 33), (800.0, 41), (4000.0, 97)])
def test_the_higher_the_range_the_more_heights(highest: float, count: int) -> None:
    assert choose_knots(np.zeros(2), np.array([400.0, highest])).elevation.size == count


@pytest.mark.parametrize("ground", [np.full((2, 2), np.nan), np.zeros((2, 2)), np.zeros((0, 3))])
def test_unknown_or_level_ground_still_has_knots(ground: np.ndarray) -> None:
    knots = choose_knots(ground, ground)
    assert (np.diff(knots.pool_depth) > 0).all()
    assert (np.diff(knots.elevation) > 0).all()


def test_spots_of_knots_stand_after_those_of_the_blocks() -> None:
    of_blocks = choose_spots(np.array([3.0]), np.array([10.0]), station_pool_depth=1.5)
    knots = choose_knots(np.array([0.0, 8.0]), np.array([5.0, 60.0]))
    spots, spot_of_knot = with_knots(of_blocks, knots)
    np.testing.assert_array_equal(spots.pool_depth[:2], of_blocks.pool_depth)
    assert spots.spot_of_block is of_blocks.spot_of_block
    assert spot_of_knot.shape == (65, 33)
    np.testing.assert_array_equal(spots.pool_depth[spot_of_knot][:, 5], knots.pool_depth)
    np.testing.assert_array_equal(spots.elevation[spot_of_knot][7], knots.elevation)


@given(depth=st.floats(0.0, 30.0), height=st.floats(300.0, 500.0))
def test_a_block_as_deep_as_the_station_has_the_site_s_own_weather_on_a_large_farm_too(
    depth: float, height: float
) -> None:
    pools, heights = np.linspace(0.0, 25.0, 500), np.linspace(350.0, 450.0, 500)
    pools[7], heights[7] = depth, height
    spots = choose_spots(pools, heights, station_pool_depth=depth)
    np.testing.assert_array_equal(spots.spot_of_block[7], spots.spot_of_site[7])
    np.testing.assert_array_equal(spots.weight[7], spots.site_weight[7])
