"""Looks at a block, with what each leaves open."""

import pytest

from geo.comparison.counts import clumping, counts_of
from tests.comparison.made import made_season, pairs


def test_looks_come_first_to_last_and_only_of_the_block_asked_about() -> None:
    season = made_season([(1, 20, 9, 100), (0, 3, 1, 50), (1, -4, 2, 100)])
    assert pairs(*counts_of(season, 1)) == [(-4, 2, 100), (20, 9, 100)]
    assert counts_of(season, 4) == ()


def test_an_interval_holds_the_share_and_nothing_found_is_not_clean() -> None:
    some, none = counts_of(made_season([(0, 3, 10, 100), (0, 9, 0, 100)]), 0)
    assert some.low < some.share == 0.1 < some.high
    assert (none.share, none.low) == (0.0, 0.0)
    # Wider than the 3.7 % of a hundred organs drawn one by one.
    assert none.high > 0.037


def test_few_organs_cannot_clump_more_than_all_of_them_together() -> None:
    assert clumping(1) == 1.0
    assert clumping(3) == pytest.approx(1.4)
    assert clumping(100) == clumping(200) == pytest.approx(2.8)
