"""The map page on a printer: one sheet for each farm, whatever its names and the language."""

from contextlib import nullcontext
from dataclasses import replace
from io import BytesIO

import pytest
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from geo.exports.map_page import STYLES
from geo.exports.offline import still_page
from geo.exports.page_risk import Risk
from geo.exports.paper import paper_html
from geo.exports.templates import joined
from geo.texts import Language, language_of, speaking
from geo.windows.open_hours import NotAsked
from tests.demo_run import demo_folder, demo_outcome
from tests.exports.made import Made, made
from tests.made_languages import lengthened

A4, LETTER = "A4", "Letter"
WRITTEN = ("day-sheet.html", "spray-order.csv", "scouting-order.csv")
LONG = "Upper terrace by the river, where the old trees still stand"
NOTE = (
    "Your label file has no usable row for the copper hydroxide that is planned for these blocks, "
    "and unknown is closed: copy the row from the label."
)
# Pixels below which a drawing tells nothing.
LEAST_DRAWING = 200


def sheets(page: Page, size: str) -> list[str]:
    """Print a page as it is and return the words of each sheet."""
    printed = PdfReader(BytesIO(page.pdf(format=size, print_background=True)))
    return [" ".join(sheet.extract_text().split()) for sheet in printed.pages]


def crowded(name: str) -> Made:
    """Return forty blocks, each by that name, in lists of twenty thousand."""
    farm = made(count=40)
    blocks = farm.farm.blocks.assign(name=[f"{name} {at}" for at in range(40)])
    spray, scouting = farm.spray, farm.scouting
    return replace(
        farm,
        farm=replace(farm.farm, name=name or farm.farm.name, blocks=blocks),
        spray=replace(
            spray,
            hours_today=16.0,
            entries=tuple(
                replace(spray.entries[at % 37], rank=at + 1, is_within=False)
                for at in range(20_000)
            ),
            cannot_now=spray.cannot_now * 9000,
            not_worth=spray.not_worth * 9000,
            notes=(NOTE, NOTE),
            not_asked=(NotAsked("label rules", NOTE),) * 3,
        ),
        scouting=replace(scouting, entries=scouting.entries * 500),
    )


def show(page: Page, farm: Made, language: Language | None) -> None:
    """Show the still version alone, in the page's own style."""
    with nullcontext() if language is None else speaking(language):
        risk = Risk(farm.season, farm.spray, farm.scouting)
        body = paper_html(farm.farm, risk, written=WRITTEN)
    page.set_content(still_page(title="Sheet", style=joined(STYLES), body=body))


@pytest.mark.parametrize("has_drawing", [True, False], ids=["drawn", "without drawing"])
def test_the_most_crowded_farm_is_one_sheet_in_every_language(
    browser: Browser, monkeypatch: pytest.MonkeyPatch, *, has_drawing: bool
) -> None:
    if not has_drawing:
        monkeypatch.setattr("geo.exports.paper.MOST_BLOCKS", 11)
    page = browser.new_page(viewport={"width": 700, "height": 1000})
    for name, language in (
        ("", None),
        (LONG.upper(), lengthened()),
        ("漢" * 60, language_of("es")),
    ):
        show(page, crowded(name), language)
        for size in (A4, LETTER):
            words = sheets(page, size)
            assert len(words) == 1, (name, language, size)
            if language is None:
                for said in ("more blocks.", "and 8970 more", "on a screen.", "people on site."):
                    assert said in words[0]
        if has_drawing:
            page.emulate_media(media="print")
            box = page.locator(".drawing").bounding_box()
            page.emulate_media(media="null")
            assert box is not None
            assert box["height"] > LEAST_DRAWING
    page.close()


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_the_real_page_prints_its_map_key_and_whole_day_on_one_sheet(
    browser: Browser, *, scripts: bool
) -> None:
    page = browser.new_page(java_script_enabled=scripts)
    page.goto((demo_folder() / "block-map.html").as_uri())
    if scripts:
        page.wait_for_selector("html[data-painted]")
    for size in (A4, LETTER):
        (words,) = sheets(page, size)
        for entry in demo_outcome().spray.entries:
            assert f"{entry.block} · " in words
        for said in (
            "Made Valley Farm (made scenario)",
            "Newest measured hour",
            "Very high",
            "Not worth it now: B",
            "Scouting order: B",
            "Re-entry, pre-harvest: not asked",
            "The reasons are in spray-order.csv and scouting-order.csv.",
            "The label is the law",
        ):
            assert said in words
        for unsaid in ("About the data", "Last look", "Scripts are off"):
            assert unsaid not in words
    page.close()
