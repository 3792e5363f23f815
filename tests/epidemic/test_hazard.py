"""The daily hazard index."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.epidemic.hazard import hazard_index

shares = st.floats(0.0, 1.0)


def test_the_reference_of_the_index_is_one() -> None:
    one = np.ones((1, 1))
    assert hazard_index(one, one, one, np.zeros((1, 1))).tolist() == [[1.0]]


@given(shares, shares, st.floats(1.0, 40.0), shares)
def test_it_is_the_plain_product(weather, host, spores, cover) -> None:
    arrays = (np.array([[value]]) for value in (weather, host, spores, cover))
    assert hazard_index(*arrays)[0, 0] == weather * host * spores * (1.0 - cover)


@given(shares, shares, st.floats(1.0, 40.0), shares, shares)
def test_a_sprayed_block_is_never_at_more_risk(weather, host, spores, cover, more) -> None:
    low, high = sorted((cover, more))
    at = [
        hazard_index(np.array(weather), np.array(host), np.array(spores), np.array(one))
        for one in (low, high)
    ]
    assert at[1] <= at[0]


def test_each_kind_of_array_is_taken(as_array) -> None:
    arrays = [as_array([[0.5, 0.2]]), as_array([[0.5, 1.0]]), as_array([[2.0, 3.0]])]
    np.testing.assert_allclose(hazard_index(*arrays, as_array([[0.5, 0.0]])), [[0.25, 0.6]])
