"""The area under the disease progress curve, held against printed examples."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.comparison.progress import area_under_curve, standardised_area

SHARES = st.lists(st.floats(0, 100), min_size=2, max_size=12)


@pytest.mark.published("agricolae", "audpc, example: 40, 80 and 90 % on days 14, 21 and 28")
def test_three_looks_of_a_manual() -> None:
    # The manual's figure and its code give 1015; its running text says 1045, a misprint.
    day, share = np.array([14.0, 21, 28]), np.array([40.0, 80, 90])
    assert area_under_curve(day, share) == 1015.0
    assert standardised_area(day, share / 100) == pytest.approx(0.725)


@pytest.mark.published("sparks2008", "AUDPC, exercise: 1, 2, 7 and 7.5 % at times 0, 2, 5 and 6")
def test_four_looks_of_a_course() -> None:
    # Its data are printed; the area was worked out by hand from its formula: 3 + 13.5 + 7.25.
    assert area_under_curve(np.array([0.0, 2, 5, 6]), np.array([1.0, 2, 7, 7.5])) == 23.75


def test_unequal_gaps_weigh_by_their_days() -> None:
    # Worked out by hand: 7 + 42 + 200.
    assert area_under_curve(np.array([0.0, 7, 14, 24]), np.array([0.0, 2, 10, 30])) == 249.0


def test_one_look_has_no_area() -> None:
    for reckon in (area_under_curve, standardised_area):
        assert np.isnan(reckon(np.array([3.0]), np.array([5.0])))
        assert np.isnan(reckon(np.array([]), np.array([])))


@given(SHARES, st.integers(1, 9))
def test_the_standardised_area_lies_between_the_least_and_the_most_found(shares, gap) -> None:
    found = standardised_area(np.arange(len(shares)) * float(gap), np.array(shares))
    assert min(shares) - 1e-9 <= found <= max(shares) + 1e-9


@given(SHARES, st.floats(-50, 50))
def test_shifting_the_days_changes_nothing(shares, shift) -> None:
    day = np.arange(len(shares)) * 7.0
    assert area_under_curve(day + shift, np.array(shares)) == pytest.approx(
        area_under_curve(day, np.array(shares))
    )
