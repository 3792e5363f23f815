"""When each block could be sprayed, today and next."""

from datetime import datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from geo.rounds.slots import NEVER, Slots, slots_of
from geo.windows import Windows
from geo.windows.gate import Gate, Rule

START = datetime.fromisoformat("2026-02-06T18:00")


def windows(is_closed: np.ndarray, *gates: Gate) -> Windows:
    """Return windows of hours from 18:00 on, so that the first six are today's."""
    count, hours = is_closed.shape
    return Windows(
        start=tuple(START + timedelta(hours=hour) for hour in range(hours)),
        hour=np.arange(hours) + 100.0,
        gates=gates,
        is_closed=is_closed,
        not_asked=(),
        heat=None,
        hot_days=np.zeros(count, dtype=np.int64),
        month_days=0,
    )


def slots(*open_hours: list[int], hours: list[float] | None = None) -> Slots:
    is_closed = np.ones((len(open_hours), 40), dtype=bool)
    for block, places in enumerate(open_hours):
        is_closed[block, places] = False
    return slots_of(windows(is_closed), None if hours is None else np.array(hours))


def test_today_and_next_are_the_first_stretches_that_are_long_enough() -> None:
    found = slots([1, 3, 4, 9, 11, 12, 13], [5, 6, 7], [8], hours=[1.2, 2.0, 0.1])
    assert found.needed.tolist() == [2, 2, 1]
    # The second block's stretch runs on past midnight, and today has but one hour of it.
    assert found.today.tolist() == [3, NEVER, NEVER]
    assert found.next.tolist() == [11, 6, 8]
    assert found.is_open.tolist() == [True, False, False]
    start, end = found.span()
    assert start.tolist() == [103.0, 140.0, 140.0]
    assert end.tolist() == [111.0, 106.0, 108.0]


def test_no_further_hours_end_with_the_forecast() -> None:
    found = slots([2])
    assert found.next_window(0) is None
    assert found.span()[1].tolist() == [140.0]
    assert found.end_of_forecast() == START + timedelta(hours=40)
    assert slots([2, 30]).next_window(0) == START + timedelta(hours=30)


def test_without_a_forecast_nothing_is_open() -> None:
    found = slots_of(windows(np.ones((2, 0), dtype=bool)), None)
    assert not found.is_open.any()
    start, end = found.span()
    assert start.tolist() == end.tolist() == [0.0, 0.0]


def test_a_stretch_tells_its_hours_and_what_warns_in_them() -> None:
    is_closed = np.ones((1, 40), dtype=bool)
    is_closed[0, 2:5] = False
    warned = np.zeros((1, 40), dtype=bool)
    warned[0, 4] = True
    caution = Gate(Rule("x", "Bees", 1.0, "1", "said", is_caution=True), warned, 1.0 * warned)
    early = Gate(
        Rule("y", "Early", 1.0, "1", "said", is_caution=True), warned[:, ::-1], 1.0 * warned
    )
    found = slots_of(windows(is_closed, caution, early), None).stretch(0)
    assert found == {
        "open_from": START + timedelta(hours=2),
        "open_until": START + timedelta(hours=5),
        "cautions": ("Bees",),
    }


@given(
    is_closed=arrays(bool, (4, 30)),
    hours=st.floats(0.1, 6.0),
    shorter=st.floats(0.1, 1.0),
)
def test_less_time_never_finds_a_later_window(is_closed, hours, shorter) -> None:
    long, short = (
        slots_of(windows(is_closed), np.full(4, need)) for need in (hours, hours * shorter)
    )
    assert (short.is_open | ~long.is_open).all()
    for soon, late in zip(short.span(), long.span(), strict=True):
        assert (soon <= late).all()


@pytest.mark.parametrize("place", [0, 5])
def test_hours_of_today_never_count_for_the_next(place) -> None:
    assert slots([place]).next.tolist() == [NEVER]
