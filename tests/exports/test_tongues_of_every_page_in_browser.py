"""Does every page but the map hold in longer words, and written from right to left?"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from geo.pipeline import run
from geo.season.farm import Farm
from geo.texts import speaking
from tests.demo_run import ALL_PAGES, FARM, write_pages
from tests.exports.conftest import DESK, PHONE
from tests.made_languages import lengthened, mirrored

TONGUES = {"long": lengthened, "rtl": mirrored}
# The map has tests of its own.
PAGES = [name for name in ALL_PAGES if name != "block-map.html"]
# Words that stick out of the window, of their drawing or of the box in which they stand.
BROKEN = """() => {
  const broken = [];
  const { scrollWidth, clientWidth } = document.documentElement;
  if (scrollWidth > clientWidth) broken.push(["sideways", scrollWidth]);
  const scrolls = (e) => /auto|scroll/.test(getComputedStyle(e).overflowX);
  const isScrolled = (e) => {
    for (let up = e; up && up !== document.body; up = up.parentElement)
      if (scrolls(up)) return true;
    return false;
  };
  for (const text of document.querySelectorAll("svg text")) {
    const svg = text.ownerSVGElement;
    const isClipped = getComputedStyle(svg).overflowX !== "visible";
    const edge = (isClipped ? svg : svg.closest("td, th, main")).getBoundingClientRect();
    const box = text.getBoundingClientRect();
    const isIn = box.left >= edge.left - 1 && box.right <= edge.right + 1;
    if (!isIn) broken.push(["drawn", text.textContent]);
  }
  for (const e of document.querySelectorAll("body *")) {
    if (e.closest("svg, select, script, .unseen, .vh") || !e.checkVisibility()) continue;
    if (e.closest("details:not([open])") && !e.closest("summary")) continue;
    if (![...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim())) continue;
    const box = e.getBoundingClientRect();
    // An element that runs along in a line has no width of its own.
    const isCut = e.clientWidth && e.scrollWidth > e.clientWidth + 1 && !scrolls(e);
    const isOut = box.width && (box.left < -1 || box.right > innerWidth + 1) && !isScrolled(e);
    if (isCut || isOut) broken.push([e.tagName, e.className, e.textContent.slice(0, 60)]);
  }
  return broken;
}"""
# Headings and tables that do not begin at the right edge.
LEFT = """() => {
  const found = [];
  for (const e of document.querySelectorAll("h1, h2, h3")) {
    const words = document.createRange();
    words.selectNodeContents(e);
    const edge = e.getBoundingClientRect().right - words.getBoundingClientRect().right;
    if (Math.abs(edge) > 2) found.push([e.textContent, edge]);
  }
  for (const table of document.querySelectorAll("table")) {
    const [first] = table.querySelectorAll("th");
    if (!first || !first.checkVisibility()) continue;
    const edge = table.getBoundingClientRect().right - first.getBoundingClientRect().right;
    if (Math.abs(edge) > 2) found.push([first.textContent, edge]);
  }
  return found;
}"""
# Names of which the words round them would take the order: in no bdi, between no isolates and
# not alone in their element.
BARE = """(names) => {
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const { data, parentElement } = walker.currentNode;
    if (parentElement.closest("bdi, [dir=ltr], script, style, textarea")) continue;
    const rest = data.replace(/\\u2068[^\\u2069]*\\u2069/g, "");
    const isAlone = parentElement.childNodes.length === 1;
    for (const name of names)
      if (rest.includes(name) && !(isAlone && rest.trim() === name)) found.push(rest.trim());
  }
  return found;
}"""
# Dates, and signed numbers of their own, whose parts have changed places. What stands in a sentence
# of ours is for who translates it.
TURNED = """() => {
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  const at = (node, place) => {
    range.setStart(node, place);
    range.setEnd(node, place + 1);
    return range.getBoundingClientRect();
  };
  while (walker.nextNode()) {
    const node = walker.currentNode;
    if (!node.parentElement.checkVisibility()) continue;
    for (const one of node.data.matchAll(/\\d{4}-\\d\\d-\\d\\d|^\\s*[+\\u2212]\\d/g)) {
      const [first, last] = [at(node, one.index), at(node, one.index + one[0].length - 1)];
      if (first.top === last.top && first.left > last.left) found.push(node.data.trim());
    }
  }
  return found;
}"""
# Where the days beneath each drawing stand, in their order; and drawings that are mirrored.
AXES = """() => {
  const drawings = [...document.querySelectorAll("svg")];
  return {
    days: drawings.map((svg) => [...svg.querySelectorAll("text.day")]
      .map((day) => day.getBoundingClientRect().x)).filter((days) => days.length),
    mirrored: drawings.filter((svg) => getComputedStyle(svg).direction !== "ltr").length,
  };
}"""


@pytest.fixture(scope="session")
def folders(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Return for each made language a folder with every page of the demo, and what has a name."""
    made = {}
    for name, language in TONGUES.items():
        made[name] = tmp_path_factory.mktemp(name)
        with speaking(language()):
            outcome = run(FARM)
            write_pages(outcome, made[name])
        (made[name] / "names.txt").write_text("\n".join(names(outcome.farm)), "utf-8")
    return made


def names(farm: Farm) -> list[str]:
    """Return what the farm's people named."""
    tables = (farm.blocks, farm.neighbours, farm.places)
    named = {str(name) for table in tables for name in table["name"]}
    named |= {farm.name, *(sprayer.name for sprayer in farm.settings.sprayers)}
    return sorted(name for name in named if len(name) > 3)


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    opened = browser.new_page(viewport=DESK)
    yield opened
    opened.close()


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("tongue", TONGUES)
def test_no_words_are_cut_off_and_nothing_scrolls_sideways(
    page: Page, folders: dict[str, Path], tongue: str, name: str
) -> None:
    page.goto((folders[tongue] / name).as_uri())
    broken = {}
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        broken[size["width"]] = page.evaluate(BROKEN)
    assert broken == {DESK["width"]: [], PHONE["width"]: []}
    named = "[document.documentElement.lang, getComputedStyle(document.documentElement).direction]"
    language = TONGUES[tongue]()
    assert page.evaluate(named) == [language.tag, language.direction]


@pytest.mark.parametrize("name", PAGES)
def test_from_right_to_left_a_page_begins_at_the_right_and_time_still_runs_to_the_right(
    page: Page, folders: dict[str, Path], name: str
) -> None:
    page.set_viewport_size(DESK)
    page.goto((folders["rtl"] / name).as_uri())
    assert page.evaluate(LEFT) == []
    axes = page.evaluate(AXES)
    assert axes["mirrored"] == 0
    assert all(days == sorted(days) for days in axes["days"])
    assert bool(axes["days"]) == (name in {"season.html", "comparison.html", "blocks-by-day.html"})


# Unicode Standard Annex 9: what stands in an isolate changes no order outside it; behind Arabic
# letters the parts of 2026-02-18 change places, and a sign before a number goes behind it.
@pytest.mark.parametrize("name", PAGES)
def test_from_right_to_left_names_dates_and_signed_numbers_keep_their_order(
    page: Page, folders: dict[str, Path], name: str
) -> None:
    page.set_viewport_size(DESK)
    page.goto((folders["rtl"] / name).as_uri())
    named = (folders["rtl"] / "names.txt").read_text("utf-8").splitlines()
    assert "Large sprayer" in named
    assert page.evaluate(BARE, named) == []
    assert page.evaluate(TURNED) == []
