"""Anthracnose needs rain to bring it and wetness to let it in: rules, laws and the split."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.anthracnose import (
    AnthracnoseDays,
    anthracnose_days,
)
from geo.infection.anthracnose_parameters import anthracnose_parameters
from geo.infection.infected_share import LogitCoefficients

STRICT, LIBERAL = anthracnose_parameters(), anthracnose_parameters("liberal")
DAYS = 6
HOURS = 24 * DAYS
STARTS = np.arange(0, HOURS, 24)
CHANCE = np.random.default_rng(7)
AIR = CHANCE.uniform(8.0, 36.0, (5, HOURS))
DAMP = CHANCE.choice([60.0, 92.0, 99.0], (5, HOURS))
RAIN = np.where(CHANCE.random(HOURS) < 0.1, CHANCE.uniform(0.2, 15.0, HOURS), 0.0)


def favourability_of(*args: object, **options: object) -> np.ndarray:
    """Return the favourability of each day of a season that begins dry and clean."""
    return anthracnose_days(*args, **options).favourability


def weather(*, rain: dict[int, float], damp: slice, temperature: float = 25.0) -> AnthracnoseDays:
    """Return the days of one spot in otherwise dry air of one temperature."""
    humidity, precipitation = np.full((1, HOURS), 60.0), np.zeros(HOURS)
    humidity[0, damp] = 100.0
    precipitation[list(rain)] = list(rain.values())
    return anthracnose_days(
        np.full((1, HOURS), temperature), humidity, precipitation, STRICT, starts=STARTS
    )


def total(days: AnthracnoseDays) -> float:
    return float(days.favourability.sum())


@pytest.mark.published("fitzell1984", "no conidia were trapped following dews; abstract")
def test_dew_alone_never_spreads_anthracnose() -> None:
    hours = 24 * 30
    found = favourability_of(
        np.full((1, hours), 25.0),
        np.full((1, hours), 100.0),
        np.zeros(hours),
        LIBERAL,
        starts=np.arange(0, hours, 24),
    )
    assert (found == 0.0).all()


@pytest.mark.published("estrada1993", "conidia lived 1-2 weeks in dry air, then infected; abstract")
def test_rain_deposits_and_later_dew_infects() -> None:
    rain = {0: 20.0}
    dry_after = weather(rain=rain, damp=slice(0, 0))
    dew_after = weather(rain=rain, damp=slice(72, 84))
    assert (dry_after.favourability[0, 1:] == 0.0).all()
    assert dew_after.favourability[0, 3] == pytest.approx(0.596 * np.exp(-3.25 / 7), abs=0.01)


def test_24_wet_hours_infect_more_than_6() -> None:
    long, short = (weather(rain={0: 25.0}, damp=slice(0, hours)) for hours in (24, 6))
    assert total(long) > 4.0 * total(short) > 0.0
    assert long.infected_share[0, 0] == pytest.approx(0.973, abs=5e-4)


@pytest.mark.published("fitzell1984", "sporulation 10-30 degC; abstract")
@pytest.mark.parametrize("temperature", [5.0, 10.0])
def test_wetness_in_the_cold_infects_nothing(temperature: float) -> None:
    found = weather(rain={0: 25.0}, damp=slice(0, HOURS), temperature=temperature)
    assert (found.favourability == 0.0).all()
    assert (found.infected_share == 0.0).all()


@pytest.mark.published("estrada1996", "rains > 20 mm high, <= 4 mm virtually none; abstract")
def test_rains_of_4_millimetres_infect_nothing_where_rains_of_20_infect_much() -> None:
    by_rain = {
        amount: total(weather(rain={0: amount, 48: amount, 96: amount}, damp=slice(0, HOURS)))
        for amount in (4.0, 12.0, 21.0)
    }
    assert by_rain[4.0] == 0.0 < by_rain[12.0] < by_rain[21.0]
    assert by_rain[21.0] > 0.4


def test_a_wet_night_is_shared_between_its_two_days_without_loss() -> None:
    night = weather(rain={18: 20.0}, damp=slice(18, 30))
    day = weather(rain={24: 20.0}, damp=slice(24, 36))
    assert (night.favourability[0, :2] > 0.0).all()
    assert total(night) == pytest.approx(total(day))


def test_the_liberal_rule_never_sees_less_infection_than_the_conservative() -> None:
    strict, liberal = (
        anthracnose_days(AIR, DAMP, RAIN, rule, starts=STARTS).infected_share
        for rule in (STRICT, LIBERAL)
    )
    assert (liberal >= strict).all()
    assert liberal.mean() > strict.mean()


def test_the_stand_in_gives_way_to_a_regression_of_the_user() -> None:
    # Made up for the test: coefficients of no paper.
    made = LogitCoefficients(constant=-40.0, per_wet_hour=0.0, per_degree=0.0)
    never = anthracnose_days(AIR, DAMP, RAIN, STRICT, starts=STARTS, coefficients=made)
    assert never.favourability.max() < 1e-12
    sure = replace(made, constant=40.0)
    always = anthracnose_days(AIR, DAMP, RAIN, STRICT, starts=STARTS, coefficients=sure)
    assert always.infected_share.max() == 1.0
    assert ((always.favourability >= 0.0) & (always.favourability <= 1.0)).all()


def test_what_is_infected_stays_so_when_a_regression_falls() -> None:
    # Made up for the test: a curve that falls with wetness after the first hour.
    falling = LogitCoefficients(constant=3.0, per_wet_hour=-1.0, per_degree=0.0)
    humidity = np.full((1, 24), 100.0)
    rain = np.r_[25.0, np.zeros(23)]
    found = anthracnose_days(
        np.full((1, 24), 25.0), humidity, rain, STRICT, starts=STARTS[:1], coefficients=falling
    )
    first_hour = 1.0 / (1.0 + np.exp(-2.0))
    assert found.favourability[0, 0] == pytest.approx(first_hour)
    assert found.infected_share[0, 0] == pytest.approx(first_hour)


def runs(hours: np.ndarray, *, gap: int) -> list[list[int]]:
    """Return hours in groups, parted by dry gaps longer than that."""
    parted = np.flatnonzero(np.diff(hours) > gap + 1) + 1
    return [part.tolist() for part in np.split(hours, parted) if part.size]


def beta(temperature: float) -> float:
    if not 10.0 < temperature < 35.0:
        return 0.0
    return (35.0 - temperature) / 10.0 * ((temperature - 10.0) / 15.0) ** 1.5


def by_hand(air: np.ndarray, humidity: np.ndarray, rain: np.ndarray) -> list[float]:
    """Return the days of one spot the slow way: whole rains and whole wet periods, one by one."""
    rains = runs(np.flatnonzero(rain), gap=6)

    def deposit(hour: int) -> float:
        laid, then = 0.0, 0
        for one in rains:
            fallen = [past for past in one if past <= hour]
            if fallen:
                share = min(1.0, max(0.0, (rain[fallen].sum() - 4.0) / 16.0))
                laid = min(1.0, laid * np.exp((then - fallen[-1]) / 168.0) + share)
                then = fallen[-1]
        return laid * np.exp((then - hour) / 168.0)

    days = [0.0] * DAYS
    for period in runs(np.flatnonzero((humidity >= 95.0) | (rain > 0.0)), gap=8):
        infected, weighted = 0.0, 0.0
        for hour in period:
            weighted += beta(air[hour])
            now = 1.0 - np.exp(-((weighted / 12.6) ** 2))
            days[hour // 24] += deposit(hour) * (now - infected)
            infected = now
    return days


@given(seed=st.integers(0, 2**31))
def test_the_slow_way_through_whole_rains_and_wet_periods_gives_the_same(seed: int) -> None:
    chance = np.random.default_rng(seed)
    air, humidity = (
        chance.uniform(5.0, 38.0, HOURS),
        chance.choice([60.0, 99.0], HOURS, p=[0.8, 0.2]),
    )
    rain = np.where(chance.random(HOURS) < 0.08, chance.uniform(0.2, 12.0, HOURS), 0.0)
    found = favourability_of(air[None], humidity[None], rain, STRICT, starts=STARTS)
    np.testing.assert_allclose(found[0], by_hand(air, humidity, rain), atol=1e-9)


AMOUNTS = st.lists(
    st.one_of(st.just(0.0), st.floats(0.1, 25.0)), min_size=HOURS, max_size=HOURS
).map(np.array)


@given(rain=AMOUNTS, factor=st.floats(1.0, 5.0))
def test_heavier_rain_is_never_less_favourable(rain: np.ndarray, factor: float) -> None:
    first, second = (
        favourability_of(AIR, DAMP, rain * one, STRICT, starts=STARTS) for one in (1.0, factor)
    )
    assert (second >= first - 1e-12).all()


@given(data=st.data())
def test_more_wet_hours_within_a_wet_period_never_infect_less(data: st.DataObject) -> None:
    wets = st.lists(st.booleans(), min_size=HOURS, max_size=HOURS).map(np.array)
    some = data.draw(wets)
    more = some | data.draw(wets)
    unbroken = replace(STRICT, wet_gap_hours=1e9)
    rain = np.zeros(HOURS)
    rain[0] = 25.0
    totals = [
        favourability_of(
            AIR[:1], np.where(wet, 100.0, 60.0)[None], rain, unbroken, starts=STARTS
        ).sum()
        for wet in (some, more)
    ]
    assert totals[0] <= totals[1] + 1e-12


@given(rain=AMOUNTS, damp=st.integers(0, 2**31))
def test_favourability_is_a_share(rain: np.ndarray, damp: int) -> None:
    humidity = np.random.default_rng(damp).choice([60.0, 99.0], (5, HOURS))
    found = anthracnose_days(AIR, humidity, rain, STRICT, starts=STARTS)
    for share in (found.favourability, found.infected_share):
        assert ((share >= 0.0) & (share <= 1.0)).all()


def test_no_parameters_make_a_day_more_than_whole() -> None:
    hasty = replace(STRICT, wet_gap_hours=0.0, hours_of_infection=0.5)
    humidity = np.where(np.arange(24) % 2, 60.0, 100.0)[None]
    rain = np.r_[25.0, np.zeros(23)]
    found = favourability_of(np.full((1, 24), 25.0), humidity, rain, hasty, starts=STARTS[:1])
    assert found.tolist() == [[1.0]]


@given(split=st.integers(1, DAYS - 1), hole=st.integers(0, HOURS - 1))
def test_splitting_the_season_at_a_day_and_carrying_the_state_gives_the_whole(
    split: int, hole: int
) -> None:
    humidity = DAMP.copy()
    humidity[1, hole] = np.nan
    cut = 24 * split
    whole = anthracnose_days(AIR, humidity, RAIN, STRICT, starts=STARTS)
    first = anthracnose_days(
        AIR[:, :cut], humidity[:, :cut], RAIN[:cut], STRICT, starts=STARTS[:split]
    )
    rest = anthracnose_days(
        AIR[:, cut:],
        humidity[:, cut:],
        RAIN[cut:],
        STRICT,
        starts=STARTS[split:] - cut,
        before=first.carried,
    )
    for name in ("favourability", "infected_share", "event_rain"):
        parts = np.concatenate([getattr(first, name), getattr(rest, name)], axis=-1)
        np.testing.assert_array_equal(parts, getattr(whole, name))
    np.testing.assert_array_equal(rest.carried.infected, whole.carried.infected)


@given(at_once=st.integers(1, 2000))
def test_grouping_the_days_never_changes_one(at_once: int) -> None:
    whole = anthracnose_days(AIR, DAMP, RAIN, STRICT, starts=STARTS)
    found = anthracnose_days(AIR, DAMP, RAIN, STRICT, starts=STARTS, values_at_once=at_once)
    np.testing.assert_array_equal(found.favourability, whole.favourability)


@given(spot=st.integers(0, 4), hour=st.integers(0, HOURS - 1))
def test_an_unknown_hour_stays_in_its_own_spot(spot: int, hour: int) -> None:
    humidity = DAMP.copy()
    humidity[spot, hour] = np.nan
    known = favourability_of(AIR, DAMP, RAIN, STRICT, starts=STARTS)
    found = favourability_of(AIR, humidity, RAIN, STRICT, starts=STARTS)
    others = np.arange(5) != spot
    np.testing.assert_array_equal(found[others], known[others])
    np.testing.assert_array_equal(found[spot, : hour // 24], known[spot, : hour // 24])


def test_an_unknown_hour_makes_its_day_unknown_only_where_conidia_lie() -> None:
    humidity = np.full((1, 48), 60.0)
    humidity[0, 30] = np.nan
    air, rain = np.full((1, 48), 25.0), np.zeros(48)
    starts = STARTS[:2]
    clean = favourability_of(air, humidity, rain, STRICT, starts=starts)
    assert clean.tolist() == [[0.0, 0.0]]
    rain[0] = 25.0
    laden = favourability_of(air, humidity, rain, STRICT, starts=starts)
    assert np.isnan(laden).tolist() == [[False, True]]


def test_permuting_the_spots_permutes_the_days() -> None:
    order = np.array([3, 0, 4, 1, 2])
    found = favourability_of(AIR[order], DAMP[order], RAIN, STRICT, starts=STARTS)
    whole = favourability_of(AIR, DAMP, RAIN, STRICT, starts=STARTS)
    np.testing.assert_array_equal(found, whole[order])


def test_an_orchard_without_spots_has_no_days_of_any() -> None:
    none = np.empty((0, HOURS))
    assert favourability_of(none, none, RAIN, STRICT, starts=STARTS).shape == (0, 6)


def test_each_kind_of_array_is_taken(as_array) -> None:
    found = favourability_of(
        as_array(np.full((1, 24), 25.0)),
        as_array(np.full((1, 24), 100.0)),
        as_array([25.0] + [0.0] * 23),
        STRICT,
        starts=np.array([0]),
    )
    assert 0.85 < found[0, 0] < 0.973
