"""Wet bulb, dew point and Delta T against FAO-56, ASHRAE and a rival regression."""

import numpy as np
import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.weather.humidity import saturation_vapour_pressure, vapour_pressure
from geo.weather.psychrometer import (
    PSYCHROMETER_PER_K,
    air_pressure,
    delta_t,
    dew_point,
    wet_bulb_temperature,
)

psychrolib.SetUnitSystem(psychrolib.SI)
SEA_LEVEL_PA = 101325.0
SEA_LEVEL = np.array(SEA_LEVEL_PA / 1000.0)
temperatures = st.floats(0.0, 45.0)
humidities = st.floats(5.0, 100.0)


@pytest.mark.published("allen1998", "Example 2, from memory: 81.8 kPa at 1800 m")
def test_pressure_at_1800_metres() -> None:
    assert air_pressure(np.array(1800.0)) == pytest.approx(81.8, abs=0.05)


@pytest.mark.published(
    "allen1998", "Example 4, from memory: 1.91 kPa at 1200 m, 25.6 and 19.5 degC"
)
def test_the_fourth_example_by_both_roads() -> None:
    pressure = air_pressure(np.array(1200.0))
    assert pressure == pytest.approx(87.9, abs=0.05)
    wet = saturation_vapour_pressure(np.array(19.5))
    assert wet - PSYCHROMETER_PER_K * pressure * (25.6 - 19.5) == pytest.approx(1.91, abs=5e-3)
    humidity = 100.0 * 1.91 / saturation_vapour_pressure(np.array(25.6))
    found = wet_bulb_temperature(np.array(25.6), humidity, pressure=pressure)
    assert found == pytest.approx(19.5, abs=0.05)


@pytest.mark.published(
    "ashrae2017", "Example 1, as in psychrolib's tests: 40 degC, wet bulb 20 degC"
)
def test_the_first_example_of_ashrae() -> None:
    assert psychrolib.GetHumRatioFromTWetBulb(40.0, 20.0, SEA_LEVEL_PA) == pytest.approx(
        0.0065, abs=2e-4
    )
    humidity = psychrolib.GetRelHumFromTWetBulb(40.0, 20.0, SEA_LEVEL_PA)
    assert humidity == pytest.approx(0.14, abs=5e-3)
    found = wet_bulb_temperature(np.array(40.0), np.array(100.0 * humidity), pressure=SEA_LEVEL)
    assert found == pytest.approx(20.0, abs=0.2)


def stull(temperature: np.ndarray, humidity: np.ndarray) -> np.ndarray:
    """Return the rival: a regression on temperature and humidity (stull2011)."""
    return (
        temperature * np.arctan(0.151977 * np.sqrt(humidity + 8.313659))
        + np.arctan(temperature + humidity)
        - np.arctan(humidity - 1.676331)
        + 0.00391838 * humidity**1.5 * np.arctan(0.023101 * humidity)
        - 4.686035
    )


@pytest.mark.published("stull2011", "20 degC and 50 %: 13.7 degC")
def test_the_rival_is_the_published_one() -> None:
    assert stull(np.array(20.0), np.array(50.0)) == pytest.approx(13.70, abs=5e-3)


@pytest.mark.published("ashrae2017", "psychrolib 2.5.0, GetTWetBulbFromRelHum at 101325 Pa")
def test_the_wet_bulb_is_nearer_to_ashraes_than_the_rivals() -> None:
    grid = np.meshgrid(np.arange(5.0, 45.1, 2.5), np.arange(10.0, 95.1, 5.0))
    ashrae = np.vectorize(
        lambda t, h: psychrolib.GetTWetBulbFromRelHum(t, h / 100.0, SEA_LEVEL_PA)
    )(*grid)
    # Below freezing ASHRAE's bulb is iced over, ours is wet.
    is_thawed = ashrae > 0.0
    assert is_thawed.mean() > 0.95
    ours = np.abs(wet_bulb_temperature(*grid, pressure=SEA_LEVEL) - ashrae)[is_thawed]
    rival = np.abs(stull(*grid) - ashrae)[is_thawed]
    assert ours.max() < 0.2
    assert rival.max() > 0.9
    assert ours.mean() < rival.mean() / 4.0


@pytest.mark.published("ashrae2017", "psychrolib 2.5.0, GetTWetBulbFromRelHum at 101325 Pa")
@pytest.mark.parametrize(("temperature", "humidity"), [(20, 50), (30, 80), (30, 50), (15, 95)])
def test_delta_t_is_within_a_tenth_of_a_kelvin_of_ashraes(temperature, humidity) -> None:
    ashrae = temperature - psychrolib.GetTWetBulbFromRelHum(
        temperature, humidity / 100, SEA_LEVEL_PA
    )
    found = delta_t(np.array(1.0 * temperature), np.array(1.0 * humidity), pressure=SEA_LEVEL)
    assert found == pytest.approx(ashrae, abs=0.1)


@pytest.mark.frozen("our own worked rows to one decimal; ASHRAE has 8.0 in the third")
@pytest.mark.parametrize(
    ("temperature", "humidity", "expected"),
    [(20, 50, 6.2), (30, 80, 2.9), (30, 50, 7.9), (15, 95, 0.5)],
)
def test_worked_rows_of_delta_t(temperature, humidity, expected) -> None:
    found = delta_t(np.array(1.0 * temperature), np.array(1.0 * humidity), pressure=SEA_LEVEL)
    assert found == pytest.approx(expected, abs=0.05)


@pytest.mark.frozen("the printed constants are rounded: 15 degC comes back as 14.993")
def test_the_dew_point_inverts_saturation_to_two_hundredths() -> None:
    temperature = np.arange(0.0, 40.1, 0.5)
    back = dew_point(saturation_vapour_pressure(temperature))
    np.testing.assert_allclose(back, temperature, atol=0.02)
    assert back[30] == pytest.approx(14.993, abs=5e-4)


@pytest.mark.published("ashrae2017", "psychrolib 2.5.0, GetTDewPointFromRelHum")
@given(temperature=st.floats(5.0, 45.0), humidity=st.floats(20.0, 100.0))
def test_the_dew_point_is_that_of_ashrae(temperature: float, humidity: float) -> None:
    ashrae = psychrolib.GetTDewPointFromRelHum(temperature, humidity / 100.0)
    if ashrae > 0.5:  # below, ashrae's is that of frost
        vapour = vapour_pressure(np.array(temperature), np.array(humidity))
        assert dew_point(vapour) == pytest.approx(ashrae, abs=0.05)


@given(temperature=temperatures, humidity=humidities, elevation=st.floats(0.0, 3000.0))
def test_the_wet_bulb_lies_between_dew_point_and_air_and_solves_its_equation(
    temperature: float, humidity: float, elevation: float
) -> None:
    air, pressure = np.array(temperature), air_pressure(np.array(elevation))
    vapour = vapour_pressure(air, np.array(humidity))
    wet = wet_bulb_temperature(air, np.array(humidity), pressure=pressure)
    assert dew_point(vapour) - 0.02 <= wet <= air
    balance = saturation_vapour_pressure(wet) - PSYCHROMETER_PER_K * pressure * (air - wet)
    assert balance == pytest.approx(float(vapour), abs=1e-9)


@given(temperature=temperatures, humidity=humidities, more=st.floats(0.0, 50.0))
def test_more_humid_air_never_has_the_larger_delta_t(
    temperature: float, humidity: float, more: float
) -> None:
    both = np.array([humidity, min(humidity + more, 100.0)])
    drier, damper = delta_t(np.full(2, temperature), both, pressure=SEA_LEVEL)
    assert 0.0 <= damper <= drier + 1e-12


def test_full_air_has_no_delta_t_and_nothing_known_gives_nothing_known(as_array) -> None:
    found = delta_t(as_array([20.0, np.nan]), as_array([100.0, 50.0]), pressure=SEA_LEVEL)
    assert found[0] == pytest.approx(0.0, abs=1e-6)
    assert np.isnan(found[1])
