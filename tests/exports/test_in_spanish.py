"""Each sheet and page speaks the language it names; what the tool reads again stays as it is."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from geo.comparison.side_by_side import side_by_side
from geo.exports.check_page import check_html
from geo.exports.comparison_page import comparison_html
from geo.exports.day_sheet import day_sheet_html
from geo.exports.days_page import days_html
from geo.exports.gis_styles import style_of_classes
from geo.exports.record_rows import SENTENCES, record_rows
from geo.exports.rules_page import rules_html
from geo.exports.season_page import season_html
from geo.exports.tally_page import tally_html
from geo.exports.walk_sheet import walk_html
from geo.ranking.classes import CLASS_WORDS
from geo.season.survey import Survey
from geo.texts import speaking
from tests.demo_run import demo_outcome
from tests.exports.conftest import PHONE, Tab
from tests.exports.made import Made
from tests.exports.made_round import made_round
from tests.exports.made_walks import walk_through

# What stands in a head of each page, in Spanish.
SAID = {
    "day sheet": "Paradas en orden de recorrido",
    "walk sheet": "Hoja del recorrido",
    "tally": "Conteo de revisiones",
    "seasons": "Temporadas de los bloques",
    "blocks by day": "Bloques por día",
    "comparison": "Por qué difieren",
    "rules": "Cuánto coinciden sus órdenes con el nuestro",
    "check": "Se puede usar todo.",
}


@pytest.fixture(autouse=True)
def spanish() -> Iterator[None]:
    with speaking("es"):
        yield


def pages(farm_made: Made) -> dict[str, str]:
    farm, season = farm_made.farm, farm_made.season
    demo = demo_outcome()
    real = {"farm": demo.farm, "season": demo.season}
    compared = side_by_side(demo.season, ("B10", "B14"))
    return {
        "day sheet": day_sheet_html(farm=farm, season=season, day_round=made_round(farm)),
        "walk sheet": walk_html(
            farm=farm, walk=walk_through(farm_made, {"B03": 9}), disease="panicle_mildew"
        ),
        "tally": tally_html(farm=farm, risks=farm_made.parts()["risks"]),
        "seasons": season_html(**real, blocks=["B10"]),
        "blocks by day": days_html(**real),
        "comparison": comparison_html(**real, compared=compared),
        "rules": rules_html(**real, disease="powdery mildew on panicles"),
        "check": check_html(Survey("Finca", is_made=True, files=(), issues=())),
    }


def test_each_page_names_its_language_and_speaks_it(farm_made: Made) -> None:
    made_pages = pages(farm_made)
    assert made_pages.keys() == SAID.keys()
    for name, html in made_pages.items():
        assert re.search(r'<html lang="es"[ >]', html), name
        assert SAID[name] in html, name
        assert "made scenario" not in html, name


def test_the_rows_of_a_record_differ_in_nothing_but_sentences(farm_made: Made) -> None:
    farm = replace(farm_made.farm, is_made=True)
    parts = {
        "farm": farm,
        "season": farm_made.season,
        "order": farm_made.spray,
        "day_round": made_round(farm),
    }
    ours = record_rows(**parts)
    with speaking("en"):
        english = record_rows(**parts)
    assert [row["record_id"] for row in ours] == [row["record_id"] for row in english]
    for one, other in zip(ours, english, strict=True):
        differing = {column for column in one if one[column] != other[column]}
        assert differing <= set(SENTENCES)
        assert (one["note"], other["note"]) == ("escenario inventado", "made scenario")


def tallied(tab: Tab, html: str, path: Path) -> tuple[str, str]:
    """Return what the page says of a tally, and the table it saves."""
    path.write_text(html, "utf-8")
    page = tab(viewport=PHONE)
    # The id of a look is drawn by chance.
    page.add_init_script("Math.random = () => 0.123456789")
    page.goto(path.as_uri())
    page.wait_for_selector("html[data-painted]")
    page.fill("#date", "2026-02-18")
    page.click("#with")
    page.click("#without")
    page.click("#next")
    page.click("#without")
    page.select_option("#severity", "1")
    page.select_option("#stage", index=1)
    told = page.inner_text("#entries"), page.input_value("#text")
    page.evaluate("localStorage.clear()")
    return told


def test_the_table_of_a_tally_is_the_same_in_every_language(
    farm_made: Made, tab: Tab, tmp_path: Path
) -> None:
    found = []
    for tag in ("es", "en"):
        with speaking(tag):
            html = tally_html(farm=farm_made.farm, risks=farm_made.parts()["risks"])
        found.append(tallied(tab, html, tmp_path / f"{tag}.html"))
    (words, ours), (english_words, english) = found
    assert ours == english
    assert "date,block_id,disease,inspected,infected" in english
    assert "1 de 3 en 2 árboles" in words
    assert "1 of 3 on 2 trees" in english_words


def test_a_legend_is_told_while_the_data_keep_their_words() -> None:
    style = style_of_classes("blocks", column="class_ahead", label="block_id")
    categories = ET.fromstring(style.qml).findall(".//category")
    assert [one.get("value") for one in categories][:5] == list(CLASS_WORDS[::-1])
    assert [one.get("label") for one in categories][:2] == ["Muy alto", "Alto"]
    assert "<ogc:Literal>Very high</ogc:Literal>" in style.sld
    assert "<se:Name>Muy alto</se:Name>" in style.sld
