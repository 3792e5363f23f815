"""What each source sheds on a day, as the epidemic itself took it."""

import numpy as np
import pytest

from geo.epidemic.course import first_state, over_days
from geo.epidemic.shed import shed_on
from tests.epidemic.made import BLOCKS, DAYS, MILDEW, made_drivers, on_a_line


@pytest.mark.parametrize("day", [0, 1, 7, DAYS - 1])
def test_what_is_shed_is_what_the_epidemic_received(day: int) -> None:
    drivers, exchange = made_drivers(4), on_a_line()
    neighbours = drivers.neighbours
    assert neighbours is not None
    start = first_state(np.full(BLOCKS, 0.05), neighbours[:, 0], MILDEW)
    _, course = over_days(start, drivers, MILDEW, exchange)
    home, incoming = exchange.received(shed_on(day, course, start, drivers.release, neighbours))
    background = MILDEW.background_inoculum
    np.testing.assert_allclose(1.0 + home / background, course.home_inoculum[:, day])
    np.testing.assert_allclose(incoming / background, course.incoming_inoculum[:, day])


def test_a_block_not_known_any_more_sheds_what_it_last_did() -> None:
    drivers, exchange = made_drivers(4), on_a_line()
    neighbours = drivers.neighbours
    assert neighbours is not None
    drivers.favourability[2, 5:] = np.nan
    start = first_state(np.full(BLOCKS, 0.05), neighbours[:, 0], MILDEW)
    _, course = over_days(start, drivers, MILDEW, exchange)
    shed = shed_on(9, course, start, drivers.release, neighbours)
    assert np.isfinite(shed).all()
    incoming = exchange.received(shed)[1] / MILDEW.background_inoculum
    known = np.arange(BLOCKS) != 2
    np.testing.assert_allclose(incoming[known], course.incoming_inoculum[known, 9])


def test_a_block_never_known_sheds_nothing() -> None:
    drivers, exchange = made_drivers(4), on_a_line()
    neighbours = drivers.neighbours
    assert neighbours is not None
    visible = np.full(BLOCKS, 0.05)
    visible[1] = np.nan
    start = first_state(visible, neighbours[:, 0], MILDEW)
    _, course = over_days(start, drivers, MILDEW, exchange)
    assert shed_on(3, course, start, drivers.release, neighbours)[1] == 0.0
