"""The page for everybody: phones, keyboards, readers of the screen, and scripts switched off."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.demo_run import demo_folder
from tests.exports.conftest import DESK, LYING, PHONE, Open, Tab

UNNAMED = """() => {
  const controls = "button,input,select,summary,a[href],[role=grid],[role=tab]";
  const name = (e) => e.getAttribute("aria-label") || e.textContent || "";
  return [...document.querySelectorAll(controls)]
    .filter((e) => !name(e).trim() && !(e.labels && e.labels.length))
    .map((e) => e.outerHTML.slice(0, 90));
}"""
SMALL_TARGETS = """() => {
  const targets = "button,input,select,summary,tbody tr,.leaflet-bar a";
  return [...document.querySelectorAll(targets)]
    .filter((e) => e.offsetParent !== null && !e.closest(".paper"))
    .map((e) => (["checkbox", "radio"].includes(e.type) ? e.closest("label") : e))
    .filter((e) => Math.min(e.offsetHeight, e.offsetWidth) < 40)
    .map((e) => e.outerHTML.slice(0, 90));
}"""
SMALL_LETTERS = """() => {
  const small = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const { data, parentElement } = walker.currentNode;
    if (!data.trim() || parentElement.closest("script,style,noscript,.paper,option")) continue;
    if (parseFloat(getComputedStyle(parentElement).fontSize) < 16) small.push(data);
  }
  return small;
}"""
SIDEWAYS = "() => document.documentElement.scrollWidth > document.documentElement.clientWidth"


def open_everything(page: Page) -> None:
    page.locator("#list-spray tbody tr").first.click()
    for summary in page.locator(".key summary, .layers summary").all():
        if summary.locator("xpath=..").get_attribute("open") is None:
            summary.click()


def test_a_phone_shows_the_map_above_the_list_and_never_scrolls_sideways(phone: Page) -> None:
    assert not phone.evaluate(SIDEWAYS)
    ground, panel = (phone.locator(part).bounding_box() for part in (".folium-map", ".panel"))
    assert ground is not None
    assert panel is not None
    assert ground["width"] == 390
    assert panel["y"] >= ground["y"] + ground["height"]
    for tab in ("#tab-scouting", "#tab-day", "#tab-spray"):
        phone.click(tab)
        assert not phone.evaluate(SIDEWAYS)
    phone.locator("#list-spray tbody tr").first.click()
    assert not phone.evaluate(SIDEWAYS)
    assert phone.evaluate("(({ scrollWidth, clientWidth }) => scrollWidth <= clientWidth)(why)")


def test_a_phone_on_its_side_shows_the_map_beside_the_list(open_page: Open) -> None:
    phone = open_page(size=LYING, has_touch=True, is_mobile=True)
    assert not phone.evaluate(SIDEWAYS)
    ground, panel = (phone.locator(part).bounding_box() for part in (".folium-map", ".panel"))
    assert ground is not None
    assert panel is not None
    assert ground["height"] > 0.6 * LYING["height"]
    assert panel["x"] == pytest.approx(ground["x"] + ground["width"], abs=2)
    assert phone.locator("#key").get_attribute("open") is None
    assert phone.evaluate(SMALL_LETTERS) == []
    # All that stands round the lists scrolls with them.
    phone.locator(".cautions").scroll_into_view_if_needed()
    box = phone.locator(".cautions").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= LYING["height"] + 1
    assert phone.evaluate("scrollY") == 0
    phone.locator("#list-spray tbody tr").first.click()
    assert not phone.evaluate(SIDEWAYS)
    assert ground == phone.locator(".folium-map").bounding_box()


def test_a_phone_shows_the_first_three_rows_before_anybody_scrolls(open_page: Open) -> None:
    phone = open_page(path=demo_folder() / "block-map.html", size=PHONE, is_mobile=True)
    box = phone.locator("#list-spray tbody tr").nth(2).bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= 844
    assert phone.evaluate("scrollY") == 0
    ground = phone.locator(".folium-map").bounding_box()
    assert ground is not None
    assert ground["height"] == pytest.approx(0.3 * 844, abs=2)
    # How old the data are, and what finds a block, stand above the list.
    tabs = phone.locator(".tabs").bounding_box()
    assert tabs is not None
    for part in (".age", "#find", ".switch"):
        above = phone.locator(part).first.bounding_box()
        assert above is not None
        assert above["y"] + above["height"] <= tabs["y"]
    # What was moved away for them is still on the page.
    for part in (".cautions", ".data summary"):
        phone.locator(part).first.scroll_into_view_if_needed()
        assert phone.locator(part).first.is_visible()


def test_the_words_of_each_day_stay_within_its_column(desk: Page) -> None:
    overhang = desk.evaluate("""() => [...document.querySelectorAll(".column")].map((column) => {
      const range = document.createRange();
      range.selectNodeContents(column.querySelector(".weekday"));
      const [words, frame] = [range.getBoundingClientRect(), column.getBoundingClientRect()];
      return Math.max(frame.left - words.left, words.right - frame.right);
    })""")
    assert max(overhang) <= 1


def test_a_phone_has_large_letters_and_targets(phone: Page) -> None:
    open_everything(phone)
    # A phone has room for the layers or the key.
    for part in (".layers", ".key"):
        if phone.locator(part).get_attribute("open") is None:
            phone.click(f"{part} summary")
        assert phone.evaluate(SMALL_TARGETS) == []
        assert phone.evaluate(SMALL_LETTERS) == []


@pytest.mark.parametrize("size", [DESK, PHONE, LYING], ids=["desk", "phone", "lying"])
def test_what_unfolds_over_the_map_stays_on_it(open_page: Open, size: dict[str, int]) -> None:
    page = open_page(size=size)
    ground = page.locator(".folium-map").bounding_box()
    assert ground is not None
    for part, other in ((".layers", ".key"), (".key", ".layers")):
        if page.locator(part).get_attribute("open") is None:
            page.click(f"{part} summary")
        box = page.locator(part).bounding_box()
        assert box is not None
        assert box["y"] >= ground["y"]
        assert box["y"] + box["height"] <= ground["y"] + ground["height"]
        assert box["x"] >= ground["x"]
        assert box["x"] + box["width"] <= ground["x"] + ground["width"]
        page.wait_for_timeout(50)
        both = page.locator(other).get_attribute("open") is not None
        assert both == (size == DESK)


def test_the_card_on_a_phone_takes_the_focus_and_gives_it_back(phone: Page) -> None:
    phone.locator("#list-spray tbody tr").first.click()
    assert phone.evaluate("document.activeElement.id") == "why"
    phone.locator("#why .close").click()
    assert phone.locator("#why").is_hidden()
    assert phone.evaluate("document.activeElement.closest('tr') !== null")


def test_every_control_has_a_name(desk: Page) -> None:
    open_everything(desk)
    assert desk.evaluate(UNNAMED) == []


def test_the_cautions_and_the_honesty_level_are_always_in_sight(desk: Page) -> None:
    for part in (".cautions", ".honesty", ".age", ".made"):
        assert desk.locator(part).is_visible()
    box = desk.locator(".cautions").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= 800
    assert "the label is the law" in desk.locator(".cautions").inner_text().lower()
    assert "14:00 on Wed 14 Aug" in desk.locator(".age").inner_text()
    assert "2 days ago" in desk.locator(".age").inner_text()


def test_the_skip_link_leads_to_the_lists(desk: Page) -> None:
    desk.keyboard.press("Tab")
    while desk.evaluate("document.activeElement.className") != "skip":
        desk.keyboard.press("Tab")
    desk.keyboard.press("Enter")
    assert desk.evaluate("document.activeElement.id") == "lists"


def test_focus_can_be_seen(desk: Page) -> None:
    desk.keyboard.press("Tab")
    desk.focus("#find")
    outline = desk.evaluate("getComputedStyle(document.getElementById('find')).outlineWidth")
    assert outline == "3px"


def test_with_scripts_off_a_drawing_and_both_tables_stand_there(open_page: Open) -> None:
    page = open_page(java_script_enabled=False)
    assert page.locator(".paper svg.drawing").is_visible()
    assert page.locator(".folium-map").is_hidden()
    assert page.locator(".panel").is_hidden()
    paper = page.locator(".paper").inner_text()
    for words in ("Spray order, for sulfur", "Cannot now", "Scouting order", "label is the law"):
        assert words in paper
    assert "<img src=x onerror=alert(1)>" in paper
    assert "{{ 7 * 7 }}</script><b>" in paper
    assert page.locator(".paper svg.drawing .ids text").count() == 12
    assert "still version" in paper


def test_a_page_whose_data_are_broken_falls_back_to_the_still_version(
    tab: Tab, map_file: Path, tmp_path: Path
) -> None:
    broken = tmp_path / "broken.html"
    broken.write_text(re.sub(r'"days":\{', '"daze":{', map_file.read_text("utf-8")), "utf-8")
    page = tab()
    page.goto(broken.as_uri())
    page.wait_for_selector("html:not(.live)")
    assert page.locator(".paper svg.drawing").is_visible()


# CSS Color Adjustment Module Level 1, section 3.1: the device's colours replace those of a page.
def test_what_is_chosen_can_be_told_in_the_colours_of_the_device(open_page: Open) -> None:
    page = open_page(forced_colors="active")
    seen = """([on, off, which]) => [on, off].map((one) =>
      getComputedStyle(document.querySelector(one))[which])"""
    for chosen, other, which in (
        (".switch [aria-pressed=true]", ".switch [aria-pressed=false]", "backgroundColor"),
        (".tabs [aria-selected=true]", ".tabs [aria-selected=false]", "borderBottomColor"),
    ):
        on, off = page.evaluate(seen, [chosen, other, which])
        assert on != off, chosen
    parts = page.evaluate(
        """() => [...document.querySelectorAll(".stack .part")].map((part) =>
          getComputedStyle(part).backgroundColor)"""
    )
    assert len(set(parts)) > 1
