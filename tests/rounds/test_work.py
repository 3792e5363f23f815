"""Work: time of rows, tanks by whole rows, and the worked example of the trap in whole rows."""

from itertools import combinations, pairwise
from math import ceil

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.rounds.dose import flow, row_litres
from geo.rounds.work import (
    Work,
    loads_of_rows,
    minutes_of_rows,
    minutes_of_way,
    row_pattern,
    work_rate,
)

LITRES = st.lists(st.integers(1, 50), min_size=1, max_size=8)


def trap(loads: int) -> Work:
    """Return the time of 25 rows of 200 m with a filling point 600 m away."""
    rows = minutes_of_rows(np.full(25, 200.0), speed=4.0, turn_seconds=25.0)
    driving = loads * 2 * minutes_of_way(600.0, speed=12.0)
    return Work(rows.spraying, rows.turning, filling=loads * 15.0, driving=driving)


def test_whole_rows_make_three_loads_and_148_minutes_of_what_litres_call_two_and_127() -> None:
    litres = row_litres(1000.0, row_length=np.full(25, 200.0), row_spacing=8.0)
    assert litres.sum() == 4000.0
    assert loads_of_rows(litres, tank_litres=2000.0) == (9, 8, 8)
    naive, whole = trap(ceil(4000 / 2000)), trap(3)
    assert (naive.minutes, naive.hectares_an_hour(4.0)) == pytest.approx((127, 1.89), abs=0.005)
    assert (whole.spraying, whole.turning, whole.filling, whole.driving) == pytest.approx(
        (75.0, 10.0, 45.0, 18.0)
    )
    assert whole.minutes == pytest.approx(148.0)
    assert whole.hectares_an_hour(4.0) == pytest.approx(1.62, abs=0.005)
    theory = work_rate(speed=4.0, width=8.0)
    assert theory == pytest.approx(3.2)
    assert whole.hectares_an_hour(4.0) / theory == pytest.approx(0.51, abs=0.005)
    assert naive.hectares_an_hour(4.0) / theory == pytest.approx(0.59, abs=0.005)
    assert flow(1000, speed=4, row_spacing=8) == pytest.approx(53.3, abs=0.05)


def test_a_printed_boom_of_90_feet_does_82_acres_an_hour_of_153() -> None:
    acre, mile, foot = 0.40468564224, 1.609344, 0.3048
    theory = work_rate(speed=14 * mile, width=90 * foot) / acre
    assert theory == pytest.approx(152.7, abs=0.05)
    share = (1 - 0.37) * (1 - 0.15)
    done = work_rate(speed=14 * mile, width=90 * foot, share=share) / acre
    assert done == pytest.approx(82, abs=0.5)


def test_a_row_that_takes_more_than_the_tank_makes_no_load() -> None:
    assert loads_of_rows(np.array([50.0, 160.0]), tank_litres=100.0) == ()
    assert loads_of_rows(np.array([]), tank_litres=100.0) == ()


def test_rows_of_unequal_length_are_split_in_their_order() -> None:
    assert loads_of_rows(np.array([90.0, 20.0, 90.0]), tank_litres=110.0) == (2, 1)
    assert loads_of_rows(np.array([60.0, 60.0, 60.0, 20.0]), tank_litres=120.0) == (2, 2)


@given(LITRES, st.integers(50, 120))
@settings(max_examples=150)
def test_no_row_is_lost_no_tank_overflows_and_no_split_has_fewer_loads(
    litres: list[int], tank: int
) -> None:
    loads = loads_of_rows(np.array(litres, dtype=float), tank_litres=float(tank))
    sums = [sum(part) for part in parts(litres, loads)]
    assert sum(loads) == len(litres)
    assert max(sums) <= tank
    fitting = [
        [sum(litres[first:last]) for first, last in pairwise((0, *cuts, len(litres)))]
        for count in range(len(loads))
        for cuts in combinations(range(1, len(litres)), count)
    ]
    fitting = [split for split in fitting if max(split) <= tank]
    assert min(map(len, fitting)) == len(loads)
    assert sum(one**2 for one in sums) == min(
        sum(one**2 for one in split) for split in fitting if len(split) == len(loads)
    )


def parts(litres: list[int], loads: tuple[int, ...]) -> list[list[int]]:
    """Return the litres of each load's rows."""
    ends = np.cumsum([0, *loads]).tolist()
    return [litres[first:last] for first, last in pairwise(ends)]


def test_a_stretch_has_one_turn_fewer_than_rows() -> None:
    one = minutes_of_rows(np.array([100.0]), speed=4.0, turn_seconds=25.0, setup_minutes=2.0)
    assert (one.spraying, one.turning, one.setup) == (1.5, 0.0, 2.0)
    assert minutes_of_rows(np.array([]), speed=4.0, turn_seconds=25.0).minutes == 0.0


@pytest.mark.parametrize(
    ("radius", "words"),
    [(None, "is not known"), (3.5, "Next row after next row: rows"), (4.5, "Every second row")],
)
def test_the_pattern_of_rows_goes_by_the_turning_radius(radius, words) -> None:
    assert words in row_pattern(8.0, radius)
