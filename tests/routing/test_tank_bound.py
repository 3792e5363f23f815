"""Shares of a tank: whatever fits into one sums to no more than one."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.routing.tank_bound import shares_of_tank


@given(st.lists(st.integers(1, 1000), min_size=1, max_size=12))
def test_loads_that_fit_one_tank_never_count_as_more_than_one(litres: list[int]) -> None:
    total = max(1000, sum(litres))
    for share in shares_of_tank(np.array(litres) / total):
        assert share.sum() <= 1.0 + 1e-9


def test_loads_of_more_than_half_a_tank_count_as_a_whole_one() -> None:
    shares = shares_of_tank(np.array([0.5625, 0.3, 0.34]))
    assert shares[1].tolist() == [1.0, 0.0, 0.0]
    assert shares[2].tolist() == [0.5, 0.0, 0.5]
