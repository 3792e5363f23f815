"""The page draws all blocks by all days and the days of a block, and saves both as files."""

import io
from pathlib import Path
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Locator, Page

from geo.exports.page_classes import CLASS_COLOURS
from geo.exports.page_data import shown_days
from geo.exports.page_events import events_data
from geo.ranking.classes import hazard_class
from tests.demo_run import demo_folder, demo_outcome
from tests.exports.conftest import Open
from tests.exports.made import HOSTILE, UNKNOWN, Made

SVG = "{http://www.w3.org/2000/svg}"
# Fill of each cell of each row, a hatched cell once.
FILLS = """() => [...document.querySelectorAll('.heat-row')].map((row) => {
  const { words } = mangoPage.app.data.days;
  const first = row.querySelector('rect').x.baseVal.value;
  const all = [...row.querySelectorAll('rect')];
  const solid = all.filter((cell) => cell.getAttribute('fill')[0] === '#');
  const whole = solid.reduce((sum, cell) => sum + cell.width.baseVal.value, 0);
  const fills = new Array(words.length).fill(null);
  for (const cell of solid) {
    const from = Math.round(((cell.x.baseVal.value - first) / whole) * words.length);
    const days = Math.round((cell.width.baseVal.value / whole) * words.length);
    fills.fill(cell.getAttribute('fill'), from, from + days);
  }
  return [Number(row.dataset.block), fills];
})"""


def all_days(page: Page) -> None:
    page.click("#tab-day")
    page.click(".days-switch button:has-text('All days')")


def saved(page: Page, button: Locator, folder: Path) -> Path:
    with page.expect_download() as waiting:
        button.click()
    path = folder / waiting.value.suggested_filename
    waiting.value.save_as(path)
    return path


def words_of(path: Path) -> str:
    return " ".join(" ".join(ET.parse(path).getroot().itertext()).split())


def test_each_cell_has_the_colour_of_its_class(desk: Page, farm_made: Made) -> None:
    all_days(desk)
    farm, season = farm_made.farm, farm_made.season
    classes = hazard_class(season["hazard"].values[:, shown_days(season, farm)])
    rows = dict(desk.evaluate(FILLS))
    assert rows.keys() == set(range(len(farm.blocks)))
    for block, fills in rows.items():
        known = [CLASS_COLOURS[look] if look >= 0 else None for look in classes[block].tolist()]
        assert [fill if fill in CLASS_COLOURS else None for fill in fills] == known
    assert farm.blocks.index[-2] == UNKNOWN


def test_rows_stand_in_the_order_of_the_day(desk: Page) -> None:
    desk.click("#tab-day")
    listed = desk.locator("#list-day tbody tr").evaluate_all(
        "(rows) => rows.map((row) => row.dataset.block)"
    )
    all_days(desk)
    drawn = desk.locator(".heat-row").evaluate_all("(rows) => rows.map((row) => row.dataset.block)")
    assert drawn == listed
    assert desk.locator(".days-switch [aria-pressed=true]").inner_text() == "All days"


def test_a_cell_leads_to_its_day_and_its_block(desk: Page) -> None:
    all_days(desk)
    row = desk.locator(".heat-row").nth(3)
    block = row.get_attribute("data-block")
    box = row.locator("rect").first.bounding_box()
    assert box is not None
    desk.mouse.click(box["x"] + 3, box["y"] + box["height"] / 2)
    assert desk.evaluate("() => [String(mangoPage.app.selected), mangoPage.app.day]") == [block, 0]
    # The day is another, so the order is too: the chosen block is marked wherever it stands now.
    assert desk.locator(".heat-row.chosen").get_attribute("data-block") == block


def test_find_narrows_the_drawing(desk: Page) -> None:
    all_days(desk)
    desk.fill("#find", "river")
    assert desk.locator(".heat-row .heat-name").all_text_contents() == ["B02"]
    desk.fill("#find", "nowhere")
    assert desk.locator(".heat-row").count() == 0
    assert "No block by that name here." in desk.locator("#list-day").inner_text()


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_the_drawing_stays_within_its_place(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    all_days(page)
    box, panel = page.locator(".heat").bounding_box(), page.locator("#lists").bounding_box()
    assert box is not None
    assert panel is not None
    assert panel["x"] <= box["x"] < box["x"] + box["width"] <= panel["x"] + panel["width"]
    for button in page.locator(".save button, .days-switch button").all():
        of_button = button.bounding_box()
        assert of_button is not None
        assert of_button["height"] >= 38


def test_blocks_by_day_are_saved_as_svg_and_png_that_others_read(
    open_page: Open, tmp_path: Path
) -> None:
    page = open_page(path=demo_folder() / "block-map.html")
    all_days(page)
    svg = saved(page, page.locator("#list-day .save button").nth(0), tmp_path)
    png = saved(page, page.locator("#list-day .save button").nth(1), tmp_path)
    assert (svg.name, png.name) == ("blocks-by-day.svg", "blocks-by-day.png")
    root = ET.parse(svg).getroot()
    assert root.tag == f"{SVG}svg"
    said = words_of(svg)
    for words in ("Made Valley Farm (made scenario)", "18 Feb 2026", "1 Very low", "? Not known"):
        assert words in said
    assert all(block in said for block in demo_outcome().season["block"].values.tolist())
    picture = Image.open(png)
    assert picture.size == (
        2 * float(root.get("width", "0")),
        2 * float(root.get("height", "0")),
    )
    # The colours are those of the page: the file brings its looks along.
    found = {f"#{r:02x}{g:02x}{b:02x}" for _, (r, g, b, *_) in picture.getcolors(1 << 24) or []}
    assert {CLASS_COLOURS[1], CLASS_COLOURS[2], CLASS_COLOURS[3]} <= found


def test_a_saved_drawing_runs_and_fetches_nothing_whatever_names_hold(
    desk: Page, tmp_path: Path
) -> None:
    desk.evaluate("() => mangoPage.app.choose(2, 'list')")  # has a hostile name
    path = saved(desk, desk.locator(".chart-save button").nth(0), tmp_path)
    assert path.name == "days-B03.svg"
    root = ET.parse(path).getroot()
    kinds = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert kinds <= {"svg", "title", "rect", "text", "path", "circle", "line", "g", "defs"}
    assert not any(
        name.startswith("on") or name in {"style", "class", "href"} or "http" in value
        for element in root.iter()
        for name, value in element.attrib.items()
    )
    assert HOSTILE in words_of(path)


def test_the_days_of_a_block_show_weather_stage_sprays_and_looks(desk: Page) -> None:
    desk.evaluate("() => mangoPage.app.choose(1, 'list')")
    chart = desk.locator("#why .chart")
    words = chart.locator("text").all_text_contents()
    for begin in ("Air, ", "Rain, ", "Weather for ", "Susceptible ", "Protection left", "Looks"):
        assert any(text.startswith(begin) for text in words), begin
    assert [text for text in words if "%" in text] == ["0\u00a0%", "30\u00a0%"]


def test_sprays_and_looks_come_to_the_page_on_their_days(open_page: Open) -> None:
    page = open_page(path=demo_folder() / "block-map.html")
    outcome = demo_outcome()
    season = outcome.season
    days = shown_days(season, outcome.farm)
    first, last = int(days[0]), int(days[-1])
    for place in range(season.sizes["block"]):
        mine = season["spray_block"].values == place
        hours = season["spray_hour"].values[mine]
        inside = np.clip(hours.astype(int), 0, season.sizes["hour"] - 1)
        on = np.where(hours < 0, -1, season["hour_day"].values[inside])
        expected = sorted(int(day) - first for day in on if first <= day <= last)
        shown = page.evaluate("(b) => mangoPage.spraysOf(mangoPage.app, b)", place)
        assert sorted(spray["day"] for spray in shown) == expected
        assert {spray["material"] for spray in shown} <= set(season["spray_material"].values)
        looked = season["visit_day"].values[season["visit_block"].values == place]
        looks = page.evaluate("(b) => mangoPage.looksOf(mangoPage.app, b)", place)
        assert [look["day"] for look in looks] == sorted(
            int(day) - first for day in looked if first <= day <= last
        )


def test_no_days_have_no_events(farm_made: Made) -> None:
    told = events_data(farm_made.season, np.array([], dtype=np.int64))
    for name in ("sprays", "looks"):
        assert [column.size for column in told[name].values()] == [0, 0, 0]


def test_a_block_leads_to_the_drawing_of_its_whole_season(open_page: Open) -> None:
    page = open_page(path=demo_folder() / "block-map.html")
    page.evaluate("() => mangoPage.app.choose(9, 'list')")
    link = page.locator(".chart-save a")
    assert link.get_attribute("href") == "season.html#block-9"
    season = (demo_folder() / "season.html").read_text("utf-8")
    assert 'id="block-9"' in season
    assert link.inner_text() == "Its whole season, drawn"


def test_the_season_of_another_disease_than_the_chosen_one_says_whose_it_is(
    open_page: Open,
) -> None:
    page = open_page(path=demo_folder() / "block-map.html")
    page.evaluate("() => mangoPage.app.choose(9, 'list')")
    page.select_option("#disease", "1")
    link = page.locator(".chart-save a")
    assert link.inner_text() == "Its whole season, drawn for powdery mildew on panicles"
    season = (demo_folder() / "season.html").read_text("utf-8")
    assert "what is forecast, for <strong>powdery mildew on panicles</strong>" in season
    told = page.locator(".sheets .note").inner_text()
    assert told == "All but the tally are about powdery mildew on panicles."


def test_a_page_alone_leads_to_no_season(desk: Page) -> None:
    desk.evaluate("() => mangoPage.app.choose(1, 'list')")
    assert desk.locator(".chart-save a").count() == 0


def test_what_no_browser_can_draw_is_said(desk: Page) -> None:
    all_days(desk)
    desk.evaluate("() => { HTMLCanvasElement.prototype.toBlob = (done) => done(null); }")
    desk.locator("#list-day .save button").nth(1).click()
    desk.wait_for_function("() => document.querySelector('.saved').textContent !== ''")
    assert "Save it as SVG" in desk.locator("#list-day .saved").inner_text()


def test_png_is_a_png(desk: Page, tmp_path: Path) -> None:
    desk.evaluate("() => mangoPage.app.choose(1, 'list')")
    path = saved(desk, desk.locator(".chart-save button").nth(1), tmp_path)
    with Image.open(io.BytesIO(path.read_bytes())) as picture:
        picture.verify()
        assert picture.format == "PNG"
