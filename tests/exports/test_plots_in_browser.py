"""Pages of drawings in a browser: no faults, no request, no scrolling sideways, on paper too."""

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

from geo.comparison.side_by_side import side_by_side
from geo.pipeline.pages import write_comparison, write_plots
from tests.demo_run import demo_outcome
from tests.exports.conftest import DESK, PHONE, Tab

PAGES = ("season.html", "blocks-by-day.html", "comparison.html")
KEEPS_OUT = ("serious", "critical")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    demo, made = demo_outcome(), tmp_path_factory.mktemp("plots")
    key = demo.farm.settings.disease
    write_plots(demo, key, made, blocks=None, with_files=False)
    compared = side_by_side(demo.season, ["B10", "B14", "B22"])
    write_comparison(demo, key, compared, made)
    return made


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
@pytest.mark.parametrize("name", PAGES)
def test_it_fits_its_screen_without_faults_and_with_scripts_off(
    name: str, size: dict[str, int], tab: Tab, folder: Path
) -> None:
    page, said = tab(viewport=size, java_script_enabled=False), []
    page.on("console", lambda message: said.append(message.text))
    page.on("request", lambda request: said.append(request.url))
    page.goto((folder / name).as_uri())
    assert page.locator("h1").is_visible()
    for drawing in page.locator("svg.season, tbody svg.strip").all()[:3]:
        box = drawing.bounding_box()
        assert box is not None
        assert box["width"] > 250
    assert said == [(folder / name).as_uri()]
    page = tab(viewport=size)
    page.goto((folder / name).as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") == size["width"]


@pytest.mark.parametrize("name", ["season.html", "comparison.html"])
def test_nobody_is_kept_out_of_it(name: str, tab: Tab, folder: Path) -> None:
    page = tab(viewport=PHONE)
    page.goto((folder / name).as_uri())
    found = Axe().run(page).response["violations"]
    assert [
        (fault["id"], node["html"])
        for fault in found
        if fault["impact"] in KEEPS_OUT
        for node in fault["nodes"]
    ] == []


@pytest.mark.parametrize("name", PAGES)
def test_it_prints_on_paper_without_being_cut(name: str, tab: Tab, folder: Path) -> None:
    # A4 less margins of 12 mm, in pixels of 1/96 inch.
    page = tab(viewport={"width": 702, "height": 1000})
    page.goto((folder / name).as_uri())
    page.emulate_media(media="print")
    assert page.evaluate("document.documentElement.scrollWidth") <= 702
    assert page.locator("svg.season, tbody svg.strip").first.is_visible()
    pdf = page.pdf(format="A4")
    assert re.match(rb"%PDF-1\.\d", pdf)


def test_words_within_a_strip_stay_within_their_days(tab: Tab, folder: Path) -> None:
    page = tab(viewport=DESK)
    page.goto((folder / "blocks-by-day.html").as_uri())
    over = page.evaluate(
        """() => [...document.querySelectorAll("tbody svg.strip")].flatMap((strip) => {
          const cells = [...strip.querySelectorAll("rect")].map((r) => r.getBBox());
          return [...strip.querySelectorAll("text")].filter((text) => {
            const box = text.getBBox(), middle = box.x + box.width / 2;
            const cell = cells.find((c) => c.x <= middle && middle <= c.x + c.width);
            return !cell || box.width > cell.width + 1;
          }).map((text) => text.textContent);
        })"""
    )
    assert over == []
