"""Curves, bands, bars and points as SVG paths."""

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.exports.strokes import Scale, band, bars, dots, line, spans

HOLES = np.array([5.0, np.nan, 3.0, 2.0])
DAYS = np.arange(4.0)


def test_unknown_values_leave_gaps_and_a_lone_one_a_point() -> None:
    assert line(DAYS, HOLES) == "M0 5h0M2 3L3 2"
    assert band(DAYS, HOLES, np.full(4, 9.0)) == "M0 5L0 9ZM2 3L3 2L3 9L2 9Z"
    assert bars(DAYS, HOLES, width=0.5, base=5.0) == "M2 5V3h0.5V5ZM3 5V2h0.5V5Z"
    assert line(DAYS, np.full(4, np.nan)) == ""


def test_an_interval_has_a_cap_at_both_ends() -> None:
    assert spans(np.array([4.0]), np.array([1.0]), np.array([9.0]), cap=2) == ("M4 1V9M2 1h4M2 9h4")


def test_a_point_is_a_disc_around_its_place() -> None:
    assert dots(np.array([4.0]), np.array([7.0]), radius=2) == "M2 7a2 2 0 1 0 4 0a2 2 0 1 0 -4 0"


def test_equal_ratios_are_equally_far_apart_on_a_logarithmic_scale() -> None:
    down = Scale(0.01, 10.0, 90.0, is_log=True).down(np.array([0.01, 0.1, 1.0, 10.0]))
    assert down == pytest.approx([90.0, 60.0, 30.0, 0.0])


@given(st.lists(st.floats(-1e6, 1e6) | st.just(np.nan), min_size=1, max_size=30))
def test_everything_is_drawn_within_its_strip(values) -> None:
    down = Scale(0.0, 1.0, 50.0).down(np.array(values))
    drawn = [float(y) for _, y in re.findall(r"[ML](\S+?) ([\d.]+)", line(DAYS[:1] + 0, down[:1]))]
    assert all(0.0 <= y <= 50.0 for y in drawn)
    known = down[~np.isnan(down)]
    assert ((known >= 0) & (known <= 50)).all()
    assert np.isnan(down).tolist() == np.isnan(values).tolist()
