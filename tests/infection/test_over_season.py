"""Days and the season so far: the same in any grouping, and unknown only where all is unknown."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.over_season import daily_favourability, season_mean
from geo.infection.panicle_mildew import hourly_favourability, panicle_mildew_parameters
from geo.season.days import day_mean

STARTS = np.array([0, 24, 48])
CHANCE = np.random.default_rng(2)
AIR, HUMIDITY = CHANCE.uniform(5, 35, (7, 72)), CHANCE.uniform(30, 100, (7, 72))


@given(at_once=st.integers(1, 600))
def test_grouping_the_spots_never_changes_a_day(at_once: int) -> None:
    mildew = panicle_mildew_parameters()
    rain = np.ones(72)
    found = daily_favourability(AIR, HUMIDITY, rain, mildew, starts=STARTS, values_at_once=at_once)
    whole = day_mean(hourly_favourability(AIR, HUMIDITY, rain, mildew), STARTS)
    np.testing.assert_array_equal(found, whole)


def test_the_season_so_far_is_the_mean_of_its_days_without_those_to_come() -> None:
    daily = np.array([[0.2, 0.4, 0.9], [0.1, np.nan, 0.9], [np.nan, np.nan, 0.9]])
    np.testing.assert_allclose(season_mean(daily, today=1), [0.3, 0.1, np.nan])


@given(split=st.integers(1, 8))
def test_two_parts_of_a_season_make_the_whole(split: int) -> None:
    daily = CHANCE.uniform(0, 1, (4, 9))
    first = season_mean(daily[:, :split], today=split - 1)
    rest = season_mean(daily[:, split:], today=8 - split)
    whole = season_mean(daily, today=8)
    np.testing.assert_allclose((split * first + (9 - split) * rest) / 9, whole)
