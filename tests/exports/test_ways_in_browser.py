"""The round and the walk on the map: ways, numbered stops, one mark for each place."""

from pathlib import Path

import pytest
from playwright.sync_api import Page

from geo.exports.map_page import write_map
from geo.exports.page_ways import Ways, ways_data
from tests.exports.conftest import DESK, PHONE, Open
from tests.exports.made import Made
from tests.exports.made_round import HOSTILE_SPRAYER, made_round
from tests.exports.made_walks import walk_through

MARKS = ".leaflet-places-pane .stop"
# What a number of a stop hides: the middle of a block's rank, bar or ring, or a place and its name.
HIDDEN = """() => {
  const { app } = mangoPage;
  const frame = app.map.getContainer().getBoundingClientRect();
  const ranks = Array.from({ length: app.outlines.count }, (_, block) => {
    if (app.room(block) * Math.pow(2, Math.round(app.map.getZoom())) < 7) return null;
    const at = app.map.unproject([app.labels[2 * block], app.labels[2 * block + 1]], 0);
    const { x, y } = app.map.latLngToContainerPoint(at);
    const [east, south] = [x + frame.x, y + frame.y];
    return { words: block, left: east - 4, right: east + 4, top: south - 4, bottom: south + 4 };
  });
  const places = [...document.querySelectorAll(".place > *")].map((one) => {
    const { left, right, top, bottom } = one.getBoundingClientRect();
    return { words: one.textContent || "sign", left, right, top, bottom };
  });
  const all = [...ranks, ...places].filter((box) => box && box.right > box.left);
  const numbers = [...document.querySelectorAll(".leaflet-places-pane .stop")];
  return [all.length, numbers.flatMap((number) => {
    const own = number.getBoundingClientRect();
    const others = numbers.filter((other) => other !== number)
      .map((other) => ({ words: other.textContent, ...other.getBoundingClientRect().toJSON() }));
    return [...all, ...others].filter((box) => box.left < own.right && box.right > own.left
      && box.top < own.bottom && box.bottom > own.top)
      .map((box) => [number.textContent, box.words]);
  })];
}"""


@pytest.fixture(scope="module")
def ways(farm_made: Made) -> Ways:
    day_round = made_round(farm_made.farm, stops=5, sprayers=(HOSTILE_SPRAYER, "Second"))
    return Ways(day_round, walk_through(farm_made, {"B03": 5, "B05": 6}))


@pytest.fixture(scope="module")
def file(farm_made: Made, ways: Ways, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path: Path = tmp_path_factory.mktemp("ways") / "map.html"
    write_map(path, **farm_made.parts(), ways=ways)
    return path


@pytest.fixture
def drawn(file: Path, open_page: Open) -> Page:
    return open_page(path=file)


def test_every_stop_of_the_round_is_numbered(drawn: Page, ways: Ways) -> None:
    assert ways.day_round is not None
    marks = drawn.locator(MARKS)
    titles = "; ".join(marks.evaluate_all("(all) => all.map((mark) => mark.title)"))
    for letter, sprayer in zip("AB", ways.day_round.sprayers, strict=True):
        for stop in sprayer.stops:
            assert f"{letter}{stop.number}. {stop.block}: rows" in titles


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_the_numbers_of_stops_hide_no_rank_no_place_and_not_each_other(
    file: Path, open_page: Open, size: dict[str, int]
) -> None:
    page = open_page(path=file, size=size)
    for tab in ("spray", "scouting", "day"):
        page.click(f"#tab-{tab}")
        page.evaluate("new Promise((done) => requestAnimationFrame(() => setTimeout(done)))")
        beside, hidden = page.evaluate(HIDDEN)
        assert beside > 5
        assert hidden == []
    letters = page.locator(MARKS).first.evaluate(
        "(e) => [parseFloat(getComputedStyle(e).fontSize), getComputedStyle(e).fontWeight]"
    )
    assert letters[0] >= 11
    assert letters[1] == "700"


def test_the_key_tells_whose_letter_is_whose(drawn: Page) -> None:
    told = drawn.locator("#round-key").inner_text()
    assert f"A {HOSTILE_SPRAYER}, B Second" in told


def test_the_walk_is_shown_when_asked(drawn: Page, ways: Ways) -> None:
    before = drawn.locator(MARKS).count()
    assert drawn.locator("#walk-key").is_hidden()
    drawn.click(".layers summary")
    drawn.check("#layers [value=walk]")
    assert ways.walk is not None
    assert drawn.locator(MARKS).count() > before
    assert drawn.locator("#walk-key").is_visible()


def test_without_a_plan_neither_is_offered(desk: Page) -> None:
    desk.click(".layers summary")
    assert desk.locator("#layers [value=round]").is_hidden()
    assert desk.locator("#layers [value=walk]").is_hidden()
    assert desk.locator("#round-key").count() == 0


def test_ways_are_in_degrees_latitude_first(farm_made: Made, ways: Ways) -> None:
    data = ways_data(farm_made.farm, ways)
    west, south, east, north = farm_made.farm.blocks.to_crs(4326).total_bounds
    for way in (*data["round"], *data["walk"]):
        for stop in way["stops"]:
            latitude, longitude = stop["at"]
            assert south - 0.1 < latitude < north + 0.1
            assert west - 0.1 < longitude < east + 0.1
