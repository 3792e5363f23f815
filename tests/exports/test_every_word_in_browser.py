"""Does every word of ours go through the catalogue? In brackets stands what does; names do not."""

import csv
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from playwright.sync_api import Page

from geo.pipeline import run
from geo.pipeline.today import today_of, write_today
from geo.reference.number import read_rows
from geo.texts import speaking
from tests.demo_run import FARM
from tests.exports.conftest import DESK, Tab
from tests.made_languages import bracketed, unsaid

# Abbreviations and symbols that are the same in every language.
SYMBOLS = frozenset({"acre", "BBCH", "FRAC", "CSV", "GPX", "SVG", "PNG", "Delta", "degC"})
# Texts and names that a person is shown or told, wherever they stand.
SHOWN = """() => {
  // What readers without scripts see is only text to a browser that runs them.
  for (const still of document.querySelectorAll("noscript")) still.outerHTML = still.textContent;
  const found = [document.title];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const { data, parentElement } = walker.currentNode;
    if (parentElement && !parentElement.closest("script, style")) found.push(data);
  }
  const told = ["aria-label", "title", "placeholder", "alt"];
  for (const name of told) {
    const named = document.querySelectorAll(`[${name}]`);
    found.push(...Array.from(named, (element) => element.getAttribute(name)));
  }
  return found;
}"""
_KEPT: list[TemporaryDirectory[str]] = []


@cache
def in_brackets() -> Path:
    """Return a folder with a day's outputs in which every said sentence stands in brackets."""
    _KEPT.append(TemporaryDirectory(prefix="said"))
    folder = Path(_KEPT[-1].name)
    with speaking(bracketed()):
        outcome = run(FARM)
        write_today(outcome, today_of(outcome, walk_hours=2.0), folder)
    return folder


@cache
def names() -> list[str]:
    """Return what users wrote and what is cited, longest first: data, in no language of ours."""
    outcome = run(FARM)
    farm = outcome.farm
    found = {farm.name, *map(str, farm.blocks["cultivar"]), *map(str, farm.blocks["name"])}
    for table in (farm.neighbours, farm.places):
        found |= set(map(str, table["name"]))
    found |= {sprayer.name for sprayer in farm.settings.sprayers}
    for row in read_rows("sources"):
        found |= {row["citation"], row["locator"]}
    for path in FARM.glob("*.csv"):
        with path.open(encoding="utf-8") as lines:
            found |= {cell for row in csv.DictReader(lines) for cell in row.values() if cell}
    for share in map(str, farm.blocks["cultivar"]):
        found |= set(re.findall(r"[A-Z][a-z]+(?: [A-Z][a-z]+)*", share))
    return sorted(
        (name for name in found if re.search(r"[A-Za-z]{3}", name)), key=len, reverse=True
    )


def left_over(texts: list[str]) -> set[str]:
    """Return the words that nobody said and that are no names."""
    # Together, as a sentence with markup inside runs on through several of them.
    lines = unsaid("\n".join(texts)).split("\n")
    words = (_without_names(line) for line in lines if re.search(r"[a-z]{3}", line))
    return {" ".join(found) for found in words if found}


def _without_names(line: str) -> list[str]:
    for name in names():
        line = line.replace(name, " ")
    line = re.sub(r"\bE-[A-Z-]+\b|\S+\.(csv|html|json|toml|xlsx|gpkg|tif|pdf|gpx)\b", " ", line)
    return [word for word in re.findall(r"[A-Za-z]{3,}", line) if word not in SYMBOLS]


def views(page: Page) -> Iterator[list[str]]:
    """Yield what is shown as a reader goes through a page."""
    yield page.evaluate(SHOWN)
    if not page.locator("#tab-spray").count():
        return
    page.wait_for_selector("html[data-painted]")
    for tab in ("#tab-scouting", "#tab-day", "#tab-spray"):
        page.click(tab)
        yield page.evaluate(SHOWN)
    for block in range(3):
        page.locator("#list-spray tbody tr").nth(block).click()
        page.wait_for_selector("#why:not([hidden])")
        yield page.evaluate(SHOWN)
    page.locator(".open-beside").click()
    yield page.evaluate(SHOWN)


PAGES = (
    "block-map.html",
    "blocks-by-day.html",
    "season.html",
    "rules.html",
    "day-sheet.html",
    "walk-sheet.html",
    "tally.html",
)


@pytest.mark.parametrize("name", PAGES)
def test_a_page_says_all_its_words_through_the_catalogue(tab: Tab, name: str) -> None:
    page = tab(viewport=DESK)
    page.goto((in_brackets() / name).as_uri())
    found = set().union(*map(left_over, views(page)))
    assert found == set()


# Columns whose cells are keys, codes or notes for machines: the same in every language.
KEYS = {
    "gates.csv": {"rule", "verdict", "standing", "scenario"},
    "materials.csv": {"passes_every_rule_asked", "for_disease", "honesty_level", "scenario"},
    "risk.csv": {"disease", "class", "honesty_level", "scenario"},
    "round.csv": {"list", "ways", "scenario"},
    "rules.csv": {"disease_of_ours", "honesty_level", "scenario"},
    "scouting-order.csv": {"chosen_by", "honesty_level", "scenario"},
    "spray-order.csv": {"list", "within_hours_today", "rule", "honesty_level", "scenario"},
    "spray-record.csv": {
        "record_id",
        "zone",
        "method",
        "crop",
        "target",
        "model_version",
        "note",
    },
}


@pytest.mark.parametrize("name", KEYS)
def test_a_table_tells_people_nothing_past_the_catalogue(name: str) -> None:
    with (in_brackets() / name).open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(lines))
    told = [
        column
        for column in rows[0]
        if column not in KEYS[name] and not column.endswith(("effect standing", "effect source"))
    ]
    found = {column: left_over([row[column] or "" for row in rows]) for column in told}
    assert {column: words for column, words in found.items() if words} == {}
    assert any("⟦" in (row[column] or "") for row in rows for column in told) or (
        name in {"risk.csv", "rules.csv", "gates.csv", "spray-record.csv"}
    )
