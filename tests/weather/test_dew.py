"""Water that falls out of cooled air."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.weather.dew import condensed_water
from geo.weather.humidity import saturation_vapour_pressure, vapour_pressure


@pytest.mark.published(
    "allen1998", "Eq. 11, computed: 20 degC and 90 % cooled by 1.8 and 3 K, with the gas equation"
)
def test_worked_amounts() -> None:
    carried = vapour_pressure(np.array(20.0), np.array(90.0))
    found = condensed_water(carried, 20.0 - np.array([1.0, 1.8, 3.0]))
    np.testing.assert_allclose(found, [0.0, 0.11, 1.25], atol=5e-3)


@given(
    temperature=st.floats(-5.0, 40.0),
    humidity=st.floats(5.0, 100.0),
    cooling=st.floats(0.0, 15.0),
    more=st.floats(0.0, 5.0),
)
def test_cooler_air_never_holds_more(temperature, humidity, cooling, more) -> None:
    carried = vapour_pressure(np.array(temperature), np.array(humidity))
    less, most = condensed_water(carried, temperature - np.array([cooling, cooling + more]))
    assert 0.0 <= less <= most


def test_air_that_is_just_full_lets_nothing_fall(as_array) -> None:
    temperature = as_array([12.0, np.nan])
    found = condensed_water(saturation_vapour_pressure(temperature), temperature)
    assert found[0] == 0.0
    assert np.isnan(found[1])
