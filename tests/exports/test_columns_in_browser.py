"""What the page's scripts read from packed columns, and a page of many blocks."""

import base64
import json
import zlib
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Page, expect

from geo.exports import pack
from geo.exports.map_page import write_map
from tests.exports.conftest import Open
from tests.exports.made import DAYS_BEFORE, Made, made
from tests.exports.page_columns import data_of

MANY = 620
INFLATED = """([letters, size]) => {
  const bytes = Uint8Array.from(atob(letters), (letter) => letter.charCodeAt(0));
  const inflated = Array.from(mangoPage.inflate(bytes, size));
  return btoa(inflated.map((byte) => String.fromCharCode(byte)).join(""));
}"""
READ = """() => {
  const { app } = mangoPage;
  const { blocks, spray, sources, scouting } = app.data;
  const of = (list) => Array.from({ length: list.length }, (_, place) => list[place]);
  const plain = (value) => (Number.isNaN(value) ? null : value);
  const rows = (table) =>
    Array.from({ length: table.length }, (_, place) => table.at(place)).map((row) =>
      Object.fromEntries(Object.keys(table.columns).map((name) => [name, plain(row[name])])));
  return JSON.stringify({
    id: of(blocks.id), name: of(blocks.name), area: of(blocks.area), sprays: of(blocks.sprays),
    looked: of(blocks.looked).map(plain), hazard: of(app.hazard).map(plain), top: of(sources.top),
    entries: rows(spray.entries), scouting: rows(scouting),
  });
}"""


def samples() -> list[bytes]:
    """Return nothing, one letter, what repeats, what does not, and what repeats from afar."""
    chance = np.random.default_rng(4)
    noise = chance.integers(0, 256, 70_000).astype(np.uint8).tobytes()
    words = "".join(chance.choice(["low ", "ground ", "spores ", "é ", "ñ "], 9000)).encode()
    return [b"", b"a", bytes(100_000), words, noise, noise[:32_768] + words[:9] + noise[:32_768]]


@pytest.mark.parametrize("level", [0, 1, 6, 9])
@pytest.mark.parametrize("strategy", [zlib.Z_DEFAULT_STRATEGY, zlib.Z_FIXED, zlib.Z_HUFFMAN_ONLY])
def test_the_page_inflates_what_zlib_deflates(desk: Page, level: int, strategy: int) -> None:
    for raw in samples():
        squeeze = zlib.compressobj(level, zlib.DEFLATED, -15, 9, strategy)
        letters = base64.b64encode(squeeze.compress(raw) + squeeze.flush()).decode()
        assert base64.b64decode(desk.evaluate(INFLATED, [letters, len(raw)])) == raw


@pytest.mark.parametrize("exact_blocks", [2000, 0])
def test_the_page_reads_what_was_packed(
    open_page: Open,
    farm_made: Made,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    exact_blocks: int,
) -> None:
    monkeypatch.setattr(pack, "EXACT_BLOCKS", exact_blocks)
    path = tmp_path / "map.html"
    write_map(path, **farm_made.parts())
    read = json.loads(open_page(path=path).evaluate(READ))
    told = data_of(path.read_text("utf-8"))
    (disease,) = told["diseases"]
    for name in ("id", "name", "area"):
        assert read[name] == told["blocks"][name]
    for name in ("sprays", "looked"):
        assert read[name] == disease["blocks"][name]
    assert read["entries"] == [
        {name: int(value) if isinstance(value, bool) else value for name, value in row.items()}
        for row in disease["spray"]["entries"]
    ]
    assert read["scouting"] == disease["scouting"]
    assert read["top"] == disease["sources"]["top"]
    hazard = np.array(read["hazard"], dtype=float)
    np.testing.assert_allclose(hazard, disease["blocks"]["hazard"].ravel(), rtol=1e-6)
    shown = farm_made.season["hazard"].transpose("block", "day").to_numpy().ravel()
    np.testing.assert_allclose(hazard, shown, rtol=1e-6 if exact_blocks else 3e-4)


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("many") / "map.html"
    write_map(path, **made(count=MANY).parts())
    return path


def test_a_long_list_grows_when_asked_and_keeps_the_focus(open_page: Open, many: Path) -> None:
    page = open_page(path=many)
    rows = page.locator("#list-spray table[aria-label='Spray order'] tbody tr")
    expect(rows).to_have_count(300)
    more = page.locator("#list-spray .more").first
    assert more.inner_text() == f"Show 300 more of {MANY - 3}"
    more.focus()
    page.keyboard.press("Enter")
    expect(rows).to_have_count(600)
    assert page.evaluate("() => document.activeElement.rowIndex") == 301
    page.fill("#find", "B615")
    assert rows.count() <= 1
    assert page.locator("#list-spray .more").count() == 0


HASTY = """() => {
  const { app } = mangoPage;
  app.set({ tab: "day" });
  const rows = () => [...document.querySelectorAll("#list-day tbody tr")];
  const atOnce = rows().length;
  rows()[0].focus();
  rows()[0].dispatchEvent(new KeyboardEvent("keydown", { key: "End", bubbles: true }));
  const found = rows();
  return { atOnce, after: found.length, isLast: document.activeElement === found.at(-1) };
}"""
TAKEN = """() => [...document.querySelectorAll("#list-spray tbody")].map((body) =>
  [body.rows.length, [...body.rows].filter((row) => row.tabIndex === 0).length])"""


def test_the_rows_in_sight_come_first_and_a_hasty_key_finds_the_others(
    open_page: Open, many: Path
) -> None:
    hasty = open_page(path=many).evaluate(HASTY)
    assert hasty["atOnce"] < 60
    assert hasty["after"] == 300
    assert hasty["isLast"]


def test_each_table_of_a_long_list_is_reached_by_key(open_page: Open, many: Path) -> None:
    page = open_page(path=many)
    page.evaluate("mangoPage.makeAllRows()")
    for rows, reached in page.evaluate(TAKEN):
        assert rows
        assert reached == 1


def test_the_order_of_a_day_is_that_of_its_hazards(open_page: Open, many: Path) -> None:
    page = open_page(path=many)
    found = page.evaluate("() => Array.from(mangoPage.app.orderOn(mangoPage.app.day).blocks)")
    hazard = made(count=MANY).season["hazard"].transpose("block", "day").to_numpy()
    told = hazard[:, DAYS_BEFORE].astype(np.float32)
    expected = sorted(range(MANY), key=lambda block: (-np.nan_to_num(told[block], nan=-1), block))
    assert found == expected


def test_among_many_blocks_one_is_chosen_by_typing(open_page: Open, many: Path) -> None:
    page = open_page(path=many)
    page.evaluate("() => mangoPage.app.choose(4, 'list')")
    box = page.get_by_label("Compare with")
    assert box.input_value() == "B06"
    box.fill("b41")
    assert page.locator("#offered- option").evaluate_all("all => all.map((one) => one.value)")[
        :2
    ] == ["B41", "B410"]
    box.press("Tab")
    assert page.evaluate("() => mangoPage.app.compare") == 40
    box.fill("no such block")
    box.press("Tab")
    assert page.evaluate("() => mangoPage.app.compare") == 40
