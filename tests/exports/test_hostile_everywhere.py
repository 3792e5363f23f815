"""One list of what people may write, run through every file of every command: all stays text."""

import csv
import json
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from itertools import cycle, islice
from pathlib import Path
from xml.etree import ElementTree as ET

import geopandas as gpd
import html5lib
import openpyxl
import pyogrio
import pytest
from PIL import Image
from pypdf import PdfReader
from python_calamine import CalamineWorkbook

from geo.comparison.side_by_side import side_by_side
from geo.exports.order_tables import FORMULA_STARTS
from geo.pipeline.pages import write_comparison, write_plots
from geo.pipeline.today import today_of, write_today
from tests.demo_run import NAMES, OF_TODAY, demo_outcome
from tests.exports.conftest import Tab
from tests.hostile import PAYLOADS

DRAWN = {
    "drawings/blocks-by-day.svg",
    "drawings/blocks-by-day.png",
    *(
        f"drawings/season-{place + 1:03d}-{block}.{ending}"
        for place, block in enumerate(demo_outcome().season["block"].values.tolist())
        for ending in ("svg", "png")
    ),
}
FILES = sorted(NAMES | OF_TODAY | {"comparison.html"} | DRAWN)
INJECTED = "img[src='x'], [onerror], [onmouseover], a[href^='javascript']"
NUMBER = re.compile(r"-?\d+(\.\d+)?(e[+-]?\d+)?")


def of(ending: str) -> list[str]:
    return [name for name in FILES if name.endswith(ending)]


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return all files of a day of a farm on which every name and note is one of the list."""
    made = demo_outcome()
    farm, texts = made.farm, cycle(PAYLOADS)
    some = lambda table: list(islice(texts, len(table)))  # noqa: E731
    settings = farm.settings
    sprayers = tuple(
        replace(one, name=text) for one, text in zip(settings.sprayers, texts, strict=False)
    )
    hostile = replace(
        farm,
        name=PAYLOADS[0] + PAYLOADS[1],
        blocks=farm.blocks.assign(
            name=some(farm.blocks), note=some(farm.blocks), cultivar=some(farm.blocks)
        ),
        neighbours=farm.neighbours.assign(name=some(farm.neighbours)),
        places=farm.places.assign(name=some(farm.places)),
        settings=replace(settings, sprayers=sprayers),
    )
    outcome = replace(made, farm=hostile)
    folder = tmp_path_factory.mktemp("hostile")
    write_today(outcome, today_of(outcome, walk_hours=2.0), folder)
    key, season = settings.disease, outcome.season
    names = season["block"].values.tolist()[:12]
    write_comparison(outcome, key, side_by_side(season, names, untreated=None), folder)
    write_plots(outcome, key, folder, blocks=None, with_files=True, with_png=True)
    return folder


def test_no_name_makes_a_file_elsewhere(written: Path) -> None:
    files = {path for path in written.rglob("*") if path.is_file()}
    assert sorted(str(path.relative_to(written)) for path in files) == FILES


@pytest.mark.parametrize("name", [*of(".html"), "drawings/blocks-by-day.svg", of(".svg")[1]])
def test_pages_run_nothing_and_ask_for_nothing(tab: Tab, written: Path, name: str) -> None:
    page = tab()
    alerts: list[str] = []
    asked: list[str] = []
    faults: list[str] = []
    page.on("dialog", lambda dialog: (alerts.append(dialog.message), dialog.dismiss()))
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto((written / name).as_uri())
    if name == "block-map.html":
        page.wait_for_selector("html[data-painted]")
        for shown in ("#tab-scouting", "#tab-day", "#tab-spray"):
            page.click(shown)
        for block in range(len(PAYLOADS)):
            page.evaluate("(block) => mangoPage.app.choose(block, 'list')", block)
    assert page.locator(INJECTED).count() == 0
    assert (alerts, faults) == ([], [])
    assert [url for url in asked if not url.startswith(("file:", "data:", "blob:"))] == []


@pytest.mark.parametrize("name", of(".csv"))
def test_tables_hold_no_cell_that_a_spreadsheet_would_run(written: Path, name: str) -> None:
    with (written / name).open(encoding="utf-8", newline="") as lines:
        rows = list(csv.reader(lines))
    assert len({len(row) for row in rows}) == 1
    running = [
        cell
        for row in rows
        for cell in row
        if cell.startswith(FORMULA_STARTS) and not NUMBER.fullmatch(cell)
    ]
    assert running == []


def test_the_workbook_holds_no_formula(written: Path) -> None:
    book = openpyxl.load_workbook(written / "tables.xlsx")
    assert not any(c.data_type == "f" for sheet in book for row in sheet.iter_rows() for c in row)


# WHATWG HTML, section 13.2, by its reference parser in Python.
@pytest.mark.parametrize("name", of(".html"))
def test_pages_are_html_without_a_fault(written: Path, name: str) -> None:
    html5lib.HTMLParser(strict=True).parse((written / name).read_text("utf-8"))


@pytest.mark.parametrize("name", of(".png"))
def test_pictures_open(written: Path, name: str) -> None:
    with Image.open(written / name) as picture:
        picture.verify()


def test_sheets_hold_the_names_as_they_were(written: Path) -> None:
    book = CalamineWorkbook.from_path(written / "tables.xlsx")
    rows = book.get_sheet_by_name("every disease").to_python()
    names = {str(row[rows[0].index("name")]) for row in rows[1:]}
    # XML 1.0, section 2.2: characters that no sheet can hold.
    clean = {re.sub("[\u0001\u0007\u001b]", "", text).replace("\r\n", "\n") for text in PAYLOADS}
    assert {name.replace("\r\n", "\n") for name in names} <= clean
    assert len(names) > 10


def test_styles_of_the_geopackage_hold_nothing_of_a_name(written: Path) -> None:
    with closing(sqlite3.connect(f"file:{written / 'blocks.gpkg'}?mode=ro", uri=True)) as read:
        styles = read.execute("SELECT styleQML, styleSLD FROM layer_styles").fetchall()
    for text in (text for row in styles for text in row):
        assert "<!" not in text
        assert len(list(ET.fromstring(text).iter())) > 5
        assert not any(payload in text for payload in PAYLOADS)


@pytest.mark.parametrize("name", [*of(".gpx"), *of(".kml"), *of(".svg")])
def test_xml_has_no_entities_of_its_own_and_parses(written: Path, name: str) -> None:
    text = (written / name).read_text("utf-8")
    assert "<!" not in text
    assert len(list(ET.fromstring(text).iter())) > 10


@pytest.mark.parametrize("name", of(".gpx"))
def test_gpx_is_read_by_another_library(written: Path, name: str) -> None:
    assert len(pyogrio.read_dataframe(written / name, layer="waypoints")) > 3


@pytest.mark.parametrize("name", ["blocks.gpkg", "blocks.geojson"])
def test_names_come_back_from_gis_files_as_they_were(written: Path, name: str) -> None:
    read = gpd.read_file(written / name, layer="blocks")
    assert set(read["name"]) <= set(PAYLOADS)
    assert len(set(read["name"])) == min(len(read), len(PAYLOADS))


def test_the_run_record_is_plain_json(written: Path) -> None:
    assert json.loads((written / "run.json").read_text("utf-8"))


def test_the_pdf_has_neither_script_nor_link(written: Path) -> None:
    reader = PdfReader(written / "day-sheet.pdf")
    assert (
        set(_keys(reader.trailer["/Root"], set())) & {"/JS", "/JavaScript", "/URI", "/Launch"}
        == set()
    )
    assert "<script>" in "".join(page.extract_text() for page in reader.pages)


def _keys(value: object, seen: set[int]) -> Iterator[str]:
    """Yield every key of a document's objects."""
    value = value.get_object() if hasattr(value, "get_object") else value
    if id(value) in seen:
        return
    seen.add(id(value))
    if isinstance(value, dict):
        for key in value:
            yield key
            yield from _keys(value.raw_get(key), seen)
    elif isinstance(value, list):
        for part in value:
            yield from _keys(part, seen)
