"""The sun against the worked example of its algorithm."""

from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import pytest

from geo.inputs.sun import solar_elevation, sunrises


@pytest.mark.published("reda2004", "Appendix A.5, table of results: topocentric zenith 50.11162")
def test_the_sun_stands_where_the_worked_example_puts_it():
    # 2003-10-17 12:30:30 at UTC-7
    instant = np.array([1066419030.0])
    elevation = solar_elevation(
        instant,
        longitude=-105.1786,
        latitude=39.742476,
        elevation=1830.14,
        pressure=820.0,
        air_temperature=11.0,
        delta_t_seconds=67.0,
    )
    assert 90.0 - elevation == pytest.approx([50.11162], abs=5e-6)


def test_the_sun_of_the_demo_is_up_by_day_and_down_by_night(demo):
    _, season = demo
    hours = season.hour.to_index().tz_localize("UTC").tz_convert("America/Mazatlan").hour
    sun = season.solar_elevation.to_numpy()
    assert (sun[(hours >= 8) & (hours < 17)] > 0).all()
    assert (sun[(hours >= 19) | (hours < 6)] < 0).all()
    noon = hours[sun.reshape(-1, 24).argmax(axis=1) + np.arange(len(sun) // 24) * 24]
    assert set(noon) == {12}


GOLDEN = {"longitude": -105.1786, "latitude": 39.742476, "delta_t_seconds": 67.0}


@pytest.mark.published("reda2004", "Appendix A.5: sunrise 06:12:43 local time, from memory")
def test_the_sun_rises_when_the_worked_example_says():
    (rise,) = sunrises(pd.DatetimeIndex(["2003-10-17"]), zone=ZoneInfo("America/Phoenix"), **GOLDEN)
    assert rise == pytest.approx(pd.Timestamp("2003-10-17T13:12:43").timestamp(), abs=0.5)


@pytest.mark.parametrize(
    ("zone", "longitude", "latitude"),
    [("Australia/Brisbane", 145.5, -16.9), ("Pacific/Honolulu", -157.9, 21.3), ("UTC", 0.0, 5.0)],
)
def test_each_local_morning_has_its_own_sunrise(zone, longitude, latitude):
    days = pd.date_range("2026-02-01", periods=40)
    rise = sunrises(days, zone=ZoneInfo(zone), longitude=longitude, latitude=latitude)
    local = pd.to_datetime(rise, unit="s", utc=True).tz_convert(zone)
    assert local.tz_localize(None).normalize().equals(days)
    assert set(local.hour) <= {5, 6, 7}
    # Within a minute it passes from below the horizon to above it.
    place = {"longitude": longitude, "latitude": latitude, "elevation": 0.0}
    assert (solar_elevation(rise - 60.0, **place) < -0.25).all()
    assert (solar_elevation(rise + 60.0, **place) > -0.25).all()


def test_a_sun_that_does_not_rise_is_not_known():
    days = pd.date_range("2025-11-01", periods=120)
    rise = sunrises(days, zone=ZoneInfo("UTC"), longitude=25.0, latitude=75.0)
    assert np.isnan(rise[10:90]).all()
    winter = pd.date_range("2025-12-20", periods=3)
    assert np.isnan(sunrises(winter, zone=ZoneInfo("UTC"), longitude=25.0, latitude=75.0)).all()
