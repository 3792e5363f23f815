"""How fast panicles develop."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.phenology.thermal_time import thermal_days
from geo.reference.number import values

TIMING = values("growth_stages", "panicle")
SCALE = {name: TIMING[name] for name in ("base_temperature", "reference_temperature")}


@pytest.mark.published("schaffer1994", "panicles grow at 12.5 degC; taken as the base")
def test_at_the_base_nothing_moves_and_at_the_reference_a_day_is_a_day() -> None:
    found = thermal_days(np.array([-5.0, 12.5, 17.5, 22.5, 32.5]), **SCALE)
    np.testing.assert_allclose(found, [0.0, 0.0, 0.5, 1.0, 2.0])


@given(colder=st.floats(-20.0, 45.0), more=st.floats(0.0, 20.0))
def test_warmer_is_never_slower(colder: float, more: float) -> None:
    found = thermal_days(np.array([colder, colder + more]), **SCALE)
    assert 0.0 <= found[0] <= found[1]


def test_each_kind_of_array_is_taken(as_array) -> None:
    np.testing.assert_allclose(thermal_days(as_array([[17.5, 22.5]]), **SCALE), [[0.5, 1.0]])
