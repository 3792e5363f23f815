"""The grape index on printed and worked sequences."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.rules.grape_index import grape_index, grape_index_parameters, longest_runs

INDEX, REVISED = grape_index_parameters(), grape_index_parameters(is_revised=True)
# What a day is: hours in a row in the window, hours in a row of heat.
KINDS = {"F": (6.0, 0.0), "N": (5.0, 0.0), "H": (0.0, 1.0), "FH": (6.0, 1.0), "?": (np.nan, np.nan)}


def course(days: str) -> list[float]:
    favourable, hot = np.array([KINDS[kind] for kind in days.split()]).T
    return grape_index(favourable[None], hot[None], INDEX)[0].tolist()


def runs(hours: list[float], starts: list[int] | None = None) -> list[list[float]]:
    both = longest_runs(np.array([hours]), INDEX, starts=np.array(starts or [0]))
    return [one[0].tolist() for one in both]


@pytest.mark.published("gubler_thomas", "start of three days; +20, -10, +10 for both; 0 to 100")
def test_the_worked_sequence_is_followed_day_by_day() -> None:
    worked = [20, 40, 0, 20, 40, 60, 80, 100, 100, 90, 80, 90, 80, 70]
    assert course("F F N F F F F F F N H FH N N") == worked


@pytest.mark.published("gubler_thomas", "a miss before the third day resets to 0")
def test_nothing_starts_without_three_days_in_a_row() -> None:
    assert course("F F N F N F F H") == [20, 40, 0, 20, 0, 20, 40, 0]


def test_once_started_it_needs_no_second_start() -> None:
    assert course("F F F N N N N N N N F")[-3:] == [0, 0, 20]


@pytest.mark.published("gubler_thomas", "6 or more continuous hours at 70-85 degF")
def test_hours_must_be_continuous_and_lie_in_the_window() -> None:
    assert runs([21.0] * 6)[0] == [6.0]
    assert runs([21.0] * 5 + [30.5] + [30.0] * 5)[0] == [5.0]
    assert runs([20.9] * 8)[0] == [0.0]


def test_midnight_ends_a_run() -> None:
    assert runs([25.0] * 10, starts=[0, 5])[0] == [5.0, 5.0]


@pytest.mark.published("gubler_thomas", "95 degF for more than 15 minutes")
def test_one_hour_at_35_degrees_makes_a_day_hot() -> None:
    assert runs([34.9, 35.0, 34.0])[1] == [1.0]
    assert INDEX.hot_hours == 1.0


@pytest.mark.published("peduto2013", "38 degC for 2 h or more")
def test_the_revised_rule_asks_for_two_hours_at_38_degrees() -> None:
    assert (REVISED.hot_temperature, REVISED.hot_hours) == (38.0, 2.0)
    day = [25.0] * 6 + [38.0]
    for hot_hours, step in ((1, 20.0), (2, 10.0)):
        hours = np.array([[25.0] * 21 + day[:6] + [38.0] * hot_hours])
        favourable, hot = longest_runs(hours, REVISED, starts=np.array([0, 7, 14, 21]))
        points = grape_index(favourable, hot, REVISED)[0]
        assert points[3] - points[2] == step


def test_an_unknown_day_leaves_the_index_unknown_from_then_on() -> None:
    assert np.isnan(course("F F ? N F F F")[2:]).all()
    assert np.isnan(course("F F F ? N")[3:]).all()
    assert np.isnan(runs([25.0, np.nan])).all()


def test_blocks_do_not_hear_of_each_other() -> None:
    favourable = np.array([[6.0] * 4, [6.0, np.nan, 0.0, 0.0], [0.0] * 4])
    got = grape_index(favourable, np.zeros((3, 4)), INDEX)
    np.testing.assert_array_equal(got[0], [20, 40, 60, 80])
    np.testing.assert_array_equal(got[2], [0, 0, 0, 0])


@given(st.lists(st.sampled_from(["F", "N", "H", "FH"]), min_size=1, max_size=40))
def test_it_stays_within_0_and_100_and_moves_by_20_at_most_once_started(days: list[str]) -> None:
    points = np.array(course(" ".join(days)))
    assert ((points >= 0.0) & (points <= 100.0)).all()
    is_hot_free = "H" not in "".join(days)
    steps = np.diff(points)
    assert steps.max(initial=0.0) <= 20.0
    assert not is_hot_free or set(steps) <= {-40.0, -20.0, -10.0, 0.0, 20.0, 10.0}
