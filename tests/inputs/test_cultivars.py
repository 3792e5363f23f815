"""Cultivars: names and shares as people write them."""

import pandas as pd
import pytest

from geo.inputs.cultivars import cultivar_shares
from geo.inputs.reading import Reading

KNOWN = ("Keitt", "Kent", "Nam Dok Mai", "Nam Dok Mai 4", "unknown")


@pytest.fixture
def reading(tmp_path):
    return Reading("outlines", tmp_path / "blocks.geojson")


@pytest.mark.parametrize(
    ("text", "shares"),
    [
        ("Keitt", "Keitt:1"),
        (" keitt ", "Keitt:1"),
        ("Keitt 60, Kent 40", "Keitt:0.6;Kent:0.4"),
        ("Keitt 60 %; kent:40%", "Keitt:0.6;Kent:0.4"),
        ("Keitt + Kent", "Keitt:0.5;Kent:0.5"),
        ("Keitt 34, Kent 33, Keitt 33", "Keitt:0.67;Kent:0.33"),
        ("Nam Dok Mai 4", "Nam Dok Mai 4:1"),
        ("Nam Dok Mai 100", "Nam Dok Mai:1"),
    ],
)
def test_shares_are_read_and_add_up(reading, text, shares):
    assert cultivar_shares(reading, pd.Series({"B1": text}), known=KNOWN)["B1"] == shares
    assert not reading.issues


def test_shares_that_nearly_add_up_are_taken_in_proportion_and_that_is_said(reading):
    texts = pd.Series({"B1": "Keitt 32, Kent 64"})
    shares = cultivar_shares(reading, texts, known=KNOWN)
    assert shares["B1"] == "Keitt:0.333333;Kent:0.666667"
    assert [(issue.code, issue.outcome) for issue in reading.issues] == [
        ("E-CULTIVAR-SHARES", "FIX")
    ]


def test_an_unknown_cultivar_keeps_its_name_and_is_said_once(reading):
    texts = pd.Series({"B1": "Kiett", "B2": "Kiett 50, Kent 50", "B3": "100"})
    shares = cultivar_shares(reading, texts, known=KNOWN)
    assert shares.tolist()[:2] == ["Kiett:1", "Kiett:0.5;Kent:0.5"]
    issue = reading.issues[0]
    assert (issue.code, issue.outcome) == ("E-CULTIVAR-UNKNOWN", "NOTE")
    assert '"B1", "B2"' in issue.where
    assert "neutral rating with wide doubt" in issue.found
    assert '"Keitt"' in issue.fix


@pytest.mark.parametrize("text", ["Keitt 60, Kent 70", "Keitt 30", "Keitt 60, Kent"])
def test_shares_that_do_not_add_up_make_the_cultivar_unknown(reading, text):
    assert cultivar_shares(reading, pd.Series({"B1": text}), known=KNOWN)["B1"] == "unknown:1"
    assert reading.issues[0].outcome == "HOLD"
    assert text in reading.issues[0].found


@pytest.mark.parametrize("text", ["", " ; "])
def test_no_cultivar_is_an_unknown_one(reading, text):
    assert cultivar_shares(reading, pd.Series({"B1": text}), known=KNOWN)["B1"] == "unknown:1"
    assert [issue.code for issue in reading.issues] == ["E-CULTIVAR-EMPTY"]
