"""Links to what else the run wrote, the mark of what is not worth it, glare and calm."""

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Page

from geo.exports.map_page import map_html, write_map
from geo.exports.page_links import PAGES, links_data
from geo.pipeline.today import today_of, write_today
from tests.demo_run import demo_folder, demo_outcome
from tests.exports.conftest import DESK, PHONE, Open
from tests.exports.made import APART, Made
from tests.exports.test_map_in_browser import CENTRE_OF_BLOCK, COLOUR_AT

TITLE = "Sheets and other pages"


def links(page: Page) -> list[str | None]:
    return [link.get_attribute("href") for link in page.locator(".sheets a").all()]


def test_the_map_links_only_to_pages_that_the_run_wrote(open_page: Open) -> None:
    page = open_page(path=demo_folder() / "block-map.html")
    assert links(page) == ["tally.html", "season.html", "blocks-by-day.html", "rules.html"]
    for name in links(page):
        assert (demo_folder() / str(name)).is_file()


def test_a_whole_day_links_to_its_sheets_too(open_page: Open, tmp_path: Path) -> None:
    write_today(demo_outcome(), today_of(demo_outcome(), walk_hours=2.0), tmp_path)
    page = open_page(path=tmp_path / "block-map.html", size=PHONE)
    assert links(page) == list(PAGES)
    assert all((tmp_path / name).is_file() for name in PAGES)
    for link in page.locator(".sheets a").all():
        box = link.bounding_box()
        assert box is not None
        assert box["height"] >= 42


def test_a_page_alone_links_to_nothing(desk: Page, farm_made: Made) -> None:
    assert desk.locator(".sheets").count() == 0
    desk.click("#tab-scouting")
    assert desk.locator("#list-scouting a").count() == 0
    assert TITLE not in map_html(**farm_made.parts())
    assert links_data([]) == []


def test_a_block_not_worth_it_carries_a_ring_in_map_list_and_key(desk: Page) -> None:
    x, y = desk.evaluate(CENTRE_OF_BLOCK, APART)
    # White within the ring, whose middle lies above the name of the block.
    assert desk.evaluate(COLOUR_AT, [x, y - 8])[:3] == [255, 255, 255]
    desk.click("#tab-day")
    desk.wait_for_timeout(100)
    assert desk.evaluate(COLOUR_AT, [x + 10, y - 8])[:3] != [255, 255, 255]
    desk.click("#tab-spray")
    assert desk.locator(f"#list-spray tr:has-text('{APART}') .ring").count() == 1
    assert "Not worth it now" in desk.locator("#key").inner_text()


def test_without_such_a_block_the_key_has_no_line_for_it(
    open_page: Open, farm_made: Made, tmp_path: Path
) -> None:
    write_map(
        tmp_path / "map.html", **farm_made.parts(spray=replace(farm_made.spray, not_worth=()))
    )
    page = open_page(path=tmp_path / "map.html")
    assert "Not worth it now" not in page.locator("#key").inner_text()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_in_glare_letters_are_black_on_white(open_page: Open, size: dict[str, int]) -> None:
    page = open_page(size=size, contrast="more")
    page.locator("#list-spray tbody tr").first.click()
    colours = page.evaluate("""() => [...document.querySelectorAll(
        "#why .note, #why .facts, .lists .about, .key .range, #why .values")]
      .map((e) => getComputedStyle(e).color)""")
    assert set(colours) == {"rgb(0, 0, 0)"}
    assert page.evaluate("getComputedStyle(document.querySelector('.panel')).backgroundColor") == (
        "rgb(255, 255, 255)"
    )


def test_who_asked_for_less_motion_sees_the_map_jump(open_page: Open) -> None:
    page = open_page(reduced_motion="reduce")
    moved = page.evaluate("""() => {
      const { map } = mangoPage.app;
      const before = map.getZoom();
      document.querySelector(".leaflet-control-zoom-in").click();
      const jumped = map.getZoom() > before;
      const middle = map.getCenter().lng;
      map.panBy([80, 0]);
      return [jumped, map.getCenter().lng > middle, map._animatingZoom || false];
    }""")
    assert moved == [True, True, False]
