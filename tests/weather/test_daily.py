"""Days at spots: dew by night, Delta T by day, wet hours by four estimators."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.season.days import day_starts
from geo.weather.daily import AirAtSpots, day_delta_t, day_dew, day_wet_hours
from geo.weather.humidity import vapour_pressure
from geo.weather.psychrometer import air_pressure, delta_t

STARTS = day_starts(np.repeat([0, 1], 24))
IS_DAYLIGHT = np.tile((np.arange(24) >= 6) & (np.arange(24) < 18), 2)
THRESHOLDS = {"humid_threshold": 90.0, "strict_threshold": 95.0, "depression": 2.0}


def made_air(seed: int = 1, spots: int = 3) -> AirAtSpots:
    chance = np.random.default_rng(seed)
    return AirAtSpots(
        chance.uniform(5.0, 35.0, (spots, 48)),
        chance.uniform(20.0, 100.0, (spots, 48)),
        chance.uniform(0.0, 1500.0, spots),
    )


def wet_hours(air: AirAtSpots, *, rain: float = 0.0) -> np.ndarray:
    return day_wet_hours(
        air,
        wind_speed=np.full(48, 1.0),
        precipitation=np.full(48, rain),
        starts=STARTS,
        **THRESHOLDS,
    )


def test_delta_t_of_the_day_is_that_of_a_plain_loop_over_daylight() -> None:
    air = made_air()
    least, most = day_delta_t(air, IS_DAYLIGHT, STARTS)
    for spot in range(3):
        pressure = air_pressure(air.elevation[spot])
        for day in range(2):
            hours = [hour for hour in range(24 * day, 24 * day + 24) if IS_DAYLIGHT[hour]]
            found = [
                float(
                    delta_t(
                        air.air_temperature[spot, hour],
                        air.relative_humidity[spot, hour],
                        pressure=pressure,
                    )
                )
                for hour in hours
            ]
            assert least[spot, day] == pytest.approx(min(found), rel=1e-12)
            assert most[spot, day] == pytest.approx(max(found), rel=1e-12)


def test_a_day_without_daylight_has_no_delta_t() -> None:
    is_daylight = IS_DAYLIGHT.copy()
    is_daylight[24:] = False
    least, most = day_delta_t(made_air(), is_daylight, STARTS)
    assert np.isfinite(least[:, 0]).all()
    assert np.isnan(least[:, 1]).all()
    assert np.isnan(most[:, 1]).all()


def test_dew_counts_in_the_dark_only() -> None:
    carried = vapour_pressure(np.full(48, 20.0), np.full(48, 95.0))
    temperature = np.full((1, 48), 22.0)
    temperature[0, 3] = 17.0
    temperature[0, 24 + 12] = 10.0  # by day: no sun ever left the air so cold
    air = AirAtSpots(temperature, np.full((1, 48), 95.0), np.zeros(1))
    dew = day_dew(air, carried, ~IS_DAYLIGHT, STARTS)
    assert dew[0, 0] > 1.0
    assert dew[0, 1] == 0.0


def test_an_hour_with_rain_is_wet_by_every_estimator() -> None:
    assert (wet_hours(made_air(), rain=0.2) == 24.0).all()


def test_unknown_ground_stays_with_its_spot() -> None:
    air = made_air()
    air.air_temperature[1] = air.relative_humidity[1] = np.nan
    dew = day_dew(air, np.full(48, 2.0), ~IS_DAYLIGHT, STARTS)
    for by_spot in (*wet_hours(air), *day_delta_t(air, IS_DAYLIGHT, STARTS), dew):
        assert np.isnan(by_spot).all(axis=1).tolist() == [False, True, False]
        assert np.isfinite(by_spot[[0, 2]]).all()


@given(seed=st.integers(0, 50), more=st.floats(0.0, 40.0))
def test_more_humid_air_never_has_fewer_wet_hours(seed: int, more: float) -> None:
    air = made_air(seed)
    damper = AirAtSpots(
        air.air_temperature, np.minimum(air.relative_humidity + more, 100.0), air.elevation
    )
    # Of the tree this is no law: in warm air its calm score falls with humidity times warmth.
    assert (wet_hours(damper)[:3] >= wet_hours(air)[:3]).all()


@given(seed=st.integers(0, 50))
def test_the_careful_rule_never_has_more_wet_hours_than_the_usual_one(seed: int) -> None:
    found = wet_hours(made_air(seed))
    assert (found[1] <= found[0]).all()
    assert ((found >= 0.0) & (found <= 24.0)).all()
