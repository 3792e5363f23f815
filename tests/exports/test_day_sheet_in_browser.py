"""The day sheet in a browser: on paper, on a desk, on a telephone, with and without scripts."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from playwright.sync_api import Page
from pypdf import PdfReader

from geo.exports.day_sheet import write_day_sheet
from geo.texts import LANGUAGES, phrase_of, speaking
from tests.exports.conftest import DESK, PHONE, Tab, Watch
from tests.exports.made import Made
from tests.exports.made_round import HOSTILE_SPRAYER, made_round

Show = Callable[..., Page]
A4_POINTS = (595, 842)


@pytest.fixture
def show(tab: Tab, farm_made: Made, tmp_path: Path) -> Iterator[Show]:
    opened: list[Watch] = []

    def shower(
        *, stops: int = 12, sprayers: tuple[str, ...] = ("Airblast 1",), **settings: object
    ) -> Page:
        path = tmp_path / "day-sheet.html"
        planned = made_round(farm_made.farm, stops=stops, sprayers=sprayers)
        write_day_sheet(path, farm=farm_made.farm, season=farm_made.season, day_round=planned)
        page = tab(**({"viewport": DESK} | settings))
        opened.append(Watch(page))
        page.goto(path.as_uri())
        return page

    yield shower
    for watch in opened:
        watch.page.close()
    assert [(watch.asked, watch.faults) for watch in opened] == [([], [])] * len(opened)


def printed(page: Page) -> PdfReader:
    return PdfReader(BytesIO(page.pdf(prefer_css_page_size=True)))


@pytest.mark.parametrize("tag", LANGUAGES)
def test_a_day_of_twelve_stops_fits_on_one_sheet_of_a4_in_every_language(
    tag: str, show: Show
) -> None:
    with speaking(tag):
        paper = printed(show())
        ends = phrase_of("Sprayer checked"), phrase_of("Office sheet")
    assert len(paper.pages) == 2
    texts = [" ".join(sheet.extract_text().split()) for sheet in paper.pages]
    assert ends[0] in texts[0]
    assert ends[1] in texts[1]
    box = paper.pages[0].mediabox
    assert (round(box.width), round(box.height)) == A4_POINTS


def test_each_sprayer_has_its_own_sheet(show: Show) -> None:
    paper = printed(show(sprayers=("Airblast 1", "Airblast 2")))
    texts = [sheet.extract_text() for sheet in paper.pages]
    assert len(texts) == 3
    assert ["Stops in driving order" in text for text in texts] == [True, True, False]
    assert ["Airblast 2" in text for text in texts] == [False, True, True]


def test_a_longer_day_flows_on_with_its_heads_repeated(show: Show) -> None:
    paper = printed(show(stops=30))
    texts = [sheet.extract_text() for sheet in paper.pages]
    assert len(texts) in {3, 4}
    for text in texts[:2]:
        assert "Stops in driving order" in text
        assert "Airblast 1 · Wed 14 Aug 2024" in text
        assert "Planned" in text


def test_paper_needs_no_colour(show: Show) -> None:
    page = show()
    colours = page.evaluate(
        """() => [...document.querySelectorAll('*')].flatMap(one => {
            const style = getComputedStyle(one);
            return [style.color, style.backgroundColor, style.borderTopColor, style.fill];
        })"""
    )
    for colour in {colour for colour in colours if colour.startswith("rgb")}:
        red, green, blue = colour[colour.index("(") + 1 : -1].split(",")[:3]
        assert red.strip() == green.strip() == blue.strip(), colour


@pytest.mark.parametrize("scripts", [True, False])
@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_it_reads_the_same_with_and_without_scripts(
    show: Show, size: dict[str, int], *, scripts: bool
) -> None:
    page = show(viewport=size, java_script_enabled=scripts)
    assert page.locator("h1").first.inner_text() == "Airblast 1"
    assert page.locator(".stops tbody").count() == 12
    assert page.locator(".cautions").first.locator("li").count() == 14


def test_a_telephone_never_scrolls_sideways(show: Show) -> None:
    page = show(viewport=PHONE, sprayers=(HOSTILE_SPRAYER,), is_mobile=True, has_touch=True)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    small = page.evaluate(
        """() => [...document.querySelectorAll('.sheet *')].filter(one =>
            !one.closest('svg') && one.textContent.trim() && one.offsetParent !== null
            && parseFloat(getComputedStyle(one).fontSize) < 11).length"""
    )
    assert small == 0


def test_boxes_are_large_enough_to_write_in(show: Show) -> None:
    page = show()
    box = page.locator(".stops tbody .box").first.bounding_box()
    assert box is not None
    # Pixels of CSS: 96 to the inch.
    assert box["height"] >= 9 * 96 / 25.4
    assert box["width"] >= 14 * 96 / 25.4


def test_the_map_numbers_blocks_by_their_stops(show: Show) -> None:
    page = show()
    drawn = page.locator(".map svg text").all_text_contents()
    assert {"1", "3·4", "5"} <= set(drawn)


def test_twelve_stops_each_from_its_own_tank_still_fit_on_one_sheet(
    tab: Tab, farm_made: Made, tmp_path: Path
) -> None:
    planned = made_round(farm_made.farm)
    sprayer = planned.sprayers[0]
    loads = tuple(
        replace(sprayer.loads[0], number=stop.number, water="Pump") for stop in sprayer.stops
    )
    stops = tuple(
        replace(stop, load=stop.number, cautions=(f"Caution of stop {stop.number % 3}",))
        for stop in sprayer.stops
    )
    planned = replace(planned, sprayers=(replace(sprayer, loads=loads, stops=stops),))
    path = tmp_path / "day-sheet.html"
    write_day_sheet(path, farm=farm_made.farm, season=farm_made.season, day_round=planned)
    page = tab()
    page.goto(path.as_uri())
    assert len(printed(page).pages) == 2
