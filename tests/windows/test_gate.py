"""A gate: unknown is closed, and runs of open hours."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from geo.windows.gate import Gate, Rule, at_least, at_most, open_run

RULE = Rule("wind-low", "Wind", 2.0, "m s-1", "published")


def test_what_reaches_the_limit_is_open_and_what_is_unknown_is_closed() -> None:
    value = np.array([[1.99, 2.0, 2.01, np.nan]])
    assert at_least(RULE, value).is_closed.tolist() == [[True, False, False, True]]
    assert at_most(RULE, value).is_closed.tolist() == [[False, False, True, True]]


@pytest.mark.parametrize("ask", [at_least, at_most])
def test_an_unknown_limit_closes_every_hour(ask) -> None:
    unknown = Rule("interval", "Days", np.nan, "d", "no row")
    assert ask(unknown, np.array([[0.0, 5.0, 1e9]])).is_closed.all()


def test_a_gate_that_is_the_same_for_all_blocks_has_one_row() -> None:
    gate = Gate(RULE, np.array([[True, False]]), np.array([[0.0, 3.0]]))
    assert gate.of_block(gate.value, 7).tolist() == [0.0, 3.0]
    two = Gate(RULE, np.array([[True], [False]]), np.zeros((2, 1)))
    assert two.of_block(two.is_closed, 1).tolist() == [False]


@given(arrays(bool, (3, 12)))
def test_runs_are_what_a_plain_loop_counts(closed) -> None:
    found = open_run(closed)
    for block in range(3):
        for hour in range(12):
            run = 0
            while hour + run < 12 and not closed[block, hour + run]:
                run += 1
            assert found[block, hour] == run


@given(arrays(float, (2, 6), elements=st.floats(-5, 50)), st.floats(0, 40), st.floats(0, 10))
def test_a_closed_hour_stays_closed_when_a_limit_is_tightened(value, limit, tighter) -> None:
    loose = Rule("wind-high", "Wind", limit, "m s-1", "")
    tight = Rule("wind-high", "Wind", limit - tighter, "m s-1", "")
    assert (at_most(tight, value).is_closed | ~at_most(loose, value).is_closed).all()
