"""Shares of arriving spores by side and by distance, and their laws."""

import numpy as np
import pytest

from geo.dispersal.arrivals import arrivals
from geo.dispersal.exchange import Exchange
from geo.dispersal.kernels import power_law_kernel, two_dt_kernel
from geo.dispersal.pairing import exchange_between
from geo.dispersal.sides import BAND_ENDS, compass_parts
from geo.season.sectors import COMPASS_POINTS, SECTORS
from tests.dispersal.made import clustered, rectangles

KERNEL = two_dt_kernel(scale=150.0, shape=2.0)
COUNT = 300
SHED = np.random.default_rng(1).beta(0.3, 2.0, COUNT)
each_size = pytest.mark.parametrize("all_near_pairs", [0, COUNT**2], ids=["grid", "table"])


def made(all_near_pairs: int, *, is_windy: bool = False) -> Exchange:
    found = exchange_between(**clustered(COUNT), kernel=KERNEL, all_near_pairs=all_near_pairs)
    return found.turned(np.linspace(0.0, 2.0, SECTORS)) if is_windy else found


@each_size
@pytest.mark.parametrize("is_windy", [False, True])
def test_bands_and_sides_make_all_that_arrives(all_near_pairs: int, *, is_windy: bool) -> None:
    arrived = arrivals(made(all_near_pairs, is_windy=is_windy), SHED, background=0.05)
    known = arrived.home + arrived.background
    for part in (arrived.from_band, arrived.from_compass):
        assert (part >= 0.0).all()
        np.testing.assert_allclose(part.sum(axis=1) + known, 1.0, rtol=1e-9)


@pytest.mark.parametrize("is_windy", [False, True])
def test_the_grid_tells_sides_and_bands_as_the_table_does(*, is_windy: bool) -> None:
    grid, table = (
        arrivals(made(size, is_windy=is_windy), SHED, background=0.05) for size in (0, COUNT**2)
    )
    # Shares of all spores. Wind blurs what the grid carries, from sector to sector.
    tolerance = 3e-3 if is_windy else 1e-3
    np.testing.assert_allclose(grid.from_band, table.from_band, atol=tolerance)
    np.testing.assert_allclose(grid.from_compass, table.from_compass, atol=5e-3)


@pytest.mark.parametrize("is_windy", [False, True])
def test_removing_a_source_removes_exactly_its_share_of_the_day(*, is_windy: bool) -> None:
    exchange = made(COUNT**2, is_windy=is_windy)
    whole = arrivals(exchange, SHED, background=0.05, least_share=0.0)
    source = 11
    less = arrivals(
        exchange, np.where(np.arange(COUNT) == source, 0.0, SHED), background=0.05, least_share=0.0
    )
    # Shares of what arrived with the source: the background is the same amount on both days.
    scale = whole.background / less.background
    removed_band = whole.from_band - less.from_band * scale[:, None]
    removed_side = whole.from_compass - less.from_compass * scale[:, None]
    share = np.zeros(COUNT)
    is_its = whole.source == source
    share[whole.block[is_its]] = whole.share[is_its]
    share[source] = 0.0
    for removed in (removed_band, removed_side):
        np.testing.assert_allclose(removed.sum(axis=1), share, atol=1e-12)
        assert (removed >= -1e-12).all()
    middle = exchange.apart[exchange.source == source]
    band = np.searchsorted(BAND_ENDS, middle)
    np.testing.assert_allclose(removed_band[np.arange(COUNT), band], share, atol=1e-12)


@pytest.mark.parametrize("all_near_pairs", [0, 4])
@pytest.mark.parametrize(
    ("east", "north", "point"),
    [
        (0.0, 250.0, "north"),
        (180.0, 180.0, "north-east"),
        (-3000.0, 0.0, "west"),
        (0.0, -600.0, "south"),
    ],
)
def test_a_source_lies_on_its_side_and_in_its_band(
    all_near_pairs: int, east: float, north: float, point: str
) -> None:
    size = np.full(2, 80.0)
    farm = rectangles(np.array([[0.0, 0.0], [east, north]]), size, size)
    kernel = power_law_kernel(scale=50.0, shape=3.5)
    exchange = exchange_between(**farm, kernel=kernel, all_near_pairs=all_near_pairs)
    arrived = arrivals(exchange, np.ones(2), background=0.05)
    incoming = 1.0 - arrived.home[0] - arrived.background[0]
    side = COMPASS_POINTS.index(point)
    # Between two far blocks the grid blurs the edges of a sector.
    assert arrived.from_compass[0, side] == pytest.approx(incoming, rel=1e-2)
    band = np.searchsorted(BAND_ENDS, np.hypot(east, north))
    assert arrived.from_band[0, band] == pytest.approx(incoming, rel=1e-2)


def test_each_sector_of_the_wind_is_counted_once() -> None:
    parts = compass_parts()
    np.testing.assert_array_equal(parts.sum(axis=1), 1.0)
    np.testing.assert_array_equal(parts.sum(axis=0), SECTORS / len(COMPASS_POINTS))
    assert parts[1].tolist()[:2] == [0.5, 0.5]
    assert parts[SECTORS - 1, [-1, 0]].tolist() == [0.5, 0.5]
