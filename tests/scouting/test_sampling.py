"""
Sample sizes, what finding nothing proves, and intervals.

Nobody printed these values as they stand here: each was worked out by hand from the formula of the
source that its test names, which was itself quoted from memory.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.scouting.sampling import (
    chance_of_none,
    design_effect,
    share_left_by_none,
    trees_to_estimate,
    trees_to_find,
    wilson_bounds,
)

ALONE = {"organs_per_tree": 1, "aggregation": 0.0}
CLUMPED = {"organs_per_tree": 10, "aggregation": 0.2}
SHARES = st.floats(0.001, 0.9)
LIKENESS = st.floats(0.0, 0.8)


# A share p within h at 1.96 standard errors, organs drawn one by one: 1.96² p (1 - p) / h².
@pytest.mark.parametrize(
    ("share", "half", "organs"),
    [(0.05, 0.05, 72.99), (0.05, 0.03, 202.75), (0.10, 0.05, 138.30), (0.5, 0.1, 96.04)],
)
def test_organs_to_estimate_a_share_within_an_interval(share, half, organs) -> None:
    found = trees_to_estimate(np.array(share), relative_error=half / (1.96 * share), **ALONE)
    assert found == pytest.approx(organs, abs=0.005)


# Madden and Hughes 1999 (formulas from memory): (1 - p) / (p CV²), and in clusters of n over n and
# times 1 + rho (n - 1).
def test_organs_and_trees_to_estimate_a_share_at_a_relative_error() -> None:
    assert trees_to_estimate(np.array(0.1), relative_error=0.25, **ALONE) == pytest.approx(144)
    trees = trees_to_estimate(np.array(0.1), relative_error=0.25, **CLUMPED)
    assert trees == pytest.approx(40.32)
    assert np.ceil(trees) == 41


# ln(1 - P) / ln(1 - p), P = 95 %.
def test_organs_to_find_a_rare_disease() -> None:
    found = trees_to_find(np.array([0.01, 0.02, 0.05, 0.10]), confidence=0.95, **ALONE)
    assert np.ceil(found).tolist() == [299, 149, 59, 29]


# Beta-binomial with theta 0.25, so rho 0.2 (theta as Madden and others 2007 define it).
def test_clumped_organs_show_less_than_those_drawn_alone() -> None:
    assert chance_of_none(np.array(0.05), **CLUMPED) == pytest.approx(0.76059, abs=5e-6)
    alone = chance_of_none(np.array(0.05), organs_per_tree=10, aggregation=0.0)
    assert alone == pytest.approx(0.59874, abs=5e-6)


@pytest.mark.parametrize(
    ("share", "chances"),
    [
        (0.05, (0.935, 0.996, 0.9997)),
        (0.02, (0.662, 0.886, 0.961)),
        (0.01, (0.417, 0.661, 0.802)),
    ],
)
def test_chance_of_a_find_on_ten_twenty_and_thirty_trees(share, chances) -> None:
    none = chance_of_none(np.array(share), **CLUMPED)
    assert 1 - none ** np.array([10, 20, 30]) == pytest.approx(chances, abs=5e-4)


# Wilson 1927, 95 %.
def test_intervals_of_counts_out_of_a_hundred() -> None:
    low, high = wilson_bounds(np.array([0.0, 5, 10]), np.full(3, 100.0), confidence=0.95)
    assert (low * 100).round(2).tolist() == [0.0, 2.15, 5.52]
    assert (high * 100).round(2).tolist() == [3.70, 11.18, 17.44]


# One-sided: 1 - 0.05^(1/n).
def test_what_none_of_twenty_fifty_and_a_hundred_leaves() -> None:
    left = share_left_by_none(np.array([20.0, 50, 100]), confidence=0.95, **ALONE)
    assert (left * 100).round(1).tolist() == [13.9, 5.8, 3.0]


# rho = theta / (1 + theta), so that 1 + rho (n - 1) = (1 + n theta) / (1 + theta).
@given(st.floats(0, 3), st.integers(1, 30))
def test_both_forms_of_the_design_effect_agree(theta: float, organs: int) -> None:
    effect = design_effect(organs_per_tree=organs, aggregation=theta / (1 + theta))
    assert effect == pytest.approx((1 + organs * theta) / (1 + theta))


@given(LIKENESS, st.integers(1, 20), st.integers(1, 60))
def test_what_nothing_found_leaves_is_what_so_many_trees_find(likeness, organs, trees) -> None:
    clumping = {"organs_per_tree": organs, "aggregation": likeness}
    left = share_left_by_none(np.array(float(trees)), confidence=0.95, **clumping)
    assert 0 < left < 1
    assert trees_to_find(left, confidence=0.95, **clumping) == pytest.approx(trees, rel=1e-6)


@given(SHARES, LIKENESS, LIKENESS)
def test_more_clumping_never_needs_fewer_trees(share, one, other) -> None:
    low, high = (
        trees_to_find(np.array(share), organs_per_tree=10, aggregation=a, confidence=0.95)
        for a in sorted((one, other))
    )
    assert low <= high * (1 + 1e-9)


@given(st.integers(1, 500), st.floats(0, 1))
def test_an_interval_holds_the_counted_share(inspected: int, part: float) -> None:
    infected = np.array(float(round(inspected * part)))
    low, high = wilson_bounds(infected, np.array(float(inspected)), confidence=0.95)
    assert 0 <= low <= infected / inspected + 1e-12
    assert infected / inspected - 1e-12 <= high <= 1
