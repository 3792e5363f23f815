"""One page for all diseases: whichever is chosen, lists, map and card tell of it."""

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Page

from geo.exports.map_page import write_map
from geo.exports.page_risk import Risk
from tests.exports.conftest import PHONE, Open
from tests.exports.made import Made, of_leaves


@pytest.fixture(scope="module")
def both(farm_made: Made, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("map") / "diseases.html"
    parts = farm_made.parts()
    write_map(path, farm=farm_made.farm, risks=[*parts["risks"], of_leaves(farm_made)])
    return path


def hazard(page: Page) -> float:
    found: float = page.evaluate("() => mangoPage.app.hazardOn(0, mangoPage.app.day)")
    return found


def test_another_disease_has_its_own_lists_days_and_card(open_page: Open, both: Path) -> None:
    page = open_page(path=both)
    assert page.locator("#disease option").all_inner_texts() == [
        "Powdery mildew on panicles",
        "Powdery mildew on leaves",
    ]
    ranked = page.locator("#list-spray table[aria-label='Spray order'] tbody tr")
    rows, columns = ranked, page.locator("#columns")
    many, before, drawn = rows.count(), hazard(page), columns.inner_html()
    rows.nth(0).click()
    assert "Susceptible panicles" in page.locator("#why").inner_text()
    page.select_option("#disease", label="Powdery mildew on leaves")
    assert hazard(page) == pytest.approx(before / 2)
    assert rows.count() < many
    assert columns.inner_html() != drawn
    assert "Susceptible leaves" in page.locator("#why").inner_text()
    page.select_option("#disease", index=0)
    assert rows.count() == many
    assert hazard(page) == pytest.approx(before)
    assert columns.inner_html() == drawn


def test_a_material_that_does_nothing_against_a_disease_is_said_to(
    open_page: Open, farm_made: Made, tmp_path: Path
) -> None:
    (mildew,) = farm_made.parts()["risks"]
    season = mildew.season.assign_coords(disease="fruit_anthracnose")
    order = replace(mildew.spray, entries=(), cannot_now=())
    path = tmp_path / "fruit.html"
    write_map(path, farm=farm_made.farm, risks=[mildew, Risk(season, order, mildew.scouting)])
    page = open_page(path=path)
    assert "not known to act" not in page.locator("#list-spray").inner_text()
    page.select_option("#disease", label="Anthracnose on fruit")
    said = page.locator("#list-spray").inner_text()
    assert "sulfur, which is not known to act on anthracnose on fruit" in said
    assert "No block to spray for anthracnose on fruit now." in said


def test_the_choice_is_large_enough_for_a_thumb(open_page: Open, both: Path) -> None:
    page = open_page(path=both, size=PHONE, has_touch=True, is_mobile=True)
    box = page.locator("#disease").bounding_box()
    assert box is not None
    assert box["height"] >= 44
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_a_page_of_one_disease_offers_no_choice(desk: Page) -> None:
    assert desk.locator("#disease").count() == 0
    assert "Powdery mildew on panicles" in desk.locator(".panel .eyebrow").inner_text()
