"""Cultivars of a farm by what was counted in them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.comparison.cultivars import RECENT_DAYS, cultivar_rows
from geo.comparison.pooled import pooled_share
from geo.scouting.sampling import wilson_bounds
from tests.comparison.made import TODAY, made_season

LEVEL = {"confidence": 0.95}
MIXED = ("Keitt:1", "Kent:1", "Keitt:0.6;Kent:0.4", "Keitt:1", "Haden:1")


def test_each_cultivar_is_the_sum_of_the_newest_counts_in_its_own_blocks() -> None:
    looks = [(0, 20, 10, 100), (0, 10, 1, 100), (1, 22, 1, 50), (2, 22, 40, 50), (3, 23, 30, 100)]
    rows = cultivar_rows(made_season(looks, [(3, 2, "sulfur"), (3, 28, "sulfur")], MIXED))
    assert [(row.cultivar, row.blocks, row.infected, row.inspected) for row in rows] == [
        ("Keitt", ("B1", "B4"), 40, 200),
        ("Kent", ("B2",), 1, 50),
    ]
    assert (rows[0].pool_depth, rows[0].favourability) == (3.0, pytest.approx(0.4))
    # One of two blocks was sprayed once; the planned spray is not made yet.
    assert rows[0].sprays == 0.5


def test_an_old_count_stands_for_no_cultivar() -> None:
    season = made_season([(0, TODAY - RECENT_DAYS - 1, 5, 50), (3, TODAY - RECENT_DAYS, 2, 50)])
    assert [row.blocks for row in cultivar_rows(season)] == [("B4",)]


def test_blocks_that_differ_widen_the_interval_of_their_cultivar() -> None:
    inspected = np.full(4, 100.0)
    alike = pooled_share(np.full(4, 20.0), inspected, least_effect=1.0, **LEVEL)
    apart = pooled_share(np.array([0.0, 0, 40, 40]), inspected, least_effect=1.0, **LEVEL)
    assert alike.share == apart.share == 0.2
    assert alike.effect == 1.0
    assert apart.high - apart.low > 2 * (alike.high - alike.low)


def test_blocks_that_are_alike_give_the_interval_of_all_organs_together() -> None:
    found = pooled_share(np.array([5.0, 5]), np.array([50.0, 50]), least_effect=1.0, **LEVEL)
    low, high = wilson_bounds(np.array(10.0), np.array(100.0), **LEVEL)
    assert (found.low, found.high) == pytest.approx((float(low), float(high)))


@given(st.lists(st.tuples(st.integers(0, 60), st.integers(60, 150)), min_size=1, max_size=8))
def test_the_interval_of_a_cultivar_holds_its_share_and_stays_a_share(counts) -> None:
    infected, inspected = np.array(counts, dtype=float).T
    found = pooled_share(infected, inspected, least_effect=2.8, **LEVEL)
    assert 0.0 <= found.low <= found.share + 1e-12
    assert found.share - 1e-12 <= found.high <= 1.0
    assert found.effect >= 2.8
