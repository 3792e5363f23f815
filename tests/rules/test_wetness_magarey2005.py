"""The generic wetness model: reference values, joining of wet periods, and its limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.rules.wetness_magarey2005 import (
    WetnessNeed,
    anthracnose_need,
    share_of_wet_hours_needed,
    wet_hours_needed,
)

DEMO = WetnessNeed(7.0, 18.0, 30.0, 10.0, 42.0, 4.0)
WARM = WetnessNeed(10.0, 25.0, 35.0, 6.0, 48.0, 4.0)


def share(wet: list[float], temperature: object = 18.0, starts: list[int] | None = None) -> list:
    hours = np.array([wet], dtype=float)
    air = np.broadcast_to(np.asarray(temperature, dtype=float), hours.shape)
    starts = starts or [0]
    return share_of_wet_hours_needed(air, hours, DEMO, starts=np.array(starts))[0].tolist()


@pytest.mark.published("magarey2005", "W(T) = Wmin / f(T) with 7, 18, 30 degC and 10 h")
@pytest.mark.parametrize(
    ("temperature", "hours"),
    [(10, 19.742), (15, 10.712), (18, 10.0), (22, 11.288), (25, 15.281), (28, 33.169)],
)
def test_the_hours_needed_are_those_of_the_equation(temperature: float, hours: float) -> None:
    assert wet_hours_needed(np.array(temperature), DEMO) == pytest.approx(hours, abs=5e-4)


@pytest.mark.published("magarey2005", "W(T) = Wmin / f(T) with cardinals 10, 25, 35 degC and 6 h")
@pytest.mark.parametrize(
    ("temperature", "hours"),
    [(15, 15.588), (18, 9.062), (20, 7.348), (25, 6.0), (30, 7.794), (32, 11.260)],
)
def test_so_are_those_with_our_estimates_for_anthracnose(temperature: float, hours: float) -> None:
    assert wet_hours_needed(np.array(temperature), WARM) == pytest.approx(hours, abs=5e-4)
    need = anthracnose_need()
    assert wet_hours_needed(np.array(temperature), need) == pytest.approx(hours, abs=5e-4)


@pytest.mark.published("magarey2005", "Wmax caps the hours within the cardinal temperatures")
def test_the_cap_holds_inside_the_limits_and_outside_nothing_infects() -> None:
    np.testing.assert_array_equal(
        wet_hours_needed(np.array([7.0, 8.0, 30.0, -3.0, 40.0]), DEMO),
        [np.inf, 42.0, np.inf, np.inf, np.inf],
    )
    assert share([1] * 100, temperature=5.0) == [0.0]
    assert share([1] * 100, temperature=35.0) == [0.0]


@pytest.mark.published("magarey2005", "wet periods are summed if the dry time is D50 at most")
def test_wet_periods_are_joined_over_4_dry_hours_and_not_over_5() -> None:
    assert share([1] * 5 + [0] * 4 + [1] * 5) == [1.0]
    assert share([1] * 5 + [0] * 5 + [1] * 5) == [0.5]


def test_a_wet_night_is_not_cut_at_midnight_and_a_dry_day_reads_0() -> None:
    assert share([1] * 10, starts=[0, 5]) == [0.5, 1.0]
    assert share([1] * 5 + [0] * 5, starts=[0, 5]) == [0.5, 0.0]


def test_the_temperature_is_the_mean_of_the_wet_hours() -> None:
    assert share([1, 0, 1], temperature=[14.0, 99.0, 22.0]) == [pytest.approx(0.2)]


def test_an_unknown_hour_is_forgotten_only_after_a_long_dry_gap() -> None:
    found = share([1, np.nan, 1, *[0] * 5, 1], starts=[0, 1, 2, 3, 8])
    np.testing.assert_allclose(found, [0.1, np.nan, np.nan, 0.0, 0.1])


@given(st.lists(st.sampled_from([0.0, 1.0]), min_size=1, max_size=60), st.integers(0, 59))
def test_an_hour_more_of_wetness_never_lowers_the_share(wet: list[float], place: int) -> None:
    wetter = [*wet]
    wetter[place % len(wet)] = 1.0
    assert share(wetter)[0] >= share(wet)[0]
