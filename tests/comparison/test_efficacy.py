"""Efficacy against an untreated check, held against printed examples."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats.contingency import relative_risk

from geo.comparison.efficacy import abbott, henderson_tilton

COUNT = st.tuples(st.integers(1, 40), st.integers(60, 200))
LEVEL = {"confidence": 0.95}


@pytest.mark.published("abbott1925", "example: 50 % living in the check, 2 % in the treated")
def test_abbotts_own_example() -> None:
    found = abbott((2, 100), (50, 100), **LEVEL)
    assert found is not None
    assert found.share == pytest.approx(0.96)


@pytest.mark.published("ijcmas2017", "panicles: 17.24 against 51.94 % in the untreated")
def test_a_spray_trial_on_mango() -> None:
    found = abbott((17.24, 100), (51.94, 100), **LEVEL)
    assert found is not None
    assert found.share * 100 == pytest.approx(66.8, abs=0.05)


@pytest.mark.published("sahai1996", "Example 3.1: 27 of 122 against 44 of 487, as scipy quotes it")
def test_the_interval_is_that_of_a_printed_ratio() -> None:
    found = abbott((27, 122), (44, 487), **LEVEL)
    assert found is not None
    assert 1 - found.share == pytest.approx(2.4495, abs=5e-5)
    assert (1 - found.high, 1 - found.low) == pytest.approx((1.5837, 3.7887), abs=5e-5)


def test_before_and_after_by_hand() -> None:
    # Worked out by hand: 1 - (3/12) (10/25).
    found = henderson_tilton(((12, 100), (3, 100)), ((10, 100), (25, 100)), **LEVEL)
    assert found is not None
    assert found.share == pytest.approx(0.9)
    variance = sum(1 / x - 1 / 100 for x in (12, 3, 10, 25))
    reach = np.exp(1.959964 * np.sqrt(variance))
    assert (found.low, found.high) == pytest.approx((1 - 0.1 * reach, 1 - 0.1 / reach))


@pytest.mark.published("katz1978", "logarithm of the ratio, as scipy's relative_risk has it")
@given(COUNT, COUNT)
def test_the_interval_agrees_with_another_library(treated, check) -> None:
    found = abbott(treated, check, **LEVEL)
    other = relative_risk(*treated, *check).confidence_interval(0.95)
    assert found is not None
    assert (found.low, found.high) == pytest.approx((1 - other.high, 1 - other.low))


@pytest.mark.published("henderson1955", "formula from memory: it corrects for an unequal start")
@given(COUNT, COUNT, COUNT)
def test_where_both_began_alike_before_and_after_give_what_after_gives(start, treated, check):
    one = abbott(treated, check, **LEVEL)
    two = henderson_tilton((start, treated), (start, check), **LEVEL)
    assert one is not None
    assert two is not None
    assert two.share == pytest.approx(one.share)
    assert two.low <= one.low
    assert two.high >= one.high


@given(COUNT, COUNT, st.floats(1.0, 5.0))
def test_clumping_widens_the_interval_and_leaves_the_efficacy(treated, check, effect) -> None:
    plain, wide = abbott(treated, check, **LEVEL), abbott(treated, check, effect=effect, **LEVEL)
    assert plain is not None
    assert wide is not None
    assert wide.share == plain.share
    assert wide.low <= plain.low
    assert wide.high >= plain.high


def test_nothing_found_on_treated_trees_is_all_kept_away_and_yet_in_doubt() -> None:
    found = abbott((0, 50), (10, 50), **LEVEL)
    assert found is not None
    assert (found.share, found.high) == (1.0, 1.0)
    assert 0.0 < found.low < 1.0


def test_a_check_without_disease_tells_nothing() -> None:
    assert abbott((3, 50), (0, 50), **LEVEL) is None
    assert henderson_tilton(((0, 50), (3, 50)), ((2, 50), (9, 50)), **LEVEL) is None
