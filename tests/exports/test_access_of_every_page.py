"""Every page for everybody: a phone in the sun, a keyboard alone, and names as long as can be."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.demo_run import ALL_PAGES, pages_folder
from tests.exports.conftest import DESK, PHONE, Tab

WITH_SCRIPTS = ("block-map.html", "tally.html")
LEAST_LETTER = 16  # common practice: what is read at arm's length on a phone
LEAST_TARGET = 24  # WCAG 2.2, 2.5.8
# Letters within drawings are part of the drawing: they grow with it when it is zoomed.
SMALL_LETTERS = """(least) => {
  const small = new Set();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const { data, parentElement: around } = walker.currentNode;
    if (!data.trim() || around.closest("script,style,option,svg,.leaflet-container")) continue;
    if (!around.checkVisibility()) continue;
    if (parseFloat(getComputedStyle(around).fontSize) < least) small.add(around.outerHTML);
  }
  return [...small];
}"""
SMALL_TARGETS = """(least) => [...document.querySelectorAll(
    "a[href], button, input, select, summary, textarea, tr[tabindex], [role=tab]")]
  .filter((found) => found.checkVisibility())
  .map((found) => (["checkbox", "radio"].includes(found.type) ? found.closest("label") : found))
  .filter((found) => {
    const { width, height } = found.getBoundingClientRect();
    return Math.min(width, height) < least;
  })
  .map((found) => found.outerHTML.slice(0, 90))"""
UNNAMED = """() => {
  const named = (e) => [
    e.getAttribute("aria-label"),
    (document.getElementById(e.getAttribute("aria-labelledby")) || {}).textContent,
    e.labels && [...e.labels].map((label) => label.textContent).join(),
    e.getAttribute("role") === "region" || e.getAttribute("role") === "img" ? "" : e.textContent,
  ].some((words) => words && words.trim());
  return [...document.querySelectorAll(
      "a[href], button, input, select, summary, textarea, nav, [role=img], [role=region]")]
    .filter((e) => e.checkVisibility() && !named(e))
    .map((e) => e.outerHTML.slice(0, 90));
}"""
REACHABLE = """() => [...document.querySelectorAll(
    "a[href], button, input, select, summary, textarea, [tabindex='0']")]
  .filter((e) => e.checkVisibility() && !e.disabled && e.tabIndex >= 0 && e.type !== "radio")
  .length"""
FOCUS = """() => {
  const found = document.activeElement;
  if (found === document.body) return null;
  window.seen = window.seen || new Map();
  if (!window.seen.has(found)) window.seen.set(found, window.seen.size);
  const style = getComputedStyle(found);
  const ring = style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth);
  return { place: window.seen.get(found), ring, tag: found.outerHTML.slice(0, 90),
           isChoice: found.type === "radio" };
}"""
SIDEWAYS = "() => document.documentElement.scrollWidth - innerWidth"
COLOURS = """() => [...document.querySelectorAll("p, li, dt, dd, th, td, label, h1, h2, h3")]
  .filter((e) => e.checkVisibility() && e.textContent.trim() && !e.closest("svg"))
  .map((e) => getComputedStyle(e).color.match(/[0-9.]+/g).slice(0, 3).map(Number))"""


@pytest.fixture
def opened(tab: Tab) -> Callable[..., Page]:
    def opener(path: Path, size: dict[str, int], **settings: object) -> Page:
        page = tab(viewport=size, **settings)
        page.goto(path.as_uri())
        if path.name in WITH_SCRIPTS and settings.get("java_script_enabled", True):
            page.wait_for_selector("html[data-painted]")
        return page

    return opener


@pytest.mark.parametrize("name", ALL_PAGES)
def test_on_a_phone_letters_and_targets_are_large(name: str, opened) -> None:
    page = opened(pages_folder() / name, PHONE)
    assert page.evaluate(SMALL_LETTERS, LEAST_LETTER) == []
    assert page.evaluate(SMALL_TARGETS, LEAST_TARGET) == []


@pytest.mark.parametrize("name", ALL_PAGES)
def test_whoever_hears_the_page_is_told_what_each_thing_is(name: str, opened) -> None:
    page = opened(pages_folder() / name, DESK)
    assert page.evaluate(UNNAMED) == []
    assert page.evaluate("document.documentElement.lang") == "en"
    assert page.title()
    assert page.locator("h1:visible").count() >= 1


@pytest.mark.parametrize("name", ALL_PAGES)
def test_keys_alone_reach_everything_and_show_where_they_are(name: str, opened) -> None:
    page = opened(pages_folder() / name, DESK)
    places, wanted = [], page.evaluate(REACHABLE)
    # A date takes a press for each of its parts, and one for its calendar.
    for _ in range(wanted + 8):
        page.keyboard.press("Tab")
        found = page.evaluate(FOCUS)
        if found is None:
            break
        assert found["ring"] >= 2, found["tag"]
        places.append(found["place"])
    assert len(set(places)) == wanted
    # In the order of the page: nothing is come back to before the end.
    assert places == sorted(places)


def test_the_first_key_leaps_over_the_map(opened) -> None:
    page = opened(pages_folder() / "block-map.html", DESK)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "lists"


@pytest.mark.parametrize("name", ALL_PAGES)
def test_asked_for_more_contrast_words_are_nearly_black(name: str, opened) -> None:
    page = opened(pages_folder() / name, PHONE, contrast="more")
    dark = [(0, 0, 0), (0, 40, 29), (0, 58, 94)]  # and the two colours of what can be pressed
    white = (255, 255, 255)
    found = {tuple(colour) for colour in page.evaluate(COLOURS)}
    assert found <= {*dark, white}


def with_long_names(name: str, folder: Path) -> Path:
    """Return a page of the same farm, had its people liked long names."""
    html = (pages_folder() / name).read_text("utf-8")
    for short, long in (("Made Valley Farm", "M" * 90), ("South spur three", "S" * 90)):
        html = html.replace(short, long)
    path = folder / name
    path.write_text(re.sub(r"\bB24\b", "B" + "2" * 40, html), "utf-8")
    return path


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
@pytest.mark.parametrize("name", ALL_PAGES)
def test_no_name_is_long_enough_to_widen_a_page(
    name: str, size: dict[str, int], opened, tmp_path: Path
) -> None:
    path = with_long_names(name, tmp_path)
    page = opened(path, size)
    assert page.evaluate(SIDEWAYS) <= 0
    if name == "block-map.html":
        for press in ("#list-spray tbody tr >> nth=0", ".open-beside"):
            page.click(press)
            assert page.evaluate("why.scrollWidth <= why.clientWidth")
    assert opened(path, size, java_script_enabled=False).evaluate(SIDEWAYS) <= 0
