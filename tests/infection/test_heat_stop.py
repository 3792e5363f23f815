"""Heat holds back sporulation: how hot, how long, and for how many days."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.heat_stop import heat_stop_parameters, heat_weight

HEAT = heat_stop_parameters()
STARTS = np.arange(0, 24 * 7, 24)


def weights(day_hours: dict[int, list[float]]) -> list[float]:
    """Return the weights of a mild week in which some days begin with these hours."""
    air = np.full((1, 24 * 7), 22.0)
    for day, hours in day_hours.items():
        air[0, 24 * day : 24 * day + len(hours)] = hours
    return heat_weight(air, HEAT, starts=STARTS)[0].tolist()


@pytest.mark.published("peduto2013", "38 degC for 2 h, on grape; abstract")
def test_2_hours_at_38_degrees_halve_sporulation_for_three_days() -> None:
    assert weights({1: [38.0, 38.0]}) == [1, 0.5, 0.5, 0.5, 1, 1, 1]
    assert weights({1: [38.0, 37.9]}) == [1] * 7


@pytest.mark.published("peduto2013", "lethal effects from 36-38 degC, on grape; abstract")
def test_6_hours_at_36_degrees_in_a_day_do_too() -> None:
    assert weights({2: [36.0, 22.0, 36.0, 36.0, 36.0, 36.0, 36.0]}) == [1, 1, 0.5, 0.5, 0.5, 1, 1]
    assert weights({2: [36.0] * 5}) == [1] * 7


def test_heat_of_two_days_does_not_make_one_hot_day() -> None:
    air = np.full((1, 48), 22.0)
    air[0, 23:25] = 40.0
    assert heat_weight(air, HEAT, starts=STARTS[:2]).tolist() == [[1.0, 1.0]]


def test_hot_days_in_a_row_hold_on_and_do_not_add_up() -> None:
    assert weights({1: [39.0] * 5, 2: [39.0] * 5}) == [1, 0.5, 0.5, 0.5, 0.5, 1, 1]


def test_an_unknown_hour_matters_only_where_it_could_make_the_day_hot() -> None:
    assert weights({1: [np.nan]}) == [1] * 7
    assert weights({1: [38.0, 38.0, np.nan]}) == [1, 0.5, 0.5, 0.5, 1, 1, 1]
    found = weights({1: [38.0, np.nan]})
    np.testing.assert_array_equal(found, [1, np.nan, np.nan, np.nan, 1, 1, 1])


@given(st.integers(0, 2**31), st.floats(0.0, 8.0))
def test_more_heat_never_leaves_more_spores(seed: int, warmer: float) -> None:
    air = np.random.default_rng(seed).uniform(25.0, 40.0, (2, 24 * 7))
    cool, warm = (heat_weight(air + one, HEAT, starts=STARTS) for one in (0.0, warmer))
    assert (warm <= cool).all()


@given(split=st.integers(2, 6))
def test_the_two_days_before_are_all_a_day_needs_to_know(split: int) -> None:
    air = np.random.default_rng(1).uniform(25.0, 39.0, (30, 24 * 7))
    whole = heat_weight(air, HEAT, starts=STARTS)
    late = heat_weight(air[:, 24 * (split - 2) :], HEAT, starts=STARTS[: 9 - split])
    np.testing.assert_array_equal(late[:, 2:], whole[:, split:])


def test_each_kind_of_array_is_taken(as_array) -> None:
    air = as_array([[38.0] * 2 + [20.0] * 22])
    assert heat_weight(air, HEAT, starts=np.array([0])).tolist() == [[0.5]]
