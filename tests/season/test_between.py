"""From spots to blocks."""

import numpy as np
import pytest

from geo.season.between import at_blocks


@pytest.mark.parametrize("shape", [(3,), (3, 4), (3, 2, 5)])
def test_blocks_are_weighted_sums_of_their_spots(shape: tuple[int, ...]) -> None:
    at_spots = np.random.default_rng(0).normal(size=shape)
    spot = np.array([[0, 1], [2, 2], [1, 0], [2, 0]])
    weight = np.array([[0.25, 0.75], [1.0, 0.0], [0.5, 0.5], [0.1, 0.9]])
    found = at_blocks(at_spots, spot, weight)
    for block in range(4):
        first, second = at_spots[spot[block]]
        np.testing.assert_allclose(
            found[block], weight[block, 0] * first + weight[block, 1] * second
        )


def test_a_block_never_feels_more_than_all_spots_around_it() -> None:
    part = np.random.default_rng(1).random((500, 2))
    east, north = part.T
    weight = np.stack(
        [(1 - east) * (1 - north), east * (1 - north), (1 - east) * north, east * north], axis=1
    )
    assert weight.sum(axis=1).max() > 1.0  # by rounding: else this would prove nothing
    spot = np.zeros((500, 4), dtype=np.int64)
    assert np.all(at_blocks(np.ones((1, 3)), spot, weight) == 1.0)


def test_an_unknown_spot_stays_with_the_blocks_that_lean_on_it() -> None:
    at_spots = np.array([1.0, np.nan])
    found = at_blocks(at_spots, np.array([[0], [1]]), np.ones((2, 1)))
    assert np.isnan(found).tolist() == [False, True]


def test_each_kind_of_array_is_taken(as_array) -> None:
    found = at_blocks(as_array([[1.0, 3.0]]), np.array([[0, 0]]), as_array([[0.5, 0.5]]))
    np.testing.assert_allclose(found, [[1.0, 3.0]])
