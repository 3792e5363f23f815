"""The course of a day from its extremes: printed values, and what holds between them."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.weather.diurnal import air_temperature_cesaraccio2001, daily_vapour_pressure
from geo.weather.humidity import saturation_vapour_pressure

NAN = np.array(np.nan)


def course(time, *, minimum=10.0, maximum=30.0, next_minimum=12.0, day_length=12.0):
    return air_temperature_cesaraccio2001(
        np.asarray(time, dtype=float),
        day_length=np.array(day_length),
        sunrise_to_sunrise=np.array(24.0),
        minimum=np.array(minimum),
        maximum=np.array(maximum),
        next_minimum=np.array(next_minimum),
    )


@pytest.mark.published("trenchr2023", "tests of diurnal_temp_variation_sinesqrt: 8, 16, 20 and 2 h")
@pytest.mark.parametrize(
    ("clock", "printed"), [(8, 17.65367), (16, 27.94389), (20, 18.49743), (26, 14.01487)]
)
def test_the_course_gives_the_printed_values(clock, printed):
    assert course(clock - 6.0) == pytest.approx(printed, abs=5e-6)


@pytest.mark.published("cesaraccio2001", "warmest 4 h before sunset; 0.39 of the way gone then")
def test_the_course_meets_its_four_corners():
    assert course([0.0, 8.0, 24.0]) == pytest.approx([10.0, 30.0, 12.0])
    assert course(12.0) == pytest.approx(30.0 - 0.39 * 18.0)


@given(
    time=st.floats(0.0, 24.0),
    minimum=st.floats(-5.0, 30.0),
    swing=st.floats(0.0, 25.0),
    day_length=st.floats(9.0, 15.0),
)
def test_the_course_stays_within_its_extremes_and_has_no_jump(time, minimum, swing, day_length):
    known = {
        "minimum": minimum,
        "maximum": minimum + swing,
        "next_minimum": minimum,
        "day_length": day_length,
    }
    here, soon = course(time, **known), course(time + 1e-6, **known)
    assert minimum - 1e-9 <= here <= minimum + swing + 1e-9
    assert abs(soon - here) < 0.02 * (swing + 1.0)


@pytest.mark.published("allen1998", "Example 5: Eq. 17, 1.70 kPa")
def test_the_water_of_a_day_is_the_printed_one():
    water = daily_vapour_pressure(
        minimum=np.array(18.0),
        maximum=np.array(25.0),
        lowest_humidity=np.array(54.0),
        highest_humidity=np.array(82.0),
        mean_humidity=NAN,
        mean_dew_point=NAN,
        harmonic_saturation=NAN,
    )
    assert water == pytest.approx(1.70, abs=0.005)


def test_a_dew_point_is_believed_first_and_nothing_is_taken_from_the_minimum():
    known = {"minimum": np.array(18.0), "maximum": np.array(25.0)}
    known |= {"lowest_humidity": NAN, "highest_humidity": NAN, "mean_humidity": NAN}
    known |= {"harmonic_saturation": np.array(2.5)}
    dew = daily_vapour_pressure(**known, mean_dew_point=np.array(15.0))
    assert dew == pytest.approx(1.705, abs=0.0005)
    assert np.isnan(daily_vapour_pressure(**known, mean_dew_point=NAN))


def test_hours_have_the_mean_humidity_that_was_measured():
    hours = saturation_vapour_pressure(course(np.arange(24.0), minimum=14.0, next_minimum=14.0))
    water = daily_vapour_pressure(
        minimum=np.array(14.0),
        maximum=np.array(30.0),
        lowest_humidity=NAN,
        highest_humidity=NAN,
        mean_humidity=np.array(60.0),
        mean_dew_point=NAN,
        harmonic_saturation=1.0 / np.mean(1.0 / hours),
    )
    assert np.mean(100.0 * water / hours) == pytest.approx(60.0)
