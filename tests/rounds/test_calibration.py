"""Calibration: speeds and trees, against printed worked examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.rounds.calibration import litres_per_tree, seconds_over, seconds_per_tree, speed_over

FOOT, ACRE, GALLON = 0.3048, 4046.8564224, 3.785411784


def test_a_hundred_metres_in_72_seconds_are_five_kilometres_an_hour() -> None:
    assert speed_over(100.0, seconds=72.0) == pytest.approx(5.0)


@given(st.floats(0.5, 15))
def test_a_watch_and_a_course_tell_the_speed_that_was_wanted(speed: float) -> None:
    assert speed_over(100.0, seconds=seconds_over(100.0, speed=speed)) == pytest.approx(speed)


def test_trees_of_six_feet_at_100_gallons_an_acre_take_a_twelfth_of_a_gallon_each() -> None:
    # A printed sheet of Pennsylvania's extension service: 1210 trees an acre, 16 s a tree.
    spacing = 6 * FOOT
    assert pytest.approx(1210, abs=0.5) == ACRE / spacing**2
    volume = 100 * GALLON / ACRE * 10_000
    litres = litres_per_tree(volume, row_spacing=spacing, tree_spacing=spacing)
    assert litres / GALLON == pytest.approx(0.083, abs=0.0005)
    seconds = seconds_per_tree(litres, flow=1.5 / 5 * GALLON)
    assert seconds == pytest.approx(16.5, abs=0.05)
