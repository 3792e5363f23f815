"""The last measured night and its coolest hour."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.weather.last_night import last_night_hour

SUN = np.tile([-20.0, -5.0, 30.0, 40.0], 3)  # two hours of night, two of day
AIR = np.array([5.0, 4.0, 9.0, 9.0, 7.0, 6.0, 9.0, 9.0, 8.0, 2.0, 9.0, 9.0])


def forecast_from(hour: int) -> np.ndarray:
    return (np.arange(12) >= hour).astype(float)


def test_it_is_the_coolest_hour_of_the_last_night() -> None:
    assert last_night_hour(AIR, SUN, forecast_from(12)) == 9
    assert last_night_hour(AIR, SUN, forecast_from(8)) == 5


def test_a_night_that_has_begun_is_the_last_one() -> None:
    assert last_night_hour(AIR, SUN, forecast_from(9)) == 8


def test_without_a_measured_night_there_is_none() -> None:
    assert last_night_hour(AIR, SUN, forecast_from(0)) == -1
    assert last_night_hour(AIR, np.full(12, 9.0), forecast_from(12)) == -1


def test_an_hour_nobody_measured_is_not_the_coolest() -> None:
    air = AIR.copy()
    air[9] = np.nan
    assert last_night_hour(air, SUN, forecast_from(12)) == 8


@given(later=st.integers(1, 12), until=st.integers(0, 12))
def test_shifting_the_clock_shifts_the_hour(later: int, until: int) -> None:
    found = last_night_hour(AIR, SUN, forecast_from(until))
    before = np.zeros(later)
    shifted = last_night_hour(
        np.append(before, AIR), np.append(before + 50, SUN), np.append(before, forecast_from(until))
    )
    assert shifted == (found if found < 0 else found + later)
