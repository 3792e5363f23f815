"""The sulfur heat rule: closed when hot, and closed when nobody knows."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.reference.number import numbers, values
from geo.windows.sulfur_heat import sulfur_heat_gate

RULE = values("spray_rules", "sulfur")
LIMIT, DAYS_AFTER = RULE["heat_limit"], int(RULE["heat_days_after"])
warmth = st.one_of(st.floats(10.0, 45.0), st.just(float("nan")))
weeks = st.lists(warmth, min_size=1, max_size=12)


def gate(*days: float, limit: float = LIMIT, days_after: int = DAYS_AFTER):
    return sulfur_heat_gate(np.array([days]), limit=limit, days_after=days_after)


@pytest.mark.common_practice("85 F on the day and the three days after: common practice, no source")
def test_the_rule_of_the_trade_in_fahrenheit() -> None:
    in_celsius = (85.0 - 32.0) / 1.8
    assert in_celsius == pytest.approx(29.44, abs=5e-3)
    assert RULE["heat_limit"] == 29.4  # rounded down: on the careful side
    assert DAYS_AFTER == 3
    assert numbers("spray_rules")["sulfur", "heat_limit"].standing == "assumed"


@pytest.mark.common_practice("85 F is about 29.4 degC: common practice, no source")
def test_a_tenth_of_a_degree_flips_the_day() -> None:
    assert not gate(29.3, 28.0, 28.0, 28.0).is_closed[0, 0]
    assert gate(29.4, 28.0, 28.0, 28.0).is_closed[0, 0]


@pytest.mark.common_practice("the three days after count too: common practice, no source")
@pytest.mark.parametrize("hot_day", range(5))
def test_the_three_days_after_count_and_the_fourth_does_not(hot_day: int) -> None:
    days = np.full(5, 28.0)
    days[hot_day] = 30.0
    found = gate(*days)
    assert found.is_closed[0, 0] == (hot_day <= 3)
    assert found.closing_day[0, 0] == (hot_day if hot_day <= 3 else -1)


def test_a_forecast_one_day_too_short_is_closed() -> None:
    found = gate(25.0, 25.0, 25.0, 25.0)
    assert found.is_closed.tolist() == [[False, True, True, True]]
    assert found.closing_day.tolist() == [[-1, 4, 4, 4]]
    assert np.isnan(found.closing_value).all()


def test_an_unknown_day_is_closed_and_heat_is_named_before_it() -> None:
    found = gate(25.0, np.nan, 31.0, 25.0)
    assert found.closing_day[0, 0] == 2
    assert found.closing_value[0, 0] == 31.0
    unknown = gate(25.0, np.nan, 25.0, 25.0)
    assert (unknown.closing_day[0, 0], unknown.is_closed[0, 0]) == (1, True)


def test_with_no_day_after_only_the_day_itself_counts() -> None:
    assert gate(25.0, 30.0, days_after=0).is_closed.tolist() == [[False, True]]


@given(days=weeks, limit=st.floats(20.0, 40.0), tighter=st.floats(0.0, 20.0))
def test_tightening_the_limit_never_opens_a_day(days, limit, tighter) -> None:
    loose, tight = gate(*days, limit=limit), gate(*days, limit=limit - tighter)
    assert (tight.is_closed >= loose.is_closed).all()


@given(days=weeks, more=st.integers(0, 4))
def test_more_days_after_never_open_a_day(days, more) -> None:
    assert (gate(*days, days_after=3 + more).is_closed >= gate(*days).is_closed).all()


@given(days=weeks)
def test_the_gate_agrees_with_a_plain_loop(days: list[float]) -> None:
    found = gate(*days)
    for day in range(len(days)):
        ahead = [days[d] if d < len(days) else float("nan") for d in range(day, day + 4)]
        is_open = all(one < LIMIT for one in ahead)
        assert found.is_closed[0, day] != is_open
        assert (found.closing_day[0, day] == -1) == is_open
        if not is_open:
            hot = [place for place, one in enumerate(ahead) if one >= LIMIT]
            unknown = [place for place, one in enumerate(ahead) if np.isnan(one)]
            assert found.closing_day[0, day] == day + (hot or unknown)[0]
