"""Does the map page hold in other languages: longer words, other letters, the other direction?"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Page

from geo.exports.map_page import write_map
from geo.exports.page_data import page_data
from geo.exports.page_windows import windows_data
from geo.texts import Language, speaking
from tests.exports import made as made_farm
from tests.exports.conftest import DESK, LYING, PHONE, Open
from tests.exports.made import Made, made
from tests.made_languages import bracketed, lengthened, mirrored, unsaid

TONGUES: dict[str, Callable[[], str | Language]] = {
    "es": lambda: "es",
    "long": lengthened,
    "rtl": mirrored,
}
SIZES = {"desk": DESK, "phone": PHONE, "lying": LYING}
# Words that stick out of the window, or are cut off by the box in which they stand. A choice from
# a list may be cut short: the list says it in full.
BROKEN = """() => {
  const broken = [];
  const { scrollWidth, clientWidth } = document.documentElement;
  if (scrollWidth > clientWidth) broken.push(["sideways", scrollWidth]);
  for (const text of document.querySelectorAll(".card svg text")) {
    const edge = text.ownerSVGElement.getBoundingClientRect();
    const box = text.getBoundingClientRect();
    const isIn = box.left >= edge.left - 1 && box.right <= edge.right + 1;
    if (!isIn) broken.push(["drawn", text.textContent]);
  }
  // A class of one word stands on one line.
  for (const chip of document.querySelectorAll("main .chip, .card .chip")) {
    const range = document.createRange();
    range.selectNodeContents(chip.lastChild);
    const word = range.toString().trim();
    if (!/\\s/.test(word) && range.getClientRects().length > 1) broken.push(["split", word]);
  }
  for (const e of document.querySelectorAll("body *")) {
    if (e.closest("svg, select, .leaflet-pane, .unseen, .paper, .skip")) continue;
    if (!e.checkVisibility()) continue;
    if (e.closest("details:not([open])") && !e.closest("summary")) continue;
    if (![...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim())) continue;
    const box = e.getBoundingClientRect();
    const isCut = getComputedStyle(e).overflowX !== "visible" && e.scrollWidth > e.clientWidth + 1;
    const isOut = box.left < -1 || box.right > innerWidth + 1;
    if (isCut || isOut) broken.push([e.className, e.textContent.slice(0, 60)]);
  }
  return broken;
}"""
TEXTS = """() => {
  const found = [];
  const names = ["aria-label", "title", "placeholder", "aria-valuetext"];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const { data, parentElement } = walker.currentNode;
    if (!parentElement.closest("script, style, .paper, .data, .reason")) found.push(data);
  }
  for (const e of document.querySelectorAll("[aria-label], [title], [placeholder]"))
    if (!e.closest(".paper")) found.push(...names.map((name) => e.getAttribute(name) || ""));
  return found;
}"""


def written(path: Path, tongue: str | Language, one: Made | None = None) -> Path:
    with speaking(tongue):
        write_map(path, **(one or made()).parts())
    return path


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("tongues")
    return {name: written(folder / f"{name}.html", said()) for name, said in TONGUES.items()}


def walk_through(page: Page) -> list[tuple[str, object]]:
    """Return what is broken in any of the lists, the layers, the card and the two side by side."""
    found = []

    def look(where: str) -> None:
        # The strip of days is fitted once its columns have their size.
        page.evaluate("new Promise((done) => requestAnimationFrame(() => setTimeout(done)))")
        found.extend((where, one) for one in page.evaluate(BROKEN))

    for tab in ("spray", "scouting", "day"):
        page.click(f"#tab-{tab}")
        look(tab)
    # One after the other: a phone has room for one.
    page.evaluate("document.querySelector('.key').open = true")
    look("key")
    page.evaluate("document.querySelector('.layers').open = true")
    page.evaluate("document.querySelector('#ground input[value=last_night]').click()")
    look("layers")
    page.evaluate("document.querySelector('.layers').open = false")
    page.evaluate("mangoPage.app.choose(0, 'list')")
    look("card")
    page.evaluate("for (const one of why.querySelectorAll('details')) one.open = true")
    look("factors")
    page.evaluate("document.querySelector('.open-beside').click()")
    look("beside")
    return found


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("tongue", TONGUES)
def test_no_words_are_cut_off_and_nothing_scrolls_sideways(
    open_page: Open, pages: dict[str, Path], tongue: str, size: str
) -> None:
    page = open_page(path=pages[tongue], size=SIZES[size])
    assert walk_through(page) == []


@pytest.mark.parametrize(
    ("tongue", "lang", "direction"),
    [("es", "es", ""), ("long", "en-XA", ""), ("rtl", "ar-XB", "rtl")],
)
def test_a_page_names_its_language_and_its_direction(
    open_page: Open, pages: dict[str, Path], tongue: str, lang: str, direction: str
) -> None:
    page = open_page(path=pages[tongue])
    assert page.evaluate("[document.documentElement.lang, document.documentElement.dir]") == [
        lang,
        direction,
    ]


# Abbreviated days of the Unicode locale data (CLDR) for Spanish, as in its chart.
def test_days_are_in_spanish(open_page: Open, pages: dict[str, Path]) -> None:
    page = open_page(path=pages["es"])
    assert page.locator(".columns .weekday").all_inner_texts()[-5:] == [
        "mar",
        "hoy",
        "jue",
        "vie",
        "sáb",
    ]
    assert page.locator("#day-says strong").inner_text() == "mié, 14 ago, hoy"
    page.locator("#day").press("ArrowLeft")
    assert page.locator("#day-says strong").inner_text() == "mar, 13 ago"
    assert page.locator("#day").get_attribute("aria-valuetext") == "mar, 13 ago"
    page.evaluate("mangoPage.app.choose(0, 'list')")
    assert page.locator(".hour-strip text").first.inner_html() == "mié 14"


def test_from_right_to_left_the_page_is_mirrored_and_its_axes_are_not(
    open_page: Open, pages: dict[str, Path]
) -> None:
    page = open_page(path=pages["rtl"])
    boxes = page.evaluate(
        """() => Object.fromEntries([".panel", ".folium-map", "#key", "#tab-spray", "#tab-day",
          ".leaflet-control-zoom", ".column.today", ".column.forecast"].map((one) =>
          [one, document.querySelector(one).getBoundingClientRect().x]))"""
    )
    assert boxes[".panel"] < boxes[".folium-map"] < boxes["#key"]
    assert boxes["#tab-day"] < boxes["#tab-spray"]
    assert boxes[".folium-map"] + 300 < boxes[".leaflet-control-zoom"]
    assert boxes[".column.today"] < boxes[".column.forecast"]
    page.locator("#tab-spray").press("ArrowLeft")
    assert page.locator("#tab-scouting").get_attribute("aria-selected") == "true"
    before = page.locator("#day").input_value()
    page.locator("#day").press("ArrowLeft")
    assert int(page.locator("#day").input_value()) == int(before) - 1
    page.evaluate("mangoPage.app.choose(0, 'list')")
    for part in (
        ".chart",
        ".hour-strip",
        ".hours input",
        ".factor-row .track",
        ".leaflet-container",
    ):
        direction = "(e) => getComputedStyle(e).direction"
        assert page.locator(part).first.evaluate(direction) == "ltr", part


def test_from_right_to_left_the_farm_is_shown_beside_its_key(
    open_page: Open, pages: dict[str, Path]
) -> None:
    page = open_page(path=pages["rtl"])
    rightmost, key = page.evaluate(
        """() => { const { app } = mangoPage; const box = mangoPage.wholeBox(app.outlines);
          const frame = app.map.getContainer().getBoundingClientRect();
          const corner = app.map.latLngToContainerPoint(app.map.unproject([box[2], box[1]], 0));
          const key = document.getElementById("key").getBoundingClientRect();
          return [frame.x + corner.x, key.x]; }"""
    )
    assert rightmost < key


# Unicode Standard Annex 9: without isolates a number that follows such a name joins its run, and
# stands on the wrong side of it.
def test_a_name_in_arabic_letters_leaves_the_words_round_it_in_their_order(
    open_page: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = "حوض الشمال"
    monkeypatch.setitem(made_farm.NAMES, "B01", name)
    one = made()
    one = replace(one, farm=replace(one.farm, name="مزرعة الوادي 2"))
    page = open_page(path=written(tmp_path / "names.html", "en", one))
    page.evaluate("mangoPage.app.choose(0, 'list')")
    said = page.evaluate(
        """() => [mangoPage.phrase("{block} index {index}", { block: "حوض", index: "0.4" }),
          mangoPage.phrase("{block} index {index}", { block: "B01", index: "0.4" })]"""
    )
    assert said == ["\u2068حوض\u2069 index 0.4", "B01 index 0.4"]
    assert page.locator("#why h2").inner_text() == name
    left, right = page.evaluate(
        """() => {
          const options = document.createElement("p");
          options.append(mangoPage.phrase("{block}: {value}", { block: "حوض", value: "7 ha" }));
          document.body.append(options);
          const at = (from, to) => { const range = document.createRange();
            range.setStart(options.firstChild, from); range.setEnd(options.firstChild, to);
            return range.getBoundingClientRect().x; };
          const text = options.textContent;
          return [at(1, 4), at(text.indexOf("7"), text.indexOf("7") + 1)]; }"""
    )
    assert left < right


def test_every_word_of_the_scripts_and_the_panel_is_said(open_page: Open, tmp_path: Path) -> None:
    one = made()
    page = open_page(path=written(tmp_path / "bracketed.html", bracketed(), one))
    texts = set()
    for tab in ("spray", "scouting", "day"):
        page.click(f"#tab-{tab}")
        texts |= set(page.evaluate(TEXTS))
    blocks = page.evaluate("mangoPage.app.outlines.count")
    for block in range(blocks):
        page.evaluate("(block) => mangoPage.app.choose(block, 'list')", block)
        texts |= set(page.evaluate(TEXTS))
    page.evaluate("document.querySelector('.open-beside').click()")
    texts |= set(page.evaluate(TEXTS))
    # What users named, what the made orders say, and days.
    with speaking(bracketed()):
        known = [*strings(page_data(one.farm, one.parts()["risks"]))]
        known += strings(windows_data(one.windows))
    told = " ".join(unsaid(text) for text in known)
    words = {word for text in texts for word in re.findall(r"[^\W\d_]{3,}", unsaid(text))}
    assert {word for word in words if word not in told} <= {"acre", "FRAC"}


def strings(data: object) -> Iterator[str]:
    """Return every text in data, however deep."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, Mapping):
        for part in data.values():
            yield from strings(part)
    elif isinstance(data, list | tuple | np.ndarray):
        for part in data:
            yield from strings(part)
