"""People in the block, and fruit picked from it."""

import numpy as np

from geo.windows.crew_rules import days_until_picking, hours_until_entry


def test_the_wait_runs_from_the_end_of_the_spraying_hour_to_the_next_crew() -> None:
    found = hours_until_entry(
        np.array([0]), np.array([10.0]), np.array([12.0]), np.arange(7.0, 14.0), block_count=2
    )
    assert found[0].tolist() == [2.0, 1.0, 0.0, 0.0, 0.0, np.inf, np.inf]
    assert np.isinf(found[1]).all()


def test_the_nearer_of_two_crews_counts() -> None:
    found = hours_until_entry(
        np.array([0, 0]), np.array([30.0, 5.0]), np.array([31.0, 6.0]), np.array([0.0, 6.0]),
        block_count=1,
    )  # fmt: skip
    assert found.tolist() == [[4.0, 23.0]]


def test_days_before_harvest_count_from_the_day_of_the_spray() -> None:
    found = days_until_picking(np.array([1]), np.array([12]), np.array([5, 12, 13]), block_count=2)
    assert found[1].tolist() == [7.0, 0.0, np.inf]
    assert np.isinf(found[0]).all()
