"""How unsure a stage is, and what that does to the susceptibility."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.phenology.doubt import POINT, logarithm_doubt, progress_doubt

SHARES = st.floats(0.0, 1.0)


def test_a_stage_is_least_unsure_on_the_day_it_is_seen() -> None:
    found = progress_doubt(np.array([0.0, 5.0, 20.0, np.inf]), when_seen=2.0, of_rate=0.2)
    np.testing.assert_allclose(found, [2.0, np.sqrt(5.0), np.sqrt(20.0), np.nan])


@given(near=st.floats(0.0, 100.0), more=st.floats(0.0, 100.0))
def test_doubt_never_shrinks_with_thermal_time(near: float, more: float) -> None:
    found = progress_doubt(np.array([near, near + more]), when_seen=2.0, of_rate=0.2)
    assert 2.0 <= found[0] <= found[1]


def test_a_small_doubt_is_the_relative_slope_times_that_of_the_place() -> None:
    # s = 0.5 + 0.01 x with a standard deviation of 1: 0.02 by the delta method.
    side = 0.01 * POINT
    found = logarithm_doubt(np.array(0.5 - side), np.array(0.5), np.array(0.5 + side))
    assert found == pytest.approx(0.02, rel=1e-3)


def test_a_log_normal_comes_back() -> None:
    nodes, weights = np.array([-POINT, 0.0, POINT]), np.array([1.0, 4.0, 1.0]) / 6.0
    # The three points know the first five moments of a normal: enough for a doubt of a tenth.
    early, middle, late = np.exp(0.1 * nodes)
    assert weights @ nodes**4 == pytest.approx(3.0)
    found = logarithm_doubt(np.array(early), np.array(middle), np.array(late))
    assert found == pytest.approx(0.1, rel=1e-2)


@given(early=SHARES, middle=SHARES, late=SHARES)
def test_doubt_is_finite_and_the_same_forwards_and_back(early, middle, late) -> None:
    one, other = (
        logarithm_doubt(np.array(a), np.array(middle), np.array(b))
        for a, b in ((early, late), (late, early))
    )
    assert one == pytest.approx(other)
    # Nothing on one side alone: at most sqrt(ln 6).
    assert 0.0 <= one <= np.sqrt(np.log(6.0)) + 1e-9


def test_tissue_that_nothing_can_infect_is_in_no_doubt() -> None:
    assert logarithm_doubt(np.zeros(2), np.zeros(2), np.zeros(2)).tolist() == [0.0, 0.0]
