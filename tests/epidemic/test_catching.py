"""New infection, and what reaches back to young infection."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.epidemic.catching import cured, daily_hazard, infected
from tests.epidemic.made import made_tissue, total

seeds = st.integers(0, 2**32 - 1)


def test_the_hazard_is_the_rate_where_all_the_rest_is_one() -> None:
    one = np.ones(1)
    assert daily_hazard(one, one, one, 0 * one, infection_rate=0.7).tolist() == [0.7]


@given(seeds, st.floats(0.0, 50.0))
def test_infection_moves_healthy_tissue_to_the_youngest_stage(seed, hazard) -> None:
    before = made_tissue(seed)
    after, new = infected(before, np.array(hazard))
    np.testing.assert_allclose(total(after), 1.0)
    np.testing.assert_allclose(before.healthy - after.healthy, new, atol=1e-15)
    np.testing.assert_allclose(after.hidden[0] - before.hidden[0], new, atol=1e-15)
    np.testing.assert_array_equal(after.hidden[1:], before.hidden[1:])


def test_without_hazard_nothing_is_infected() -> None:
    _, new = infected(made_tissue(2), np.array(0.0))
    assert not new.any()


@given(seeds, st.floats(0.0, 1.0), st.floats(0.0, 20.0))
def test_a_cure_keeps_the_sum_and_takes_the_young_first(seed, share, reach) -> None:
    before = made_tissue(seed)
    after = cured(before, np.array(share), np.array(reach / 8.0))
    np.testing.assert_allclose(total(after), 1.0)
    left = after.hidden / before.hidden
    assert (np.diff(left, axis=0) >= -1e-12).all()
    assert (after.sporulating == before.sporulating).all()


@pytest.mark.parametrize(
    ("reach", "left"),
    [(0.0, [1, 1, 1, 1]), (3.0, [0, 0.5, 1, 1]), (4.0, [0, 0, 1, 1]), (99.0, [0, 0, 0, 0])],
)
def test_a_full_cure_clears_the_stages_within_its_reach(reach, left) -> None:
    before = made_tissue(5, blocks=1, stages=4)
    after = cured(before, np.array(1.0), np.array(reach / 8.0))
    np.testing.assert_allclose(after.hidden[:, 0], before.hidden[:, 0] * left)
