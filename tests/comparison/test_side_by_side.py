"""Blocks of the made farm side by side."""

from math import isnan, prod

import pytest

from geo.comparison.side_by_side import side_by_side
from tests.demo_run import demo_outcome


def test_ratios_of_each_further_block_multiply_to_its_total() -> None:
    found = side_by_side(demo_outcome().season, ["B10", "B14", "B22"])
    assert [(one.block, one.against) for one in found.comparisons] == [
        ("B14", "B10"),
        ("B22", "B10"),
    ]
    for one in found.comparisons:
        assert prod(row.ratio for row in one.rows) == pytest.approx(one.ratio, rel=1e-12)


def test_an_area_is_per_cent_times_days_and_its_mean_lies_between_the_counts() -> None:
    record = side_by_side(demo_outcome().season, ["B10", "B14"]).records[0]
    first, last = record.counts
    assert (first.infected, last.infected) == (4, 24)
    days = last.day - first.day
    assert record.area == pytest.approx((4 + 12) / 2 * days)
    assert record.mean == pytest.approx(8.0)


def test_one_look_has_no_area_and_without_a_check_nothing_is_said_of_sprays() -> None:
    found = side_by_side(demo_outcome().season, ["B08", "B20"])
    assert [len(record.counts) for record in found.records] == [1, 0]
    assert all(isnan(record.area) for record in found.records)
    assert (found.untreated, found.trials) == (None, ())


def test_the_check_itself_is_not_held_against_itself() -> None:
    found = side_by_side(demo_outcome().season, ["B10", "B08"], untreated="B08")
    assert [row.block for row in found.trials] == ["B10"]
