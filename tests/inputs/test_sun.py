"""The sun against the worked example of its algorithm."""

import numpy as np
import pytest

from geo.inputs.sun import solar_elevation


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
    sun = season.solar_elevation.values
    assert (sun[(hours >= 8) & (hours < 17)] > 0).all()
    assert (sun[(hours >= 19) | (hours < 6)] < 0).all()
    noon = hours[sun.reshape(-1, 24).argmax(axis=1) + np.arange(len(sun) // 24) * 24]
    assert set(noon) == {12}
