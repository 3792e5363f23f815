"""Until when re-entry keeps people out."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.windows.entry import closed_to_people

HOURS = st.lists(st.floats(0, 1000), min_size=1, max_size=8)


def test_the_longest_wait_closes_a_block_and_not_the_newest_spray() -> None:
    until, spray = closed_to_people(
        np.array([0, 0, 2]),
        np.array([10.0, 20.0, 5.0]),
        np.array([48.0, 4.0, np.inf]),
        block_count=3,
    )
    assert until.tolist() == [58.0, -np.inf, np.inf]
    assert spray.tolist() == [0, -1, 2]


@given(HOURS, st.floats(0, 100))
def test_the_named_spray_is_the_one_that_closes(hours: list[float], interval: float) -> None:
    when = np.array(hours)
    until, spray = closed_to_people(
        np.zeros(when.size, dtype=np.int64), when, np.full(when.size, interval), block_count=1
    )
    assert until[0] == when[spray[0]] + interval == when.max() + interval
