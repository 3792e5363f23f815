"""The weather layer: days as the farm counts them, and parameters from the tables."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.weather import WEATHER
from geo.weather.layer import pool_parameters
from geo.weather.wetness import ESTIMATORS
from tests.laws.made_season import made_before, replaced


def test_a_flat_copy_of_the_station_has_the_stations_days() -> None:
    season = made_before(WEATHER, is_level=True)
    made = WEATHER.compute(season)
    by_day = season.air_temperature.values.reshape(9, 24)
    np.testing.assert_allclose(made.day_maximum_temperature[2], by_day.max(axis=1))
    np.testing.assert_allclose(made.day_minimum_temperature[2], by_day.min(axis=1))
    np.testing.assert_allclose(made.day_mean_temperature[2], by_day.mean(axis=1))
    np.testing.assert_allclose(made.rain, season.precipitation.values.reshape(9, 24).sum(axis=1))
    humid = (season.relative_humidity.values.reshape(9, 24) >= 90.0).sum(axis=1)
    np.testing.assert_array_equal(made.humid_hours[2], humid)


def test_a_hollow_has_more_humid_hours_than_the_slope() -> None:
    made = WEATHER.compute(made_before(WEATHER))
    assert made.humid_hours.values[2].sum() > made.humid_hours.values[3].sum()
    assert (made.day_minimum_temperature.values[2] < made.day_minimum_temperature.values[3]).any()


def test_cloud_that_nobody_measured_is_no_fault() -> None:
    season = made_before(WEATHER)
    unknown = replaced(season, cloud_cover=np.full(season.sizes["hour"], np.nan))
    assert np.isfinite(WEATHER.add_to(unknown).pool_strength.values).all()


def test_parameters_are_those_of_the_table() -> None:
    parameters = pool_parameters()
    assert (parameters.full_strength, parameters.scale_depth) == (6.0, 30.0)
    assert (parameters.lapse_rate, parameters.cloud_longwave_factor) == (0.0065, 0.8)


def test_estimators_disagree_by_the_most_less_the_least() -> None:
    made = WEATHER.add_to(made_before(WEATHER))
    assert made.estimator.values.tolist() == list(ESTIMATORS)
    wet = made.wet_hours.values
    np.testing.assert_array_equal(made.wet_hours_disagreement, wet.max(axis=0) - wet.min(axis=0))
    assert (made.wet_hours_disagreement.values >= 0.0).all()
    assert (made.wet_hours_disagreement.values > 0.0).any()
    # The usual rule is the old count of humid hours, and rain besides.
    usual = made.wet_hours.sel(estimator="humidity_90").values
    assert (usual >= made.humid_hours.values).all()


def test_a_hollow_has_dew_before_the_slope_does() -> None:
    season = made_before(WEATHER)
    damp = replaced(season, relative_humidity=np.full(season.sizes["hour"], 99.0))
    made = WEATHER.compute(damp)
    assert made.dew.values[2].sum() > made.dew.values[3].sum()
    assert made.dew.values[2].max() > 0.1


@settings(max_examples=20)
@given(more=st.floats(0.0, 30.0))
def test_a_damper_station_never_has_fewer_wet_hours(more: float) -> None:
    season = made_before(WEATHER)
    humidity = np.minimum(season.relative_humidity.values + more, 100.0)
    # Wind leaves no pools: damper air weakens them, and so may dry a hollow.
    still = {"wind_speed": np.full(humidity.size, 9.0)}
    dry = WEATHER.compute(replaced(season, **still))
    damp = WEATHER.compute(replaced(season, relative_humidity=humidity, **still))
    by_humidity = ["humidity_90", "humidity_95"]
    assert (
        damp.wet_hours.sel(estimator=by_humidity).values
        >= dry.wet_hours.sel(estimator=by_humidity).values
    ).all()


def test_a_block_behind_shelter_has_less_wind_on_the_days_it_comes_from_there() -> None:
    season = made_before(WEATHER)
    share = np.ones((season.sizes["block"], season.sizes["sector"]))
    share[1, 4] = 0.3
    from_east = np.full(season.sizes["hour"], 90.0)
    made = WEATHER.compute(replaced(season, wind_share=share, wind_from_direction=from_east))
    by_day = season.wind_speed.values.reshape(9, 24)
    np.testing.assert_allclose(made.day_mean_wind_speed[0], by_day.mean(axis=1))
    np.testing.assert_allclose(made.day_maximum_wind_speed[0], by_day.max(axis=1))
    np.testing.assert_allclose(made.day_mean_wind_speed[1], 0.3 * by_day.mean(axis=1))
    from_north = WEATHER.compute(
        replaced(season, wind_share=share, wind_from_direction=0.0 * from_east)
    )
    np.testing.assert_allclose(from_north.day_mean_wind_speed[1], by_day.mean(axis=1))
