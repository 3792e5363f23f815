"""Pools as loggers feel them: known truths come back, and silence says nothing."""

from dataclasses import replace

import numpy as np
import pytest

from geo.reference.number import values
from geo.weather.at_spots import air_temperature_at_spots
from geo.weather.fit_layer import prior
from geo.weather.layer import pool_parameters
from geo.weather.pool_fit import Estimate, Loggers, StationNights, fit_pools

PARAMETERS = pool_parameters()
STRENGTH, DEPTH = prior("full_strength"), prior("scale_depth")
DEPTHS = np.array([4.0, 12.0, 35.0, 60.0])


def made_station(nights: int = 40, *, seed: int = 1) -> StationNights:
    chance = np.random.default_rng(seed)
    hour = np.arange(24 * nights)
    swing = np.cos(2.0 * np.pi * (hour - 5.0) / 24.0)
    cloud, wind = np.repeat(chance.uniform(0, 0.8, nights), 24), chance.uniform(0, 1.5, nights)
    return StationNights(
        air_temperature=18.0 - 6.0 * swing,
        relative_humidity=65.0 + 20.0 * swing,
        cloud_cover=cloud,
        wind_speed=np.repeat(wind, 24),
        solar_elevation=-60.0 * np.cos(2.0 * np.pi * hour / 24.0),
        is_measured=np.ones(hour.size, dtype=bool),
        pool_depth=1.0,
    )


def made_loggers(
    station: StationNights,
    depths: np.ndarray,
    *,
    true: tuple[float, float],
    seed: int = 2,
    by_night: float = 0.5,
    by_hour: float = 0.3,
) -> Loggers:
    """Return loggers that follow the formula with a known truth, off by the night and the hour."""
    chance = np.random.default_rng(seed)
    parameters = replace(PARAMETERS, full_strength=true[0], scale_depth=true[1])
    height = -0.8 * depths
    temperature = air_temperature_at_spots(
        station.air_temperature,
        station.strength(parameters),
        height_above_station=height,
        pool_depth=depths,
        station_pool_depth=station.pool_depth,
        parameters=parameters,
    )
    days = temperature.shape[1] // 24
    off = np.repeat(chance.normal(0.0, by_night, (depths.size, days)), 24, axis=1)
    noise = chance.normal(0.0, by_hour, temperature.shape)
    return Loggers(temperature + off + noise, height, depths)


def fitted(station: StationNights, loggers: Loggers) -> tuple[Estimate, Estimate]:
    return fit_pools(
        station,
        loggers,
        full_strength=STRENGTH,
        scale_depth=DEPTH,
        parameters=PARAMETERS,
        **values("microclimate", "logger"),
    )


@pytest.mark.parametrize("true", [(4.0, 20.0), (6.0, 30.0), (7.5, 45.0)])
def test_a_known_truth_lies_within_the_interval_and_the_interval_is_narrow(
    true: tuple[float, float],
) -> None:
    station = made_station()
    found = fitted(station, made_loggers(station, DEPTHS, true=true))
    for estimate, truth, before in zip(found, true, (STRENGTH, DEPTH), strict=True):
        assert estimate.low < truth < estimate.high
        assert estimate.low < estimate.value < estimate.high
        assert estimate.value == pytest.approx(truth, rel=0.25)
        assert estimate.high / estimate.low < 0.8 * before.high / before.low
        assert 0.0 < estimate.prior_share < 0.5


def test_nine_in_ten_intervals_hold_the_truth() -> None:
    station = made_station(20)
    inside = []
    for seed in range(100):
        chance = np.random.default_rng(seed)
        # The truth is drawn from the prior, and nights are off by what the table says.
        true = tuple(
            before.value * (before.high / before.low) ** (chance.normal() / (2 * 1.6449))
            for before in (STRENGTH, DEPTH)
        )
        loggers = made_loggers(station, DEPTHS[:3], true=true, seed=seed, by_night=1.0)
        found = fitted(station, loggers)
        inside.append([one.low < truth < one.high for one, truth in zip(found, true, strict=True)])
    share = np.mean(inside, axis=0)
    assert (share >= 0.85).all(), share


def test_more_nights_leave_less_to_the_prior() -> None:
    shares = []
    for nights in (4, 16, 64):
        station = made_station(nights)
        found = fitted(station, made_loggers(station, DEPTHS, true=(5.0, 25.0)))
        shares.append([one.prior_share for one in found])
    assert (np.diff(shares, axis=0) < 0.0).all()


def test_loggers_as_deep_as_the_station_say_almost_nothing() -> None:
    station = made_station()
    level = made_loggers(station, np.full(3, station.pool_depth), true=(6.0, 30.0))
    found = fitted(station, replace(level, height_above_station=np.zeros(3)))
    for estimate, before in zip(found, (STRENGTH, DEPTH), strict=True):
        assert estimate.prior_share > 0.999
        assert estimate.value == pytest.approx(before.value, rel=1e-6)


@pytest.mark.parametrize("depths", [np.zeros(0), np.array([20.0]), np.array([20.0, np.nan])])
def test_fewer_than_two_loggers_leave_the_table_as_it_is(depths: np.ndarray) -> None:
    station = made_station(5)
    assert fitted(station, made_loggers(station, depths, true=(4.0, 20.0))) == (STRENGTH, DEPTH)


def test_forecast_hours_days_and_weak_pools_are_left_out() -> None:
    station = made_station(10)
    loggers = made_loggers(station, DEPTHS, true=(5.0, 25.0))
    assert fitted(replace(station, is_measured=np.zeros(240, dtype=bool)), loggers) == (
        STRENGTH,
        DEPTH,
    )
    windy = replace(station, wind_speed=np.full(240, 9.0))
    assert fitted(windy, loggers) == (STRENGTH, DEPTH)
    by_day = np.where(station.solar_elevation < 0.0, loggers.air_temperature, 99.0)
    assert fitted(station, replace(loggers, air_temperature=by_day)) == fitted(station, loggers)


def test_the_order_of_loggers_changes_nothing() -> None:
    station = made_station(10)
    loggers = made_loggers(station, DEPTHS, true=(5.0, 25.0))
    turned = Loggers(
        loggers.air_temperature[::-1], loggers.height_above_station[::-1], loggers.pool_depth[::-1]
    )
    for one, other in zip(fitted(station, loggers), fitted(station, turned), strict=True):
        assert one.value == pytest.approx(other.value, rel=1e-6)
        assert one.prior_share == pytest.approx(other.prior_share, rel=1e-5)


def test_nights_that_scatter_more_give_wider_intervals() -> None:
    station = made_station()
    widths = []
    for by_night in (1.0, 3.0):
        loggers = made_loggers(station, DEPTHS, true=(5.0, 25.0), by_night=by_night)
        widths.append([one.high / one.low for one in fitted(station, loggers)])
    assert (np.diff(widths, axis=0) > 0.0).all()
