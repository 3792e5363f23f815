"""The pages in the other browser: they open, ask for nothing, and say what Chromium says."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.demo_run import ALL_PAGES, pages_folder
from tests.exports.conftest import DESK, PHONE, Open
from tests.exports.firefox import Firefox
from tests.exports.test_map_in_browser import CENTRE_OF_BLOCK, COLOUR_AT

# Firefox is spoken to through a socket of this machine; every other address stays shut.
pytestmark = pytest.mark.allow_hosts(["127.0.0.1"])

SIZES = {"desk": DESK, "phone": PHONE}
WITH_SCRIPTS = ("block-map.html", "tally.html")
# What is in sight, without the gaps that each browser sets between boxes in its own way; of a
# choice only what is chosen.
WORDS = """() => ["main", "#day-says", "#key", "#live", "#why"].map((part) => {
  const walker = document.createTreeWalker(document.querySelector(part), NodeFilter.SHOW_TEXT);
  let words = "";
  while (walker.nextNode()) {
    const { data, parentElement: around } = walker.currentNode;
    const option = around.closest("option");
    const shown = option ? option.selected && option.parentElement : around;
    if (shown && shown.checkVisibility()) words += data.replace(/\\s+/g, "");
  }
  return words;
})"""
FIRST_LINES = """() => [...document.querySelectorAll("h1, h2, th, td")]
  .filter((part) => part.checkVisibility())
  .map((part) => part.innerText.replace(/\\s+/g, ""))"""
# What follows the size of a part is told once the frame has been laid out.
SETTLED = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
FOCUS = "(selector) => document.querySelector(selector).focus()"
HAS_TEXT = """() => document.body.innerText.trim().length > 200
  && document.querySelector("h1").checkVisibility()"""
SIDEWAYS = "() => document.documentElement.scrollWidth - innerWidth"

Step = Callable[[Firefox], None] | Callable[["Chromium"], None]


@pytest.fixture(scope="module")
def firefox(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    opened = Firefox(tmp_path_factory.mktemp("firefox"))
    yield opened
    opened.close()


class Chromium:
    """The same few deeds in the browser of the other tests."""

    def __init__(self, page: Page) -> None:
        self.press = page.keyboard.press
        self.click_at = page.mouse.click
        self.click = lambda selector: page.locator(selector).first.click()
        self.evaluate = lambda function, *arguments: page.evaluate(
            f"(all) => ({function})(...all)", list(arguments)
        )


def show(firefox: Firefox, path: Path, size: dict[str, int] = DESK) -> None:
    firefox.open(path, (size["width"], size["height"]))
    if path.name in WITH_SCRIPTS:
        firefox.wait_for("html[data-painted]")


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES.keys())
@pytest.mark.parametrize("name", ALL_PAGES)
def test_every_page_opens_in_firefox_and_asks_for_nothing(
    firefox: Firefox, name: str, size: dict[str, int]
) -> None:
    show(firefox, pages_folder() / name, size)
    assert firefox.evaluate(HAS_TEXT)
    assert firefox.evaluate(SIDEWAYS) <= 0
    assert (firefox.asked, firefox.faults) == ([], [])


def test_no_page_is_left_out() -> None:
    assert sorted(path.name for path in pages_folder().glob("*.html")) == ALL_PAGES


def test_what_a_page_asks_for_and_what_goes_wrong_in_it_is_seen(
    firefox: Firefox, tmp_path: Path
) -> None:
    planted = tmp_path / "planted.html"
    planted.write_text(
        "<!doctype html><img src='https://example.invalid/a.png'>"
        "<script>console.error('said'); setTimeout(() => { throw new Error('thrown') })</script>",
        "utf-8",
    )
    firefox.open(planted, (390, 844))
    # Nothing answers: the picture has no size, and the wait below ends with the fault.
    firefox.evaluate("() => new Promise((done) => setTimeout(done, 50))")
    assert firefox.asked == ["https://example.invalid/a.png"]
    assert [words.split(":")[0] for words in firefox.faults] == ["error", "error"]
    assert "said" in firefox.faults[0]
    assert "thrown" in firefox.faults[1]
    assert firefox.evaluate("() => document.images[0].naturalWidth") == 0
    fetched = "() => fetch('http://127.0.0.1/').then(() => 'answered', () => 'shut')"
    assert firefox.evaluate(fetched) == "shut"


def choose_on_the_map(driven: Firefox | Chromium) -> None:
    driven.click_at(*driven.evaluate(CENTRE_OF_BLOCK, "B15"))


def other_units(driven: Firefox | Chromium) -> None:
    driven.click("[data-unit=temperature][value=F]")
    driven.click("[data-unit=area][value=acre]")


def focus_and_press(selector: str, *keys: str) -> Step:
    def deed(driven: Firefox | Chromium) -> None:
        driven.evaluate(FOCUS, selector)
        for key in keys:
            driven.press(key)

    return deed


# On a phone the card lies over the lists: what is below it is asked for once it is closed.
STEPS: dict[str, Step] = {
    "as opened": lambda _: None,
    "block on the map": choose_on_the_map,
    "day before": focus_and_press("#day", "ArrowLeft"),
    "last day": focus_and_press("#day", "End"),
    "side by side": lambda driven: driven.click(".open-beside"),
    "the second block": focus_and_press("[data-side='1']", "ArrowDown"),
    "back to the card": focus_and_press(".back", "Escape"),
    "card closed": lambda driven: driven.press("Escape"),
    "list of the day": lambda driven: driven.click("#tab-day"),
    "next disease": focus_and_press("#disease", "ArrowDown"),
    "other units": other_units,
    "scouting by arrow": focus_and_press("#tab-day", "ArrowLeft"),
    "third row": lambda driven: driven.click("#list-scouting tbody tr:nth-child(3)"),
}


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES.keys())
def test_the_map_says_in_firefox_what_it_says_in_chromium(
    firefox: Firefox, open_page: Open, size: dict[str, int]
) -> None:
    path = pages_folder() / "block-map.html"
    show(firefox, path, size)
    chromium = Chromium(open_page(path=path, size=size))
    before = None
    for name, deed in STEPS.items():
        deed(firefox)
        deed(chromium)
        firefox.evaluate(SETTLED)
        chromium.evaluate(SETTLED)
        said = firefox.evaluate(WORDS)
        assert said == chromium.evaluate(WORDS), name
        # A step that did nothing would prove little.
        assert said != before, name
        before = said
    assert (firefox.asked, firefox.faults) == ([], [])


def test_the_map_is_painted_in_the_same_colours(firefox: Firefox, open_page: Open) -> None:
    path = pages_folder() / "block-map.html"
    show(firefox, path)
    chromium = Chromium(open_page(path=path))
    for block in ("B01", "B08", "B12", "B21"):
        seen = []
        for driven in (firefox, chromium):
            x, y = driven.evaluate(CENTRE_OF_BLOCK, block)
            seen.append(driven.evaluate(COLOUR_AT, [x - 14, y + 10]))
        assert seen[0] == pytest.approx(seen[1], abs=4)
        assert seen[0][3] > 200


@pytest.mark.parametrize("name", [name for name in ALL_PAGES if name not in WITH_SCRIPTS])
def test_a_still_page_shows_the_same_words_in_both(
    firefox: Firefox, open_page: Open, name: str
) -> None:
    path = pages_folder() / name
    show(firefox, path, PHONE)
    page = open_page(path=path, size=PHONE, java_script_enabled=False)
    assert firefox.evaluate(FIRST_LINES) == page.evaluate(FIRST_LINES)


def test_a_tally_is_kept_in_firefox_until_the_page_is_opened_again(firefox: Firefox) -> None:
    path = pages_folder() / "tally.html"
    show(firefox, path, PHONE)
    for button in ("#without", "#without", "#with", "#undo", "#with"):
        firefox.click(button)
    kept = "() => ['without', 'with'].map((id) => document.getElementById(id + '-count').innerText)"
    assert firefox.evaluate(kept) == ["2", "1"]
    firefox.press("2")
    firefox.reload()
    firefox.wait_for("html[data-painted]")
    assert firefox.evaluate(kept) == ["2", "2"]
    assert "2of4" in firefox.evaluate("() => entries.innerText.replace(/\\s/g, '')")
    assert (firefox.asked, firefox.faults) == ([], [])
