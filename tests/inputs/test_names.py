"""Names: what people do not mean by them is ignored, what they do mean is never guessed."""

import pandas as pd
from hypothesis import given
from hypothesis import strategies as st

from geo.inputs.names import matched, nearest, plain


@given(st.text())
def test_a_plain_name_stays_as_it_is(name):
    once = plain(name)
    assert plain(once.upper().lower()) == plain(once.lower()) or not once.isascii()
    assert "  " not in once


def test_case_width_and_spaces_do_not_matter():
    found = matched(pd.Series([" b07", "Ｂ07", "B 07"]), ["B07"])
    assert found.tolist()[:2] == ["B07", "B07"]
    assert pd.isna(found[2])


def test_at_most_three_are_suggested_and_the_likest_first():
    known = [f"B{number:02d}" for number in range(1, 25)]
    assert nearest("B7", known).startswith('"B07"')
    assert nearest("B7", known).count(",") == 2


def test_nothing_known_suggests_nothing():
    assert nearest("B7", []) == ""


def test_nothing_named_is_near_to_nothing():
    assert nearest("  ", ["B07"]) == ""
    assert nearest("B7", ["", "B07"]) == '"B07"'
