"""The page as text: the same for the same farm, whole or not at all, and nothing unescaped."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import numpy as np
import pytest

from geo.errors import Issue, Outcome
from geo.exports.map_page import map_html, write_map
from geo.season import FileRead
from tests.exports.made import CLOSED, DAYS_BEFORE, REFERENCE, UNKNOWN, Made, made
from tests.exports.page_columns import data_of


@pytest.fixture(scope="module")
def html(farm_made: Made) -> str:
    return map_html(**farm_made.parts())


def test_equal_farms_give_equal_bytes(html: str) -> None:
    assert map_html(**made().parts()) == html


def test_the_page_is_written_whole_and_leaves_nothing_beside_it(
    farm_made: Made, html: str, tmp_path: Path
) -> None:
    path = tmp_path / "map.html"
    path.write_text("yesterday's page")
    write_map(path, **farm_made.parts())
    assert path.read_text("utf-8") == html
    assert list(tmp_path.iterdir()) == [path]


def test_names_are_escaped_wherever_they_stand(html: str) -> None:
    assert "<img" not in html
    assert "7 * 7 }}</script>" not in html
    assert "Two Creeks &amp; Daughters" in html
    assert "<title>Two Creeks &amp; Daughters (made scenario)" in html


def test_a_real_farm_is_not_called_a_made_scenario(farm_made: Made) -> None:
    parts = farm_made.parts(farm=replace(farm_made.farm, is_made=False))
    assert "made scenario" not in map_html(**parts)


def test_the_orders_reach_the_page_as_decided(html: str, farm_made: Made) -> None:
    everything = data_of(html)
    ids, (data,) = everything["blocks"]["id"], everything["diseases"]
    assert [ids[entry["block"]] for entry in data["spray"]["entries"]] == [
        entry.block for entry in farm_made.spray.entries
    ]
    assert [ids[entry["block"]] for entry in data["spray"]["cannot"]] == [CLOSED]
    assert [ids[rest["block"]] for rest in data["spray"]["unranked"]] == [UNKNOWN]
    assert ids[data["spray"]["reference"]] == REFERENCE
    assert [ids[entry["block"]] for entry in data["scouting"]] == [
        entry.block for entry in farm_made.scouting.entries
    ]


def test_the_slider_is_clipped_to_a_short_season(farm_made: Made) -> None:
    season = farm_made.season.isel(day=slice(DAYS_BEFORE - 2, None))
    season = season.assign(hour_day=season["hour_day"] - DAYS_BEFORE + 2)
    days = data_of(map_html(**farm_made.parts(season=season)))["days"]
    assert days["words"] == [
        "Mon 12 Aug",
        "Tue 13 Aug",
        "Wed 14 Aug",
        "Thu 15 Aug",
        "Fri 16 Aug",
        "Sat 17 Aug",
    ]
    assert days["today"] == 2
    assert days["basis"][1:4] == ["measured", "part measured, part forecast", "forecast"]


def test_more_than_two_weeks_back_is_not_shown(farm_made: Made) -> None:
    parts = farm_made.parts(
        farm=replace(farm_made.farm, today=farm_made.farm.today.replace(day=16))
    )
    assert data_of(map_html(**parts))["days"]["words"][0] == "Fri 2 Aug"


def test_a_day_without_hours_or_temperatures_says_so(farm_made: Made) -> None:
    season = farm_made.season.copy(deep=True)
    season["hour_day"] = season["hour_day"].where(season["hour_day"] != 0, 1)
    season["day_minimum_temperature"][:, 0] = np.nan
    days = data_of(map_html(**farm_made.parts(season=season)))["days"]
    assert days["basis"][0] == "no weather"
    assert days["coolest"][0] is None
    assert days["warmest"][0] is None


def test_a_farm_alone_on_unknown_ground_has_a_page(farm_made: Made) -> None:
    farm = replace(
        farm_made.farm,
        neighbours=farm_made.farm.neighbours.iloc[:0],
        places=farm_made.farm.places.iloc[:0],
    )
    season = farm_made.season.isel(source=slice(0, len(farm.blocks))).copy(deep=True)
    for grid in (
        "elevation_grid",
        "pool_depth_grid",
        "season_favourability_grid",
        "last_night_temperature_grid",
    ):
        season[grid][:] = np.nan
    season["is_forecast"][:] = 1
    scouting = replace(farm_made.scouting, entries=())
    spray = replace(farm_made.spray, entries=(), cannot_now=(), reference_block="")
    page = map_html(**farm_made.parts(farm=farm, season=season, spray=spray, scouting=scouting))
    assert "L.imageOverlay(" not in page.split('id="page-data"')[1]
    assert "Newest measured hour none; newest scouting none on record" in page
    assert data_of(page)["places"] == []
    assert data_of(page)["ground"] == []
    assert data_of(page)["coolest"]["count"] == 0


def test_the_still_version_tells_what_is_unknown_or_does_not_clear(farm_made: Made) -> None:
    closed = farm_made.spray.cannot_now[0]
    others = (
        replace(closed, value=None, unit="m s-1", limit=4.0, clears=None),
        replace(closed, value=0.31, unit="1", limit=0.5),
    )
    first = replace(farm_made.spray.entries[0], ratio=float("nan"), hazard=float("nan"))
    spray = replace(farm_made.spray, cannot_now=others, entries=(first,), horizon_days=1)
    page = map_html(**farm_made.parts(spray=spray))
    paper = page[page.index('class="paper"') :]
    assert "not known on Thu 15 Aug" in paper
    assert "Sulfur and heat: 4 m s-1" in paper
    assert "not within the forecast" in paper
    assert "0.31 on Thu 15 Aug" in paper
    assert "<td>Not known</td><td>0.7</td><td>–</td>" in paper
    assert "mean of one day from Wed 14 Aug" in paper


def test_the_still_version_says_how_many_rows_it_leaves_out_and_where_they_are() -> None:
    parts = made(count=230).parts()
    listed = 230 - 3  # one is unknown, one closed, one not worth it
    page = map_html(**parts, written={"spray-order.csv"})
    paper = page[page.index('<article class="paper"') :]
    rest = f"And {listed - 30} more blocks"
    assert f"{rest}: the whole table is in spray-order.csv, beside this page." in paper
    assert "And 199 more blocks that are not listed here." in paper  # to be looked at
    few = map_html(**made().parts()).split('<article class="paper"')[1]
    assert "whole table" not in few
    assert "not listed" not in few


def test_above_a_thousand_blocks_the_drawing_is_left_out(farm_made: Made, monkeypatch) -> None:
    monkeypatch.setattr("geo.exports.paper.MOST_BLOCKS", 11)
    page = map_html(**farm_made.parts())
    assert 'class="drawing"' not in page
    assert "too many blocks for one sheet" in page


def test_what_was_set_aside_is_on_the_page_and_on_paper(farm_made: Made) -> None:
    issue = Issue("E-BLOCK-UNKNOWN", Outcome.HOLD, "diary.csv row 7", 'no block "<b>7"', "Mend it")
    read = FileRead("diary", Path("diary.csv"), size=10, sha256="0" * 64, used=12, held=1)
    farm = replace(farm_made.farm, issues=(issue,), files=(read,))
    page = map_html(**farm_made.parts(farm=farm))
    said = "HOLD: diary.csv row 7: no block &#34;&lt;b&gt;7&#34;. Mend it."
    assert page.count(said) == 2
    assert "1 thing was set aside while reading" in page
    assert page.count("diary: diary.csv, 12 used") == 2
    twice = replace(farm, issues=(issue, issue))
    assert "2 things were set aside" in map_html(**farm_made.parts(farm=twice))
    assert "set aside while reading" not in map_html(**farm_made.parts())


def test_without_today_in_the_season_nothing_is_called_today(farm_made: Made) -> None:
    farm = replace(farm_made.farm, today=farm_made.farm.today + timedelta(days=30))
    days = data_of(map_html(**farm_made.parts(farm=farm)))["days"]
    assert days["todayName"] == "last whole day"
