"""Hidden anthracnose of fruit: what late heavy rains do, and what small rains do not."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.anthracnose import anthracnose_days
from geo.infection.anthracnose_parameters import anthracnose_parameters, late_rain_parameters
from geo.infection.quiescent_load import QuiescentLoad, quiescent_load

LATE = late_rain_parameters()
DAYS = 90
CHANCE = np.random.default_rng(3)
HAZARD = CHANCE.uniform(0.0, 1.0, (4, DAYS))
HEAVY = np.where(CHANCE.random(DAYS) < 0.2, 25.0, 2.0)
FRUIT = np.ones((4, DAYS), dtype=bool)


def season(*, rain: float, days: tuple[int, ...]) -> QuiescentLoad:
    """Return the load of one unsprayed block after evening rains with a wet night each."""
    hours = 24 * DAYS
    humidity, precipitation = np.full((1, hours), 65.0), np.zeros(hours)
    for day in days:
        humidity[0, 24 * day + 18 : 24 * day + 30] = 99.0
        precipitation[24 * day + 18 : 24 * day + 20] = rain / 2.0
    weather = anthracnose_days(
        np.full((1, hours), 25.0),
        humidity,
        precipitation,
        anthracnose_parameters(),
        starts=np.arange(0, hours, 24),
    )
    return quiescent_load(weather.favourability, FRUIT[:1], weather.event_rain, LATE)


@pytest.mark.published("estrada1996", "three rains > 20 mm in the month before harvest; abstract")
def test_three_heavy_rains_in_the_month_before_harvest_give_a_high_load() -> None:
    heavy, light = (season(rain=amount, days=(62, 70, 81)) for amount in (24.0, 4.0))
    assert heavy.load[0, -1] > 1.5
    assert heavy.late_extra[0, -1] > 0.7
    assert heavy.late_rains[-1] >= 3.0
    assert light.load[0, -1] == light.late_extra[0, -1] == light.late_rains[-1] == 0.0


def test_heavy_rains_long_before_harvest_count_without_the_extra() -> None:
    early, late = (season(rain=24.0, days=days) for days in ((2, 10, 21), (62, 70, 81)))
    assert early.load[0, -1] == pytest.approx(late.load[0, -1])
    assert early.late_extra[0, -1] == 0.0


def test_the_extra_is_half_the_infection_of_late_heavy_days() -> None:
    found = quiescent_load(HAZARD, FRUIT, HEAVY, LATE)
    last = slice(DAYS - 30, DAYS)
    expected = 0.5 * (HAZARD[:, last] * (HEAVY[last] > 20.0)).sum(axis=1)
    np.testing.assert_allclose(found.late_extra[:, -1], expected)
    assert found.late_rains[-1] == (HEAVY[last] > 20.0).sum()


def test_a_rain_of_20_millimetres_is_not_heavy_and_a_heavy_one_is_late_for_30_days() -> None:
    rain = np.zeros(DAYS)
    rain[[5, 40]] = 20.0, 20.1
    late_rains = quiescent_load(HAZARD, FRUIT, rain, LATE).late_rains
    assert np.flatnonzero(late_rains).tolist() == list(range(40, 70))


def test_nothing_adds_up_before_fruit_set_or_after_harvest() -> None:
    has_fruit = np.zeros((4, DAYS), dtype=bool)
    has_fruit[:, 20:60] = True
    found = quiescent_load(HAZARD, has_fruit, HEAVY, LATE)
    assert (found.load[:, :20] == 0.0).all()
    np.testing.assert_array_equal(found.load[:, 60:], np.repeat(found.load[:, 59:60], 30, axis=1))


@given(split=st.integers(1, DAYS - 1))
def test_carrying_the_load_over_a_split_gives_the_whole(split: int) -> None:
    whole = quiescent_load(HAZARD, FRUIT, HEAVY, LATE).load
    first = quiescent_load(HAZARD[:, :split], FRUIT[:, :split], HEAVY[:split], LATE).load
    rest = quiescent_load(
        HAZARD[:, split:], FRUIT[:, split:], HEAVY[split:], LATE, before=first[:, -1]
    ).load
    np.testing.assert_allclose(np.concatenate([first, rest], axis=1), whole)


def test_an_unknown_day_stays_in_its_block() -> None:
    hazard = HAZARD.copy()
    hazard[2, 40] = np.nan
    found = quiescent_load(hazard, FRUIT, HEAVY, LATE)
    whole = quiescent_load(HAZARD, FRUIT, HEAVY, LATE)
    np.testing.assert_array_equal(found.load[[0, 1, 3]], whole.load[[0, 1, 3]])
    assert np.isnan(found.load[2]).tolist() == [False] * 40 + [True] * 50


@given(more=st.floats(0.0, 1.0))
def test_more_hazard_never_leaves_less(more: float) -> None:
    first, second = (quiescent_load(HAZARD + one, FRUIT, HEAVY, LATE) for one in (0.0, more))
    assert (first.load <= second.load).all()
    assert (first.late_extra <= second.late_extra + 1e-12).all()


def test_a_season_shorter_than_the_month_is_summed_whole() -> None:
    found = quiescent_load(HAZARD[:, :10], FRUIT[:, :10], np.full(10, 25.0), LATE)
    np.testing.assert_allclose(found.late_extra, 0.5 * found.load)
