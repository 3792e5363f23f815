"""What changed since the last run, as a grower sees it."""

from pathlib import Path

import pytest
from playwright.sync_api import Page

from geo.exports.map_page import write_map
from geo.exports.page_risk import Risk
from tests.exports.conftest import PHONE, Open
from tests.exports.made import Made
from tests.exports.test_map_in_browser import CENTRE_OF_BLOCK, COLOUR_AT
from tests.exports.test_page_since import since, then_of

INK = [0x22, 0x30, 0x2B]


@pytest.fixture(scope="module")
def moved_file(farm_made: Made, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a page whose first block was low and seventh, and B01 crossed the reapply line."""
    risk = Risk(farm_made.season, farm_made.spray, farm_made.scouting)
    first, now = farm_made.spray.entries[0].block, then_of(risk)
    earlier = since(
        risk,
        hazard={**now.hazard, first: now.hazard[first] / 20},
        places={**now.places, first: "was No.\u00a07"},
        protection={**now.protection, first: 1.0 - now.protection[first]},
    )
    path = tmp_path_factory.mktemp("since") / "map.html"
    write_map(path, **farm_made.parts(), since=earlier)
    return path


@pytest.fixture
def moved(open_page: Open, moved_file: Path) -> Page:
    return open_page(path=moved_file)


def test_the_head_the_list_and_the_card_tell_of_it(moved: Page) -> None:
    assert moved.locator("#since").inner_text().startswith("Since the run of Tue 13 Aug: 1 block ")
    row = moved.locator("#list-spray tbody tr").first
    assert row.locator(".moved").inner_text().startswith("was No.\u00a07, ×\u00a020")
    assert "since 13 Aug" in (row.locator(".moved").text_content() or "")
    row.click()
    assert "Was No.\u00a07, ×\u00a020 since 13 Aug." in moved.locator("#why").inner_text()
    moved.locator("#list-spray tbody tr").nth(1).click()
    assert moved.locator(".since-then").count() == 0
    moved.click("#tab-scouting")
    assert moved.locator("#list-scouting .moved").count() == 0


def test_the_map_marks_it_today_and_on_no_other_day(moved: Page, farm_made: Made) -> None:
    x, y = moved.evaluate(CENTRE_OF_BLOCK, farm_made.spray.entries[0].block)

    def marks() -> list[bool]:
        """Return whether there is ink of a mark right of the number, and left of it."""
        found = []
        for side in (1, -1):
            at = [[x + side * step, y - 8] for step in range(13, 24)]
            found.append(any(moved.evaluate(COLOUR_AT, place)[:3] == INK for place in at))
        return found

    assert marks() == [True, True]
    moved.focus("#day")
    moved.keyboard.press("ArrowLeft")
    moved.wait_for_timeout(100)
    assert marks() == [False, False]


def test_without_an_earlier_run_nothing_of_it_is_shown(desk: Page) -> None:
    assert desk.locator("#since").is_hidden()
    assert desk.locator(".moved").count() == 0
    assert desk.locator(".since-key").count() == 0
    desk.locator("#list-spray tbody tr").first.click()
    assert desk.locator(".since-then").count() == 0


def test_a_phone_shows_the_line_and_does_not_scroll_sideways(
    open_page: Open, moved_file: Path
) -> None:
    page = open_page(path=moved_file, size=PHONE, is_mobile=True, has_touch=True)
    assert page.locator("#since").is_visible()
    assert page.evaluate("document.documentElement.scrollWidth") == PHONE["width"]
