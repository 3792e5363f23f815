"""Wet leaves, and dry hours ahead."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from geo.reference.number import values
from geo.windows.drying import are_leaves_wet, dry_hours_ahead


@pytest.mark.published("onfruit2020", "two hours of dry needed")
def test_two_dry_hours_are_asked_for_after_the_spray() -> None:
    assert values("spray_rules", "spray")["rain_free"] == 2.0


@pytest.mark.published("sentelhas2008", "abstract: 90 %")
@pytest.mark.parametrize(
    ("humidity", "rain", "expected"),
    [(89.9, 0.0, 0.0), (90.0, 0.0, 1.0), (50.0, 0.1, 1.0), (50.0, 0.09, 0.0)],
)
def test_leaves_are_wet_from_ninety_percent_or_in_rain(humidity, rain, expected) -> None:
    found = are_leaves_wet(np.array([[humidity]]), np.array([rain]), humidity=90.0, trace=0.1)
    assert found.tolist() == [[expected]]


def test_what_may_be_wet_is_not_dry() -> None:
    humidity, rain = np.array([[np.nan, 50.0, 95.0]]), np.array([0.0, np.nan, np.nan])
    found = are_leaves_wet(humidity, rain, humidity=90.0, trace=0.1)
    assert np.isnan(found[0, :2]).all()
    assert found[0, 2] == 1.0


@given(arrays(float, (2, 9), elements=st.sampled_from([0.0, 1.0, np.nan])))
def test_dry_hours_are_what_a_plain_loop_counts(is_wet) -> None:
    found = dry_hours_ahead(is_wet)
    for block in range(2):
        for hour in range(9):
            dry = 0
            while hour + 1 + dry < 9 and is_wet[block, hour + 1 + dry] == 0.0:
                dry += 1
            assert found[block, hour] == dry
