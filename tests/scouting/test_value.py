"""What a look is worth: nothing where it cannot change a decision."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtri

from geo.scouting.value import chance_of_other_decision, hazard_cases, value_of_knowing

CASES = 20_000
NORMAL = ndtri((np.arange(CASES) + 0.5) / CASES)[:, None]
HAZARDS, DOUBTS = st.floats(0.01, 5), st.floats(0, 2)


# Worked example, computed by the project: a spray costs 300; its benefit is normal, not below 0.
def test_the_middle_block_is_walked_first_although_its_risk_is_lower() -> None:
    mean, spread = np.array([900.0, 320, 60]), np.array([500.0, 400, 80])
    benefit = np.maximum(mean + spread * NORMAL, 0.0)
    assert (benefit > 300).mean(axis=0) == pytest.approx([0.89, 0.52, 0.0], abs=0.006)
    # The example was drawn at random: it is held to one per cent.
    assert chance_of_other_decision(benefit, cost=300) == pytest.approx([0.11, 0.48, 0], abs=0.006)
    assert value_of_knowing(benefit, cost=300) == pytest.approx([20.8, 101.8, 0], rel=0.01, abs=0.1)


@given(HAZARDS, DOUBTS)
def test_cases_keep_the_hazard_as_their_mean(hazard: float, doubt: float) -> None:
    cases = hazard_cases(np.array([hazard]), np.array([doubt]))
    assert cases.mean() == pytest.approx(hazard)
    assert (cases > 0).all()


@given(HAZARDS, HAZARDS, DOUBTS, DOUBTS)
def test_more_doubt_never_lowers_the_value_of_knowing(hazard, cost, one, other) -> None:
    doubt = np.array(sorted((one, other)))
    low, high = value_of_knowing(hazard_cases(np.full(2, hazard), doubt), cost=cost)
    assert low <= high + 1e-12


@given(HAZARDS, HAZARDS)
def test_what_is_certain_is_worth_no_look(hazard: float, cost: float) -> None:
    cases = hazard_cases(np.array([hazard]), np.zeros(1))
    assert value_of_knowing(cases, cost=cost)[0] == pytest.approx(0, abs=1e-12)


@given(HAZARDS, DOUBTS, st.floats(0.1, 10))
def test_the_unit_of_the_benefit_does_not_matter(hazard, doubt, factor) -> None:
    cases = hazard_cases(np.array([hazard]), np.array([doubt]))
    once = value_of_knowing(cases, cost=1.0)
    assert value_of_knowing(cases * factor, cost=factor) == pytest.approx(once * factor, abs=1e-12)
