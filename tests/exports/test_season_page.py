"""The page of seasons."""

import re

from geo.exports.season_page import MOST_BLOCKS, places_of, season_html, write_season_page
from tests.demo_run import demo_outcome
from tests.exports.drawn import UNKNOWN, assert_inert, hostile
from tests.exports.made import HOSTILE


def test_each_block_has_its_drawing_the_worst_first() -> None:
    demo = demo_outcome()
    html = season_html(farm=demo.farm, season=demo.season)
    found = re.findall(r'<section id="block-(\d+)">\s*<h2><bdi>(B\d\d)', html)
    assert len(found) == html.count("<svg") == 24
    assert [block for _, block in found][:2] == ["B24", "B06"]
    assert re.findall(r'href="#block-(\d+)"', html) == [place for place, _ in found]
    assert "made scenario" in html
    assert "Relative: ratios and orders, no probabilities" in html
    assert "No spray on record" not in html


def test_names_are_escaped_and_the_page_may_run_and_fetch_nothing() -> None:
    farm, season = hostile()
    html = season_html(farm=farm, season=season)
    assert_inert(html)
    assert "Not known (–)" in html
    assert html == season_html(farm=farm, season=season)


def test_blocks_asked_for_come_in_the_order_asked_for() -> None:
    demo = demo_outcome()
    html = season_html(farm=demo.farm, season=demo.season, blocks=["B14", "B10"])
    assert re.findall(r"<h2><bdi>(B\d\d)", html) == ["B14", "B10"]
    assert "2 of 24 blocks" in html
    one = season_html(farm=demo.farm, season=demo.season, blocks=["B14"])
    assert "<nav" not in one


def test_what_is_not_known_comes_last_and_a_page_holds_no_more_than_a_phone_opens() -> None:
    _, season = hostile()
    places = places_of(season, None)
    assert season.block.values[places[-1]] == UNKNOWN
    assert MOST_BLOCKS == 300
    assert places_of(season, [HOSTILE]) == [0]


def test_a_block_without_sprays_says_so(tmp_path) -> None:
    demo = demo_outcome()
    bare = demo.season.isel(spray=demo.season.spray_block.values != 9)
    path = tmp_path / "season.html"
    write_season_page(path, farm=demo.farm, season=bare, blocks=["B10"])
    assert "No spray on record." in path.read_text("utf-8")
