"""Blocks by day: runs of classes in words, digits and hatches."""

import re
from datetime import date
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.exports.days_page import days_html
from geo.exports.days_strip import strip_of
from geo.exports.season_frame import Frame
from geo.ranking.classes import CLASS_WORDS, hazard_class
from tests.demo_run import demo_outcome
from tests.exports.drawn import UNKNOWN, assert_inert, hostile

HAZARD = st.lists(st.sampled_from([0.01, 0.1, 0.3, 0.7, 2.0, np.nan]), min_size=1, max_size=60)


def frame(count: int, *, width: float = 14.0) -> Frame:
    return Frame(date(2026, 1, 5), count, count - 1, left=0.0, right=count * width)


def test_a_run_says_its_class_in_words_where_there_is_room_and_else_in_a_digit() -> None:
    hazard = np.array([0.01] * 8 + [0.7] + [2.0] * 8 + [np.nan] * 8)
    runs = strip_of(hazard, frame(25))
    assert [run.words for run in runs] == ["1 Very low", "4", "5 Very high", "? Not known"]
    assert [run.pattern for run in runs] == ["", "", "top", "unknown"]
    assert [run.is_dark for run in runs] == [False, False, True, False]
    assert [run.words for run in strip_of(hazard, frame(25, width=4.0))][1] == ""


def test_the_line_before_the_days_ahead_crosses_no_words() -> None:
    days = Frame(date(2026, 1, 5), 12, 8, left=0.0, right=12 * 14.0)
    (run,) = strip_of(np.full(12, 0.7), days)
    assert run.width == 12 * 14.0
    assert run.words == "4 High"
    # Nine days lie before the line, three after it.
    assert run.middle == pytest.approx(9 * 14.0 / 2)
    (short,) = strip_of(np.full(4, 0.7), Frame(date(2026, 1, 5), 4, 1, left=0.0, right=4 * 14.0))
    assert short.words == "4"
    assert short.middle == pytest.approx(14.0)


@given(HAZARD)
def test_runs_cover_every_day_once_and_neighbours_differ(hazard) -> None:
    days = frame(len(hazard))
    runs = strip_of(np.array(hazard), days)
    assert runs[0].x == days.left
    assert runs[-1].x + runs[-1].width == pytest.approx(days.right)
    for left, right in pairwise(runs):
        assert left.x + left.width == pytest.approx(right.x)
        assert left.colour != right.colour


def test_classes_of_the_page_are_those_of_the_season() -> None:
    demo = demo_outcome()
    html = days_html(farm=demo.farm, season=demo.season)
    rows = re.findall(
        r'<th scope="row"><bdi>(B\d\d).*?<td class="whole">(\d) ([\w ]+?) <span>', html
    )
    ahead = hazard_class(demo.season.hazard_ahead.values)
    found = dict(zip(demo.season.block.values.tolist(), ahead.tolist(), strict=True))
    assert len(rows) == 24
    for block, digit, word in rows:
        assert (int(digit) - 1, word) == (found[block], CLASS_WORDS[found[block]])
    assert [int(digit) for _, digit, _ in rows] == sorted(
        (place + 1 for place in found.values()), reverse=True
    )
    for word in CLASS_WORDS:
        assert f"</strong> {word} <span>(" in html


def test_names_are_escaped_and_what_is_not_known_is_hatched_and_last() -> None:
    farm, season = hostile()
    html = days_html(farm=farm, season=season)
    assert_inert(html)
    rows = re.findall(r'<tr><th scope="row">(.*?)</tr>', html, re.DOTALL)
    assert rows[-1].startswith(f"<bdi>{UNKNOWN}<")
    assert "? Not known" in rows[-1]
    assert 'fill="url(#unknown)"' in rows[-1]
