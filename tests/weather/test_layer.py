"""The weather layer: days as the farm counts them, and parameters from the tables."""

import numpy as np

from geo.weather import WEATHER
from geo.weather.layer import pool_parameters
from tests.laws.made_season import before, made_season, replaced


def test_a_flat_copy_of_the_station_has_the_stations_days() -> None:
    season = before(made_season(is_level=True), WEATHER)
    given = WEATHER.compute(season)
    by_day = season.air_temperature.values.reshape(9, 24)
    np.testing.assert_allclose(given.day_maximum_temperature[2], by_day.max(axis=1))
    np.testing.assert_allclose(given.day_minimum_temperature[2], by_day.min(axis=1))
    np.testing.assert_allclose(given.day_mean_temperature[2], by_day.mean(axis=1))
    np.testing.assert_allclose(given.rain, season.precipitation.values.reshape(9, 24).sum(axis=1))
    humid = (season.relative_humidity.values.reshape(9, 24) >= 90.0).sum(axis=1)
    np.testing.assert_array_equal(given.humid_hours[2], humid)


def test_a_hollow_has_more_humid_hours_than_the_slope() -> None:
    given = WEATHER.compute(before(made_season(), WEATHER))
    assert given.humid_hours.values[2].sum() > given.humid_hours.values[3].sum()
    assert (given.day_minimum_temperature.values[2] < given.day_minimum_temperature.values[3]).any()


def test_cloud_that_nobody_measured_is_no_fault() -> None:
    season = before(made_season(), WEATHER)
    unknown = replaced(season, cloud_cover=np.full(season.sizes["hour"], np.nan))
    assert np.isfinite(WEATHER.add_to(unknown).pool_strength.values).all()


def test_parameters_are_those_of_the_table() -> None:
    parameters = pool_parameters()
    assert (parameters.full_strength, parameters.scale_depth) == (6.0, 30.0)
    assert (parameters.lapse_rate, parameters.cloud_longwave_factor) == (0.0065, 0.8)
