"""Tanks: a refill only at a row's end costs loads that litres alone do not show."""

from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.rounds.tanks import product_of_load, rows_a_tank, rows_of_loads


def test_4000_litres_from_a_2000_litre_tank_are_three_loads_not_two() -> None:
    most = rows_a_tank(2000, 160)
    assert most == 12
    assert ceil(25 * 160 / 2000) == 2
    assert rows_of_loads(25, most_rows=most) == (9, 8, 8)


def test_a_row_that_takes_more_than_the_tank_never_fits() -> None:
    assert rows_a_tank(100, 160) == 0
    assert rows_a_tank(0.3, 0.1) == 3


@given(st.integers(1, 400), st.integers(1, 60))
def test_loads_hold_every_row_once_and_none_more_than_a_tank(rows: int, most: int) -> None:
    loads = rows_of_loads(rows, most_rows=most)
    assert sum(loads) == rows
    assert max(loads) <= most
    assert max(loads) - min(loads) <= 1
    assert len(loads) == ceil(rows / most)


def test_product_goes_by_the_litres_of_the_load() -> None:
    assert product_of_load(1440, volume=1000, rate=6.0) == pytest.approx(8.64)
