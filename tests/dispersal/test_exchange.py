"""The exchange: near pairs and grid against the whole table, and its laws."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.dispersal import near
from geo.dispersal.arrivals import arrivals
from geo.dispersal.exchange import Exchange
from geo.dispersal.kernels import Kernel, exponential_kernel, power_law_kernel, two_dt_kernel
from geo.dispersal.outline_points import outlines_of
from geo.dispersal.pairing import exchange_between
from geo.season.sectors import SECTORS
from tests.dispersal.made import clustered, rectangles

TWO_DT = two_dt_kernel(scale=150.0, shape=2.0)
KERNELS = [TWO_DT, exponential_kernel(scale=50.0), power_law_kernel(scale=50.0, shape=3.5)]
each_kernel = pytest.mark.parametrize("kernel", KERNELS, ids=lambda kernel: kernel.name)
COUNT = 300
SHED = np.random.default_rng(1).beta(0.3, 2.0, COUNT)


def on_a_grid(kernel: Kernel, farm: dict) -> Exchange:
    return exchange_between(**farm, kernel=kernel, all_near_pairs=0)


def middles(*places: tuple[float, float]) -> np.ndarray:
    return np.array(places, dtype=float)


def total(exchange: Exchange, shed: np.ndarray) -> np.ndarray:
    return np.sum(exchange.received(shed), axis=0)


@each_kernel
def test_near_pairs_and_grid_agree_with_the_whole_table(kernel: Kernel) -> None:
    farm = clustered(COUNT)
    exact, found = exchange_between(**farm, kernel=kernel), on_a_grid(kernel, farm)
    assert exact.far is None
    home, incoming = exact.received(SHED)
    np.testing.assert_allclose(found.received(SHED)[0], home, rtol=1e-12)
    error = np.abs(total(found, SHED) / (home + incoming) - 1.0)
    assert np.median(error) < 2e-4
    assert np.quantile(error, 0.99) < 3e-3


@each_kernel
@pytest.mark.parametrize("all_near_pairs", [0, COUNT**2])
@pytest.mark.parametrize("strongest", [1.0, 2.0])
def test_what_is_given_back_is_the_transpose(
    kernel: Kernel, all_near_pairs: int, strongest: float
) -> None:
    found = exchange_between(**clustered(COUNT), kernel=kernel, all_near_pairs=all_near_pairs)
    found = found.turned(np.linspace(2.0 - strongest, strongest, SECTORS))
    weight = np.random.default_rng(2).random(COUNT)
    received = found.near @ SHED + (0.0 if found.far is None else found.far.received(SHED))
    assert found.given_back(weight) @ SHED == pytest.approx(weight @ received, rel=1e-12)


@each_kernel
@pytest.mark.parametrize("all_near_pairs", [0, COUNT**2])
def test_a_uniform_rose_is_no_rose(kernel: Kernel, all_near_pairs: int) -> None:
    still = exchange_between(**clustered(COUNT), kernel=kernel, all_near_pairs=all_near_pairs)
    uniform = still.turned(np.ones(SECTORS))
    np.testing.assert_allclose(uniform.received(SHED), still.received(SHED), rtol=1e-12)


@pytest.mark.parametrize("all_near_pairs", [0, 4])
@pytest.mark.parametrize("distance", [300.0, 3000.0])
def test_wind_carries_spores_to_the_far_side_and_leaves_own_spores_alone(
    all_near_pairs: int, distance: float
) -> None:
    size = np.full(2, 100.0)
    farm = rectangles(middles((0.0, 0.0), (0.0, distance)), size, size)
    still = exchange_between(**farm, kernel=TWO_DT, all_near_pairs=all_near_pairs)
    southerly = np.zeros(SECTORS)
    southerly[SECTORS // 2] = SECTORS
    home, incoming = still.turned(southerly).received(np.ones(2))
    np.testing.assert_allclose(home, still.received(np.ones(2))[0], rtol=1e-12)
    expected = SECTORS * still.received(np.ones(2))[1][1]
    # The grid blurs the sharp sides of a sector: a hundred-thousandth of all that arrives.
    blur = 3e-5 * home[0] if all_near_pairs == 0 else 0.0
    assert incoming[1] == pytest.approx(expected, rel=1e-9, abs=blur)
    assert incoming[0] <= blur


@each_kernel
def test_equal_outlines_give_each_other_the_same(kernel: Kernel) -> None:
    size = np.full(2, 120.0)
    farm = rectangles(middles((0.0, 0.0), (170.0, 80.0)), size, size)
    received = exchange_between(**farm, kernel=kernel).received(np.ones(2))[1]
    assert received[0] == pytest.approx(received[1], rel=1e-9)


@each_kernel
def test_two_halves_of_a_neighbour_give_as_much_as_the_whole(kernel: Kernel) -> None:
    whole = rectangles(middles((0, 0), (200, 0)), np.array([80.0, 100.0]), np.full(2, 90.0))
    halves = rectangles(
        middles((0, 0), (175, 0), (225, 0)), np.array([80.0, 50.0, 50.0]), np.full(3, 90.0)
    )
    one = exchange_between(**whole, kernel=kernel).received(np.ones(2))[1][0]
    two = exchange_between(**halves, kernel=kernel).received(np.ones(3))[1][0]
    # Edges are cut to other lengths, and quadrature sees it.
    assert one == pytest.approx(two, rel=1e-5)


@pytest.mark.common_practice("a nearer diseased neighbour is worse than a farther one")
@settings(max_examples=25, deadline=None)
@given(close=st.floats(100.0, 5000.0), further=st.floats(1.0, 3000.0))
def test_a_nearer_neighbour_gives_no_less(close: float, further: float) -> None:
    size = np.full(2, 80.0)
    received = [
        exchange_between(
            **rectangles(middles((0, 0), (distance, 0)), size, size), kernel=TWO_DT
        ).received(np.ones(2))[1][0]
        for distance in (close, close + further)
    ]
    assert received[0] >= received[1] - 1e-12


@each_kernel
@pytest.mark.parametrize("all_near_pairs", [0, COUNT**2])
def test_removing_a_source_removes_exactly_its_share(kernel: Kernel, all_near_pairs: int) -> None:
    found = exchange_between(**clustered(COUNT), kernel=kernel, all_near_pairs=all_near_pairs)
    block, source = 7, int(found.source[found.pair_block == 7][0])
    one = np.zeros(COUNT)
    one[block] = 1.0
    share = found.given_back(one)[source] * SHED[source]
    without = np.where(np.arange(COUNT) == source, 0.0, SHED)
    removed = total(found, SHED)[block] - total(found, without)[block]
    assert removed == pytest.approx(share, rel=1e-9, abs=1e-15)


@pytest.mark.parametrize("all_near_pairs", [0, COUNT**2])
def test_pairs_rest_and_background_make_all_that_arrives(all_near_pairs: int) -> None:
    found = exchange_between(**clustered(COUNT), kernel=TWO_DT, all_near_pairs=all_near_pairs)
    arrived = arrivals(found, SHED, background=0.05)
    told = np.bincount(arrived.block, arrived.share)
    np.testing.assert_allclose(told + arrived.rest + arrived.background, 1.0, rtol=1e-12)
    assert (arrived.background > 0.0).all()
    is_own = arrived.source == arrived.block
    assert is_own.sum() == COUNT
    assert (arrived.share[~is_own] >= 1e-3).all()


def test_an_outline_larger_than_the_near_distance_is_near_all_it_reaches() -> None:
    width = np.array([80.0, 80.0, 6000.0])
    farm = rectangles(middles((0, 0), (0, 5000), (3200, 2500)), width, width)
    exact, found = exchange_between(**farm, kernel=TWO_DT), on_a_grid(TWO_DT, farm)
    assert 0.5 * width.max() > near.NEAR_DISTANCE
    np.testing.assert_allclose(total(found, np.ones(3)), total(exact, np.ones(3)), rtol=1e-2)


@pytest.mark.parametrize("scale", [5.0, 50.0])
def test_a_thin_tail_needs_no_grid_and_loses_a_millionth_at_most(scale: float) -> None:
    farm, kernel = clustered(COUNT, seed=3), exponential_kernel(scale=scale)
    exact, found = exchange_between(**farm, kernel=kernel), on_a_grid(kernel, farm)
    assert found.far is None
    lost = total(exact, np.ones(COUNT)) - total(found, np.ones(COUNT))
    assert lost.min() >= -1e-10
    assert lost.max() <= near.LOST_MASS
    # Incoming spores alone, where there are any to speak of.
    incoming = exact.received(SHED)[1], found.received(SHED)[1]
    told = incoming[0] > 1e-4
    np.testing.assert_allclose(incoming[1][told], incoming[0][told], rtol=1e-2)


def test_a_pair_is_found_once_whoever_of_the_two_is_large() -> None:
    places = np.random.default_rng(4).uniform(0, 9000, (150, 2))
    width = np.where(np.arange(150) % 50 == 0, 2500.0, 90.0)
    outlines = outlines_of(
        rectangles(places, width, width)["edges"],
        np.repeat(np.arange(150), 4),
        outline_count=150,
    )
    apart = np.hypot(*(places[:120, None] - places).transpose(2, 0, 1))
    reach = outlines.reach[:120, None] + outlines.reach
    for gap, radius in ((None, np.maximum(1000.0, reach)), (80.0, 80.0 + reach)):
        block, source = near.near_pairs(outlines, block_count=120, gap=gap)
        expected = np.nonzero(apart <= radius)
        np.testing.assert_array_equal((block, source), expected)
