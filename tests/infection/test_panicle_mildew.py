"""How mildew behaves: example days, and what must happen when weather changes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.panicle_mildew import (
    hourly_favourability,
    humidity_weight,
    panicle_mildew_parameters,
    rain_weight,
)

MILDEW = panicle_mildew_parameters()
temperatures = st.floats(-10.0, 50.0)


def favourability(temperature, humidity, rain=0.0, *, rain_mode="washoff") -> np.ndarray:
    hours = np.broadcast_arrays(temperature, humidity, rain)
    warmth, damp, wet = (np.atleast_1d(np.asarray(array, dtype=float)) for array in hours)
    return hourly_favourability(warmth, damp, rain_weight(wet, MILDEW, rain_mode=rain_mode), MILDEW)


# Lowest and highest warmth, highest and lowest humidity, and the day's mean favourability.
DAYS = [
    (12, 25, 92, 45, 0.522),
    (15, 22, 95, 70, 0.758),
    (5, 15, 95, 60, 0.141),
    (20, 36, 70, 20, 0.360),
    (14, 28, 85, 40, 0.542),
]


@pytest.mark.frozen("our own numbers, not an outside check: computed apart from the code")
@pytest.mark.parametrize(("low", "high", "damp", "dry", "index"), DAYS)
def test_example_days(low, high, damp, dry, index) -> None:
    # A cosine through 24 whole hours, coolest and dampest at dawn. Which hour dawn is does not
    # matter; half hours instead of whole ones move the third digit.
    dawn = np.cos(2.0 * np.pi * (np.arange(24) - 6.0) / 24.0)
    warmth = (high + low) / 2.0 - (high - low) / 2.0 * dawn
    humidity = (damp + dry) / 2.0 + (damp - dry) / 2.0 * dawn
    assert favourability(warmth, humidity).mean() == pytest.approx(index, abs=5e-4)


@pytest.mark.published("gupta1989", "no germination outside 9-32 degC, from memory")
@given(
    temperature=st.one_of(st.floats(-30.0, 9.0), st.floats(32.0, 55.0)), humidity=st.floats(0, 100)
)
def test_colder_or_hotter_than_the_limits_nothing_happens(temperature, humidity) -> None:
    for rain_mode in ("washoff", "neutral", "promote"):
        assert favourability(temperature, humidity, rain_mode=rain_mode)[0] == 0.0


@pytest.mark.published("carroll2003", "optimum near 85 % humidity, on grape; abstract")
@given(first=st.floats(60.0, 85.0), second=st.floats(60.0, 85.0), temperature=temperatures)
def test_damper_air_up_to_85_percent_is_never_less_favourable(first, second, temperature) -> None:
    low, high = sorted((first, second))
    assert favourability(temperature, low)[0] <= favourability(temperature, high)[0]


@given(humidity=st.floats(0.0, 100.0), temperature=st.floats(9.5, 31.5))
def test_dry_air_weighs_but_never_switches_mildew_off(humidity, temperature) -> None:
    assert 0.2 <= humidity_weight(np.array(humidity), MILDEW) <= 1.0
    assert favourability(temperature, humidity)[0] > 0.0


def test_humidity_at_its_corners() -> None:
    corners = np.array([0.0, 20.0, 52.5, 85.0, 95.0, 97.5, 100.0, np.nan])
    expected = [0.2, 0.2, 0.6, 1.0, 1.0, 0.85, 0.7, np.nan]
    np.testing.assert_allclose(humidity_weight(corners, MILDEW), expected)


@pytest.mark.common_practice("heat of the high 80s F stops mildew: common practice, no source")
def test_heat_of_the_high_80s_fahrenheit_nearly_stops_it() -> None:
    fahrenheit = np.array([85.0, 88.0, 89.0, 90.0])
    found = favourability((fahrenheit - 32.0) / 1.8, 85.0)
    assert (np.diff(found) < 0.0).all()
    assert (found[1:] < [0.25, 0.1, 1e-12]).all()


RAINS = st.lists(st.floats(0.0, 12.0), min_size=1, max_size=80)


@pytest.mark.published("sivapalan1993", "rain lowers mildew on barley, pea and rose; abstract")
@given(rain=RAINS)
def test_rain_washes_off_and_neutral_rain_does_not(rain: list[float]) -> None:
    wet = np.array(rain)
    washed, neutral = (rain_weight(wet, MILDEW, rain_mode=mode) for mode in ("washoff", "neutral"))
    assert (washed <= neutral).all()
    np.testing.assert_array_equal(neutral, np.where(wet > 0.0, 0.3, 1.0))


def test_rain_removes_the_conidia_of_a_day_and_no_more() -> None:
    rain = np.zeros(72)
    rain[40] = 10.0
    weight = rain_weight(rain, MILDEW, rain_mode="washoff")
    left = np.exp(-0.1 * 10.0)
    expected = np.ones(72)
    expected[17:40] = left
    expected[40] = 0.3 * left
    np.testing.assert_allclose(weight, expected)


@pytest.mark.frozen(
    "our own numbers, not an outside check: 0.1 per mm: 5 mm removes 39 %, 20 mm 86 %"
)
@pytest.mark.parametrize(("rain", "removed"), [(5.0, 0.39), (20.0, 0.86)])
def test_how_much_a_rain_removes(rain: float, removed: float) -> None:
    weight = rain_weight(np.array([0.0, rain]), MILDEW, rain_mode="washoff")
    assert 1.0 - weight[0] == pytest.approx(removed, abs=5e-3)


@pytest.mark.published("reuveni2018", "rain in bloom promotes mildew; abstract")
@given(rain=RAINS)
def test_promoting_rain_raises_and_never_lowers(rain: list[float]) -> None:
    wet = np.array(rain)
    promoted, neutral = (
        rain_weight(wet, MILDEW, rain_mode=mode) for mode in ("promote", "neutral")
    )
    assert (promoted >= neutral).all()


def test_promotion_starts_after_2_millimetres_and_lasts_48_hours() -> None:
    rain = np.zeros(120)
    rain[[10, 11]] = 1.0
    weight = rain_weight(rain, MILDEW, rain_mode="promote")
    assert np.flatnonzero(weight > 1.0).tolist() == list(range(12, 59))
    assert weight[30] == 1.3


def test_promotion_does_not_hang_on_what_fell_long_before() -> None:
    for before in (0.0, 12.3, 31.8, 33.33):
        rain = np.zeros(140)
        rain[0], rain[[60, 61]] = before, (1.7, 0.3)
        assert rain_weight(rain, MILDEW, rain_mode="promote")[62] == 1.3, before


@given(temperature=temperatures, humidity=st.floats(0, 100), rain=RAINS)
def test_favourability_is_a_share(temperature, humidity, rain) -> None:
    for rain_mode in ("washoff", "neutral", "promote"):
        found = favourability(temperature, humidity, np.array(rain), rain_mode=rain_mode)
        assert ((found >= 0.0) & (found <= 1.0)).all()


def test_a_day_is_not_its_mean() -> None:
    swing = 10.0 * np.cos(2.0 * np.pi * np.arange(24) / 24.0)
    hourly = favourability(20.0 + swing, 70.0).mean()
    assert hourly < 0.8 * favourability(20.0, 70.0)[0]
