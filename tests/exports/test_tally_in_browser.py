"""A scout tallies on a phone; what the page saves is read by the farm's own reader."""

import csv
import io
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from geo.exports.tally_page import tally_html
from geo.pipeline.run import read
from tests.demo_run import FARM, demo_folder
from tests.exports.conftest import PHONE, Tab, Watch
from tests.exports.made import HOSTILE, made

LEAST_PIXELS = 44  # for a thumb


@pytest.fixture(scope="module")
def tally_file() -> Path:
    return demo_folder() / "tally.html"


@pytest.fixture
def page(tab: Tab) -> Page:
    return tab(viewport=PHONE, has_touch=True, is_mobile=True)


@pytest.fixture
def tally(page: Page, tally_file: Path) -> Iterator[Page]:
    page.set_default_timeout(10_000)
    watch = Watch(page)
    page.goto(tally_file.as_uri())
    page.wait_for_selector("html[data-painted]")
    page.fill("#date", "2026-02-18")
    yield page
    assert (watch.asked, watch.faults) == ([], [])


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def saved(page: Page) -> str:
    with page.expect_download() as download:
        page.click("#save")
    assert download.value.suggested_filename == "scouting-2026-02-18.csv"
    return Path(download.value.path()).read_text("utf-8")


def test_taps_outlive_a_reload_and_are_saved_as_rows_of_the_scouting_table(tally: Page) -> None:
    block = tally.input_value("#block")
    for _ in range(9):
        tally.tap("#without")
    tally.tap("#with")
    assert "10 of 10 panicles counted" in tally.inner_text("#says")
    tally.tap("#next")
    tally.tap("#with")
    tally.tap("#with")
    tally.tap("#undo")
    tally.select_option("#severity", "2")
    tally.select_option("#stage", "615")
    tally.reload()
    tally.wait_for_selector("html[data-painted]")
    tally.fill("#date", "2026-02-18")
    assert tally.inner_text("#tree").startswith("Tree 2")
    assert (tally.inner_text("#with-count"), tally.inner_text("#without-count")) == ("1", "0")
    (row,) = rows(saved(tally))
    assert re.fullmatch("t[0-9a-z]{8,12}", row.pop("look_id"))
    assert [row] == [
        {
            "date": "2026-02-18",
            "block_id": block,
            "disease": "powdery mildew on panicles",
            "inspected": "11",
            "infected": "2",
            "stage": "615",
            "trees": "2",
            "tree_counts": "1/10 1/1",
            "severity": "- 2",
        }
    ]


def test_the_saved_table_is_one_our_reader_takes(tally: Page, tmp_path: Path) -> None:
    folder = Path(shutil.copytree(FARM, tmp_path / "farm"))
    tally.select_option("#block", "B07")
    for kind in ("without", "with", "without"):
        tally.tap(f"#{kind}")
    text = saved(tally)
    (folder / "scouting.csv").write_text(text, "utf-8")
    farm, season = read(folder)
    assert not [issue for issue in farm.issues if issue.file == "scouting.csv"]
    found = season.visit_inspected.values.tolist(), season.visit_infected.values.tolist()
    assert found == ([3], [1])
    assert str(season.block.values[season.visit_block.values[0]]) == "B07"


def test_an_entry_saved_twice_counts_once_with_what_was_added_to_it(
    tally: Page, tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(FARM, tmp_path / "farm"))
    tally.select_option("#block", "B07")
    tally.tap("#without")
    first = saved(tally)
    tally.reload()
    tally.wait_for_selector("html[data-painted]")
    tally.fill("#date", "2026-02-18")
    tally.tap("#with")
    (folder / "scouting.csv").write_text(first + saved(tally).partition("\n")[2], "utf-8")
    farm, season = read(folder)
    (issue,) = (issue for issue in farm.issues if issue.file == "scouting.csv")
    assert (issue.code, issue.where) == ("E-TALLY-AGAIN", "scouting.csv row 2 column block_id")
    assert season.visit_inspected.values.tolist() == [2]
    assert season.visit_infected.values.tolist() == [1]


def test_the_page_works_by_keyboard_alone(tally: Page) -> None:
    tally.focus("#with")
    tally.keyboard.press("Enter")
    for key in ("1", "1", "2", "n", "1", "u"):
        tally.keyboard.press(key)
    tally.focus("#save")
    (row,) = rows(tally.input_value("#text"))
    assert (row["inspected"], row["infected"], row["trees"]) == ("4", "2", "1")
    # Keys that are typed into a field are no taps.
    tally.focus("#block")
    tally.keyboard.press("2")
    assert rows(tally.input_value("#text")) == [row]


def test_each_look_is_an_entry_of_its_own_and_may_be_removed(tally: Page) -> None:
    tally.tap("#with")
    tally.select_option("#disease", "powdery mildew on leaves")
    assert "leaves with mildew" in tally.inner_text("#with")
    tally.tap("#without")
    tally.fill("#date", "2026-02-19")
    tally.tap("#without")
    assert tally.locator("#entries li").count() == 3
    tally.locator("#entries button").first.tap()
    assert [row["date"] for row in rows(tally.input_value("#text"))] == ["2026-02-18", "2026-02-19"]
    tally.tap("#clear")
    assert tally.inner_text("#clear") == "Yes, remove all"
    tally.tap("#clear")
    assert tally.locator("#entries li").count() == 0
    assert tally.is_disabled("#save")


def test_nothing_is_tallied_without_a_date(tally: Page) -> None:
    tally.fill("#date", "")
    assert tally.is_disabled("#with")
    tally.keyboard.press("2")
    assert rows(tally.input_value("#text")) == []


def test_thumbs_hit_what_they_mean_to_and_nothing_is_cut_off(tally: Page) -> None:
    tally.tap("#with")
    for target in tally.locator("button:visible, select:visible, summary:visible").all():
        box = target.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= LEAST_PIXELS
    assert tally.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_what_cannot_be_kept_or_read_is_said_and_loses_nothing_else(
    page: Page, tally_file: Path
) -> None:
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new Error('shut'); } });"
    )
    page.goto(tally_file.as_uri())
    page.wait_for_selector("html[data-painted]")
    assert page.is_visible("#not-kept")
    page.tap("#with")
    assert len(rows(page.input_value("#text"))) == 1


def test_names_are_escaped_and_the_page_may_fetch_nothing() -> None:
    parts = made().parts()
    html = tally_html(farm=parts["farm"], risks=parts["risks"])
    assert html == tally_html(farm=parts["farm"], risks=parts["risks"])
    assert HOSTILE not in html
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', html)
    assert policy
    assert policy[1].startswith("default-src 'none'; script-src 'sha256-")
    assert " style=" not in html


def test_without_scripts_the_page_says_what_to_do(tab: Tab, tally_file: Path) -> None:
    page = tab(java_script_enabled=False)
    page.goto(tally_file.as_uri())
    assert "write a table with the columns date, block_id" in page.inner_text("main")
    assert not page.is_visible("#with")
