"""What an earlier run thought of a block is told beside what this one thinks."""

from dataclasses import replace
from datetime import date, timedelta
from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.exports.map_page import map_html
from geo.exports.page_risk import Risk
from geo.exports.page_since import Since, Then, places_of, since_data, since_words
from geo.exports.paper import paper_html
from geo.exports.run_decided import decided
from tests.exports.made import APART, CLOSED, TODAY, UNKNOWN, Made

YESTERDAY = TODAY - timedelta(days=1)


@pytest.fixture(scope="module")
def risk(farm_made: Made) -> Risk:
    return Risk(farm_made.season, farm_made.spray, farm_made.scouting)


def then_of(risk: Risk, **changed: object) -> Then:
    """Return the very same standing as now, some of it changed."""
    hazard = risk.season["hazard_ahead"].to_series()
    told = decided(risk.season, risk.spray)
    left = {block: nan if value is None else value for block, value in left_of(told).items()}
    spray = risk.spray
    lists = [[one.block for one in part] for part in (spray.entries, spray.cannot_now)]
    worth = [one.block for one in spray.not_worth]
    same = Then(dict(hazard), places_of(*lists, worth), left)
    return replace(same, **changed)


def left_of(told: dict[str, object]) -> dict[str, float | None]:
    left = told["protection_left"]
    assert isinstance(left, dict)
    return left


def since(risk: Risk, day: date = YESTERDAY, **changed: object) -> Since:
    return Since(day, {risk.disease.key: then_of(risk, **changed)})


def told(risk: Risk, block: str, **changed: object) -> tuple[object, ...]:
    data = since_data(risk, since(risk, **changed))
    assert data is not None
    place = risk.season["block"].values.tolist().index(block)
    return tuple(data[name][place] for name in ("brief", "whole", "class", "line"))


def test_against_itself_nothing_is_said_of_any_block(risk: Risk) -> None:
    data = since_data(risk, since(risk))
    assert data is not None
    assert set(data["brief"]) == set(data["whole"]) == {""}
    assert set(data["class"]) == set(data["line"]) == {0}
    assert data["head"] == (
        "Since the run of Tue 13 Aug: 0 blocks moved a class, 0 crossed the reapply line."
    )


def test_without_an_earlier_run_of_the_disease_there_is_nothing(risk: Risk) -> None:
    assert since_data(risk, None) is None
    assert since_words(risk, None) == ""
    assert since_data(risk, Since(YESTERDAY, {"leaf_mildew": then_of(risk)})) is None


def test_a_rise_is_told_with_place_ratio_class_and_line(risk: Risk) -> None:
    first = risk.spray.entries[0].block
    now = then_of(risk)
    left = {**now.protection, first: 0.9 if now.protection[first] <= 0.3 else 0.1}
    brief, whole, step, line = told(
        risk,
        first,
        hazard={**now.hazard, first: now.hazard[first] / 20},
        places={**now.places, first: "was No.\u00a07"},
        protection=left,
    )
    assert brief == "was No.\u00a07, ×\u00a020"
    assert str(whole).startswith("Was No.\u00a07, ×\u00a020 since 13 Aug. Class then: ")
    assert "the reapply line (0." in str(whole)
    assert step == 1
    assert line == (1 if left[first] == 0.1 else -1)


def test_blocks_without_a_number_tell_what_they_were(risk: Risk) -> None:
    first = risk.spray.entries[0].block
    now = then_of(risk)
    assert now.places[CLOSED] == "was barred by a rule"
    assert now.places[APART] == "was not worth it"
    assert told(risk, first, places={first: now.places[CLOSED]})[0] == "was barred by a rule"


def test_new_and_unknown_blocks_have_no_ratio_and_no_step(risk: Risk) -> None:
    first = risk.spray.entries[0].block
    now = then_of(risk)
    gone = {block: value for block, value in now.hazard.items() if block != first}
    assert told(risk, first, hazard=gone, protection={}) == ("new", "New since 13 Aug.", 0, 0)
    unknown = told(risk, first, hazard={**now.hazard, first: nan})
    assert unknown == ("not known before", "Not known before since 13 Aug.", 0, 0)
    assert told(risk, UNKNOWN, hazard={**now.hazard, UNKNOWN: 0.5})[2] == 0


def test_a_run_of_another_year_says_which(risk: Risk) -> None:
    assert "Sun 13 Aug 2023" in since_words(risk, since(risk, date(2023, 8, 13)))
    data = since_data(risk, since(risk, date(2023, 8, 13)))
    assert data is not None
    assert data["day"] == "13 Aug 2023"


@given(st.floats(0.001, 1000.0))
def test_the_class_moves_the_way_the_ratio_does(farm_made: Made, factor: float) -> None:
    risk = Risk(farm_made.season, farm_made.spray, farm_made.scouting)
    hazard = {block: value / factor for block, value in then_of(risk).hazard.items()}
    data = since_data(risk, since(risk, hazard=hazard))
    assert data is not None
    assert all(step * (factor - 1.0) >= 0.0 for step in data["class"])


def test_the_page_and_its_paper_carry_the_line_only_with_an_earlier_run(
    farm_made: Made, risk: Risk
) -> None:
    words = "Since the run of Tue 13 Aug"
    assert words in map_html(**farm_made.parts(), since=since(risk))
    assert "Class higher, or lower, than on 13 Aug" in map_html(
        **farm_made.parts(), since=since(risk)
    )
    assert words in paper_html(farm_made.farm, risk, since=since(risk))
    assert "Since the run of" not in map_html(**farm_made.parts())
    assert "since-key" not in map_html(**farm_made.parts()).partition('class="key app"')[2]
