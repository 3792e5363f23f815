"""Water in the air against FAO-56 and against ASHRAE's formulae."""

import numpy as np
import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.weather.humidity import humidity_of, saturation_vapour_pressure, vapour_pressure

psychrolib.SetUnitSystem(psychrolib.SI)
PASCAL_PER_KPA = 1000.0
WITHIN_0_11_PERCENT = 0.00115  # rounded to that digit; the worst is 0.1119 % at 45 degC


@pytest.mark.published("allen1998", "Annex 2, Table 2.3, from memory")
@pytest.mark.parametrize(
    ("temperature", "printed"),
    [
        (1.0, 0.657),
        (5.0, 0.872),
        (10.0, 1.228),
        (20.0, 2.338),
        (25.0, 3.168),
        (30.0, 4.243),
        (35.0, 5.622),
        (40.0, 7.376),
    ],
)
def test_saturation_is_as_printed_by_fao(temperature: float, printed: float) -> None:
    # A whole last digit: the 5.622 of 35 degC, as we remember it, is 5.6227 by the equation.
    assert saturation_vapour_pressure(np.array(temperature)) == pytest.approx(printed, abs=1e-3)


@pytest.mark.published("allen1998", "Example 3: 15 and 24.5 degC, as quoted by a public page")
def test_saturation_is_as_in_the_handbooks_third_example() -> None:
    found = saturation_vapour_pressure(np.array([15.0, 24.5]))
    np.testing.assert_allclose(found, [1.705, 3.075], atol=5e-4)


@pytest.mark.published(
    "allen1998", "Example 5, from memory: 25 degC/54 % and 18 degC/82 %, 1.70 kPa"
)
def test_mean_vapour_pressure_of_the_fifth_example() -> None:
    extremes = vapour_pressure(np.array([25.0, 18.0]), np.array([54.0, 82.0]))
    assert extremes.mean() == pytest.approx(1.70, abs=5e-3)


@pytest.mark.published("ashrae2017", "psychrolib 2.5.0, GetSatVapPres")
def test_saturation_is_within_0_11_percent_of_ashrae() -> None:
    temperature = np.arange(0.5, 50.01, 0.1)
    ashrae = np.array([psychrolib.GetSatVapPres(t) for t in temperature]) / PASCAL_PER_KPA
    error = np.abs(saturation_vapour_pressure(temperature) / ashrae - 1.0)
    assert error.max() <= WITHIN_0_11_PERCENT


@pytest.mark.published("ashrae2017", "psychrolib 2.5.0, GetVapPresFromRelHum")
@given(temperature=st.floats(0.5, 50.0), humidity=st.floats(1.0, 100.0))
def test_vapour_pressure_agrees_with_ashrae(temperature: float, humidity: float) -> None:
    ashrae = psychrolib.GetVapPresFromRelHum(temperature, humidity / 100.0) / PASCAL_PER_KPA
    found = vapour_pressure(np.array(temperature), np.array(humidity))
    assert found == pytest.approx(ashrae, rel=WITHIN_0_11_PERCENT)


@pytest.mark.published("allen1998", "Eq. 11, computed: 20 degC and 90 % cooled by 1, 1.8 and 3 K")
def test_humidity_rises_as_carried_air_cools_and_stops_at_saturation() -> None:
    carried = vapour_pressure(np.array(20.0), np.array(90.0))
    found = humidity_of(carried, 20.0 - np.array([1.0, 1.8, 3.0]))
    np.testing.assert_allclose(found, [95.8, 100.0, 100.0], atol=0.05)


@pytest.mark.published("ashrae2017", "psychrolib 2.5.0, GetTDewPointFromRelHum")
def test_air_saturates_at_ashraes_dew_point() -> None:
    dew_point = psychrolib.GetTDewPointFromRelHum(20.0, 0.9)
    carried = vapour_pressure(np.array(20.0), np.array(90.0))
    found = humidity_of(carried, dew_point + np.array([0.05, -0.05]))
    assert found[0] < 100.0 == found[1]


@given(temperature=st.floats(-20.0, 45.0), humidity=st.floats(0.0, 100.0))
def test_air_that_stays_as_warm_stays_as_humid(temperature: float, humidity: float) -> None:
    carried = vapour_pressure(np.array(temperature), np.array(humidity))
    assert humidity_of(carried, np.array(temperature)) == pytest.approx(humidity, rel=1e-12)


def test_each_kind_of_array_is_taken(as_array) -> None:
    temperature, humidity = as_array([[10.0, 25.0]]), as_array([[80.0, 60.0]])
    np.testing.assert_allclose(
        vapour_pressure(temperature, humidity), [[0.9824, 1.9008]], atol=1e-3
    )
    assert np.isnan(saturation_vapour_pressure(as_array([np.nan, 1.0]))).tolist() == [True, False]
