"""The page of rival rules: what it says, that it is escaped and still, and how it fits."""

import re

import numpy as np
import pytest
import xarray as xr

from geo.exports.rules_curves import curve, figures
from geo.exports.rules_page import rules_html, write_rules_page
from geo.rules import RIVALS
from tests.demo_run import demo_outcome
from tests.exports.conftest import DESK, PHONE, Tab
from tests.exports.made import HOSTILE, HOSTILE_TEMPLATE, UNKNOWN, Made, made


def with_readings(farm_made: Made) -> xr.Dataset:
    """Return the made season with readings: the field rule as our hazard, the rest by chance."""
    season = farm_made.season
    chance = np.random.default_rng(3)
    shape = (len(RIVALS), season.sizes["block"], season.sizes["day"])
    by_rule = chance.uniform(0.0, 80.0, shape)
    by_rule[0] = season.hazard.values
    by_rule[1] = 40.0
    return season.assign(rule_reading=(("rule", "block", "day"), by_rule)).assign_coords(
        rule=[rival.key for rival in RIVALS]
    )


def page(farm_made: Made) -> str:
    return rules_html(
        farm=farm_made.farm, season=with_readings(farm_made), disease="a <b>disease</b>"
    )


def test_each_rule_is_told_with_its_source_its_standing_and_its_blind_spots() -> None:
    html = page(made())
    text = html.replace("&#39;", "'")
    for rival in RIVALS:
        for words in (rival.name, rival.meaning, rival.standing, *rival.blind_spots):
            assert words in text
    assert text.count('<path class="line" d="M') == len(RIVALS) + 2


def test_names_are_escaped_and_the_page_may_run_and_fetch_nothing() -> None:
    html = page(made())
    assert HOSTILE not in html
    assert HOSTILE_TEMPLATE not in html
    assert "a <b>disease" not in html
    assert "<script" not in html
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', html)
    assert policy
    assert policy[1].startswith("default-src 'none'; script-src 'none'; style-src 'sha256-")
    assert " style=" not in html


def test_the_same_input_gives_the_same_bytes() -> None:
    assert page(made()) == page(made())


def test_an_order_like_ours_agrees_fully_and_alike_blocks_give_no_order() -> None:
    rows = re.findall(r"<tr><th scope=\"row\">(.*?)</th><td>.*?</td>(.*?)</tr>", page(made()))
    by_name = {name: re.findall(r"<td><bdi>(.*?)</bdi></td>", cells) for name, cells in rows}
    assert by_name["Field rule"][1] == by_name["Field rule"][3] == "+1.00"
    assert by_name["Grape index"] == ["all alike"] * 4


def test_the_worst_block_of_ours_stands_first_and_the_unknown_one_last() -> None:
    farm_made = made()
    season = with_readings(farm_made)
    html = page(farm_made)
    table = html[html.index('<table class="blocks">') :]
    found = re.findall(r'<tr><th scope="row"><bdi>(B\d\d)', table)
    today = season.hazard.values[:, int(season.hour_day.values[season.is_forecast == 0][-1])]
    assert found[0] == season.block.values[np.nanargmax(today)]
    assert found[-1] == UNKNOWN
    assert "Not known" in table


def test_of_a_large_farm_the_first_blocks_are_shown_and_it_says_so() -> None:
    html = page(made(count=210))
    assert "The first 200 of 210 blocks." in html


def test_a_curve_has_a_gap_where_nothing_is_known_and_a_flat_one_lies_on_the_floor() -> None:
    by_day = np.array([[1.0, np.nan, 2.0, 4.0], [1.0, np.nan, 2.0, 4.0]])
    drawn = curve(by_day, today=2)
    assert drawn.path == "M0.0 63.0M213.3 42.0L320.0 0.0"
    assert (drawn.top, drawn.now) == ("4", "2")
    assert curve(np.zeros((2, 2)), today=0).path == "M0.0 84.0L320.0 84.0"
    assert curve(np.full((2, 1), np.nan), today=0).path == ""
    assert figures(123.4) == "123"


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_it_fits_its_screen_in_a_browser_without_faults(
    size: dict[str, int], tab: Tab, tmp_path_factory: pytest.TempPathFactory
) -> None:
    farm_made = made()
    path = tmp_path_factory.mktemp("rules") / "rules.html"
    season = with_readings(farm_made)
    write_rules_page(path, farm=farm_made.farm, season=season, disease="mildew")
    opened, said = tab(viewport=size), []
    opened.on("console", lambda message: said.append(message.text))
    opened.on("request", lambda request: said.append(request.url))
    opened.goto(path.as_uri())
    assert opened.evaluate("document.documentElement.scrollWidth") == size["width"]
    assert opened.locator("h1").is_visible()
    assert said == [path.as_uri()]


def test_a_rule_is_held_against_our_order_for_what_it_is_about() -> None:
    demo = demo_outcome()
    page = rules_html(
        farm=demo.farm,
        season=demo.season,
        disease="powdery mildew on panicles",
        held_against={"anthracnose": demo.seasons["blossom_anthracnose"]},
    )
    rows = re.findall(r'<tr><th scope="row">([^<]+)</th><td>([^<]+)</td>', page)
    assert dict(rows)["Grape index"] == "powdery mildew on panicles"
    assert dict(rows)["Generic wetness model"] == "anthracnose on blossom"
