"""The page of blocks side by side."""

import re
from math import prod

import numpy as np
import pytest

from geo.comparison import words
from geo.comparison.side_by_side import side_by_side
from geo.exports.comparison_page import comparison_html, write_comparison_page
from tests.demo_run import demo_outcome
from tests.exports.drawn import UNKNOWN, assert_inert, hostile
from tests.exports.made import HOSTILE


def page(*blocks: str, season=None, **options: object) -> str:
    demo = demo_outcome()
    season = demo.season if season is None else season
    compared = side_by_side(season, blocks, **options)
    return comparison_html(farm=demo.farm, season=season, compared=compared)


def ratios(html: str) -> list[list[float]]:
    rows = re.findall(r"<tr(?: class=\"total\")?><th scope=\"row\">.*?</tr>", html)
    found = [re.findall(r'<span class="figure">([\d.e+-]+)</span>', row) for row in rows]
    return [[float(value) for value in row] for row in found if row]


def test_the_printed_ratios_of_each_block_multiply_to_its_printed_total() -> None:
    table = ratios(page("B10", "B14", "B22"))
    assert len(table) == 9
    for column in zip(*table, strict=True):
        assert prod(column[:-1]) == pytest.approx(column[-1], rel=1e-4)


def test_seasons_stand_side_by_side_on_the_same_axes() -> None:
    html = page("B10", "B14", "B22")
    assert html.count('class="season"') == 3
    assert 'class="cards three"' in html
    values = [
        re.findall(r'<text class="value"[^>]*>([^<]*)<', drawing)
        for drawing in re.findall(r'<svg class="season".*?</svg>', html, re.DOTALL)
    ]
    assert values[0] == values[1] == values[2]


def test_counts_come_with_intervals_and_the_area_with_its_days() -> None:
    html = page("B10", "B14")
    assert "<td>24 of 200</td><td>12</td><td>6.3 to 22</td>" in html
    assert "<td>2</td><td>Fri 30 Jan</td><td>Mon 16 Feb</td><td>136</td><td>8.0</td>" in html
    assert words.SPANS.replace("'", "&#39;") in html


def test_cultivars_come_with_the_warning_that_place_and_cultivar_go_together() -> None:
    html = page("B10", "B14")
    assert words.CONFOUNDED in html
    assert "<td>B02, B09, B15</td>" in html
    # Of two cultivars in one block: nobody noted which tree was counted.
    assert "B04" not in html[html.index("Cultivars of the farm") :]


def test_without_an_untreated_check_nothing_is_shown_of_efficacy() -> None:
    html = page("B10", "B14")
    assert words.NO_CHECK.replace("'", "&#39;") in html
    assert "Abbott" not in html


def test_with_one_efficacy_is_told_with_its_interval_and_its_limits() -> None:
    season = demo_outcome().season.copy()
    check = season.block.values.tolist().index("B01")
    season = season.isel(spray=season.spray_block.values != check)
    html = page("B10", "B01", "B14", season=season, untreated="B01")
    section = html[html.index("What the sprays did") :]
    assert words.ONE_CHECK in section
    assert words.NO_CHECK not in html
    rows = re.findall(r'<th scope="row">(B\d\d)</th>', section)
    assert rows == ["B10", "B14"]
    # 24 of 200 in B10 against 8 of 150 in the check: it had more, and the sign says so.
    assert "<td>below −100 % (below −100 to 38)</td><td>−41 % (below −100 to 91)</td>" in section
    assert "<td>−9.4 % (below −100 to 79)</td>" in section


def test_names_are_escaped_and_the_page_may_run_and_fetch_nothing() -> None:
    farm, season = hostile()
    compared = side_by_side(season, [HOSTILE, "B02", UNKNOWN])
    html = comparison_html(farm=farm, season=season, compared=compared)
    assert_inert(html)
    assert html == comparison_html(farm=farm, season=season, compared=compared)


def test_where_nobody_counted_the_page_says_so(tmp_path) -> None:
    demo = demo_outcome()
    season = demo.season.isel(visit=np.zeros(0, dtype=int))
    path = tmp_path / "comparison.html"
    compared = side_by_side(season, ["B10", "B14"])
    write_comparison_page(path, farm=demo.farm, season=season, compared=compared)
    html = path.read_text("utf-8")
    assert "Nobody counted in these blocks." in html
    assert "No block of a single cultivar was counted in the last two weeks." in html


def test_a_ratio_to_nothing_is_none_and_has_no_bar() -> None:
    season = demo_outcome().season.copy(deep=True)
    season["factors"][9, 4] = 0.0
    season["hazard_ahead"][9] = 0.0
    html = page("B10", "B14", season=season)
    assert html.count('<span class="figure">no ratio</span>') == 2


def test_a_check_that_nobody_counted_says_so_and_shows_no_number() -> None:
    season = demo_outcome().season.copy()
    check = season.block.values.tolist().index("B20")
    season = season.isel(spray=season.spray_block.values != check)
    html = page("B10", "B14", season=season, untreated="B20")
    section = html[html.index("What the sprays did") :]
    assert section.count("The check was not counted within 3 days of it.") == 2
    assert section.count("<td>–</td><td>–</td><td>–</td>") == 2


def test_a_factor_is_measured_only_if_all_of_its_blocks_were_counted() -> None:
    def standing(html: str) -> str:
        return re.search(r'<th scope="row">home inoculum</th>.*<td>(\w+)</td></tr>', html)[1]

    assert standing(page("B10", "B14")) == "measured"
    assert standing(page("B10", "B14", "B20")) == "assumed"
