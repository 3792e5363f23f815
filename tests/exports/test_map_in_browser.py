"""What a grower can do on the page, in a real browser with no network."""

import re
from pathlib import Path

import numpy as np
import pytest
import shapely
from playwright.sync_api import Browser, Page

from tests.exports.made import APART, CLOSED, REFERENCE, UNKNOWN, Made

ROWS = "#list-spray tbody tr"
CENTRE_OF_BLOCK = """(id) => {
  const { app } = mangoPage;
  const block = app.data.blocks.id.indexOf(id);
  const at = app.map.unproject([app.labels[2 * block], app.labels[2 * block + 1]], 0);
  const point = app.map.latLngToContainerPoint(at);
  const frame = app.map.getContainer().getBoundingClientRect();
  return [frame.x + point.x, frame.y + point.y];
}"""
COLOUR_AT = """([x, y]) => {
  for (const canvas of document.querySelectorAll(".leaflet-blocks-pane canvas")) {
    const box = canvas.getBoundingClientRect();
    if (x < box.x || y < box.y || x >= box.right || y >= box.bottom) continue;
    const scale = canvas.width / box.width;
    const at = [(x - box.x) * scale, (y - box.y) * scale, 1, 1];
    return [...canvas.getContext("2d").getImageData(...at).data];
  }
  return null;
}"""


def selected(page: Page) -> str | None:
    return page.locator("path.block-selected").get_attribute("data-block")


def test_the_blocks_are_painted_in_the_colours_of_their_classes(desk: Page) -> None:
    for block in (REFERENCE, "B01", "B09"):
        x, y = desk.evaluate(CENTRE_OF_BLOCK, block)
        # Beside the label, still well inside the block.
        red, green, blue, _ = desk.evaluate(COLOUR_AT, [x - 26, y + 22])
        wanted = desk.evaluate(
            """(id) => { const { app } = mangoPage;
              const block = app.data.blocks.id.indexOf(id);
              return app.data.classes.colours[app.classOn(block, app.day)] }""",
            block,
        )
        expected = [int(wanted[place : place + 2], 16) for place in (1, 3, 5)]
        assert [red, green, blue] == pytest.approx(expected, abs=3)


def test_a_hole_is_not_painted_and_is_no_part_of_its_block(desk: Page) -> None:
    inside = desk.evaluate("""() => {
      const { app } = mangoPage;
      const block = app.data.blocks.id.indexOf("B10");
      const hole = mangoPage.ringsOf(app.outlines, block)[1];
      const middle = L.latLngBounds(hole).getCenter();
      const world = app.map.project(middle, 0);
      const point = app.map.latLngToContainerPoint(middle);
      const frame = app.map.getContainer().getBoundingClientRect();
      return { at: [frame.x + point.x, frame.y + point.y],
               inside: mangoPage.isInside(app.outlines, block, world.x, world.y) };
    }""")
    assert inside["inside"] is False
    assert desk.evaluate(COLOUR_AT, inside["at"])[3] == 0


def test_choosing_a_row_marks_the_block_and_opens_its_card(desk: Page) -> None:
    row = desk.locator(ROWS).nth(2)
    name = row.locator(".name").inner_text()
    row.click()
    assert row.get_attribute("aria-selected") == "true"
    assert desk.locator("#why-name").inner_text() == name
    outline = desk.locator("path.block-selected").bounding_box()
    ground = desk.locator(".folium-map").bounding_box()
    assert outline is not None
    assert ground is not None
    assert ground["x"] <= outline["x"]
    assert outline["x"] + outline["width"] <= ground["x"] + ground["width"]
    assert name in desk.locator("#live").inner_text()


def test_choosing_on_the_map_marks_the_row(desk: Page) -> None:
    desk.mouse.click(*desk.evaluate(CENTRE_OF_BLOCK, "B07"))
    assert selected(desk) == "B07"
    assert "B07" in desk.locator(ROWS + "[aria-selected=true]").inner_text()
    assert desk.locator("#why .eyebrow").inner_text().endswith("B07")


def test_pointing_at_a_block_tells_its_name_and_class(desk: Page) -> None:
    x, y = desk.evaluate(CENTRE_OF_BLOCK, "B02")
    desk.mouse.move(x, y)
    desk.mouse.move(x + 2, y)
    assert desk.locator(".tip").inner_text().startswith("River bend · ")
    desk.mouse.move(x + 2, 30)
    assert desk.locator(".tip").count() == 0


def test_escape_closes_the_card_and_gives_the_focus_back(desk: Page) -> None:
    desk.locator(ROWS).nth(1).click()
    desk.keyboard.press("Escape")
    assert desk.locator("#why").is_hidden()
    assert desk.locator("path.block-selected").count() == 0
    assert desk.evaluate("document.activeElement.closest('tr') !== null")


def test_the_slider_by_keyboard_changes_the_day_its_words_and_the_list(desk: Page) -> None:
    desk.click("#tab-day")
    assert "today" in desk.locator("#day-says").inner_text()
    before = desk.locator("#list-day").inner_text()
    desk.focus("#day")
    desk.keyboard.press("ArrowRight")
    says = desk.locator("#day-says").inner_text()
    assert "Thu 15 Aug" in says
    assert "forecast" in says
    assert re.search(r"rain \d+\.\d mm", says)
    assert re.search(r"block minimums \d+ to \d+\s°C", says)
    assert desk.locator("#day").get_attribute("aria-valuetext") == "Thu 15 Aug"
    assert desk.locator("#list-day").inner_text() != before
    desk.keyboard.press("Home")
    assert "measured" in desk.locator("#day-says").inner_text()
    assert "forecast" not in desk.locator("#day-says").inner_text()


def test_the_days_run_from_two_weeks_back_to_the_end_of_the_forecast(desk: Page) -> None:
    assert desk.locator(".column").count() == 18
    assert desk.locator(".column.today .number").inner_text() == "14"
    assert desk.locator(".column.forecast").count() == 3


def test_another_day_repaints_the_map(desk: Page) -> None:
    picture = """() => [...document.querySelectorAll(".leaflet-blocks-pane canvas")]
      .map((canvas) => canvas.toDataURL()).join()"""
    before = desk.evaluate(picture)
    desk.focus("#day")
    desk.keyboard.press("End")
    assert desk.evaluate(picture) != before


def test_play_walks_through_the_days_and_pauses(desk: Page) -> None:
    play = desk.locator("#play")
    play.click()
    assert play.get_attribute("aria-pressed") == "true"
    desk.wait_for_selector("#day-says strong:has-text('Thu 15 Aug')")
    play.click()
    assert play.get_attribute("aria-pressed") == "false"


def test_tabs_follow_the_arrow_keys(desk: Page) -> None:
    desk.focus("#tab-spray")
    for key, tab in [
        ("ArrowRight", "scouting"),
        ("ArrowRight", "day"),
        ("ArrowRight", "spray"),
        ("ArrowLeft", "day"),
        ("Home", "spray"),
        ("End", "day"),
    ]:
        desk.keyboard.press(key)
        assert desk.evaluate("document.activeElement.id") == f"tab-{tab}"
        assert desk.locator(f"#tab-{tab}").get_attribute("aria-selected") == "true"
        assert desk.locator(f"#list-{tab}").is_visible()
        assert desk.locator("[role=tabpanel]:visible").count() == 1


def test_rows_are_walked_by_arrow_keys_and_chosen_by_enter(desk: Page) -> None:
    desk.locator(ROWS).first.focus()
    desk.keyboard.press("ArrowDown")
    desk.keyboard.press("ArrowDown")
    desk.keyboard.press("ArrowUp")
    desk.keyboard.press("Enter")
    assert desk.locator(ROWS).nth(1).get_attribute("aria-selected") == "true"
    assert desk.locator(ROWS + "[tabindex='0']").count() >= 1
    desk.keyboard.press("End")
    desk.keyboard.press(" ")
    rows = desk.locator("#list-spray table").first.locator("tbody tr")
    assert rows.last.get_attribute("aria-selected") == "true"


def test_the_spray_list_tells_area_sprayer_hours_ratio_and_its_interval(desk: Page) -> None:
    rows = desk.locator(ROWS)
    words = " ".join(rows.nth(0).inner_text().split())
    assert words == "1 B01 2.2 ha Very high takes 1.4 h 0.7 × 2.1 (1.5–2.9)"
    assert "reference" in desk.locator(f"{ROWS}[data-block='5']").inner_text()
    assert "For sulfur" in desk.locator("#list-spray .about").first.inner_text()
    assert f"× of {REFERENCE}" in desk.locator("#list-spray .about").first.inner_text()
    assert "Loss/h" in desk.locator("#list-spray thead").first.inner_text()


def test_what_leaving_a_block_costs_and_what_is_not_worth_it_are_said(desk: Page) -> None:
    apart = desk.locator(f"{ROWS}:has-text('above the reapply line')")
    assert APART in apart.inner_text()
    apart.click()
    assert "not worth it" in desk.locator("#why .ranks").inner_text()
    desk.locator(ROWS).first.click()
    assert "Left until it is next open" in desk.locator("#why").inner_text()
    assert "Not asked: re-entry." in desk.locator("main header").inner_text()


def test_the_scouting_list_says_why_and_renumbers_the_map(desk: Page) -> None:
    desk.click("#tab-scouting")
    first = desk.locator("#list-scouting tbody tr").first.inner_text()
    assert "B01" in first
    # The made doubt of the first is 0.8: exp(1.2816 * 0.8) is 2.79.
    assert "Doubt ×/÷\u202f2.8" in first
    assert re.search(r"Doubt ×/÷\s[\d.]+, stake [\d.]+", first)
    assert "Never counted, stage seen 3 days ago." in first
    assert desk.evaluate("mangoPage.app.rankOf(3)") == 4


def test_what_cannot_be_sprayed_now_stands_apart_with_its_rule(desk: Page) -> None:
    row = desk.locator(f"{ROWS}:has-text('Clears')")
    words = row.inner_text()
    assert CLOSED in words
    assert "Sulfur and heat: 34.1\u00a0°C on Thu 15 Aug." in words
    assert "Clears Sat 17 Aug 06:00." in words
    rule = desk.locator("#list-spray .about").nth(3)
    assert rule.inner_text() == "Sulfur and heat: 32.0\u00a0°C. common practice."
    desk.click("[data-unit=temperature][value=F]")
    assert "93.4\u00a0°F on Thu 15 Aug" in row.inner_text()
    assert "89.6\u00a0°F" in rule.inner_text()
    assert desk.evaluate("mangoPage.app.rankOf(3)") is None


def test_what_is_not_known_is_said_and_not_ranked(desk: Page) -> None:
    desk.click("#tab-day")
    last = desk.locator("#list-day tbody tr").last
    assert UNKNOWN in last.inner_text()
    assert "Not known" in last.inner_text()
    last.click()
    card = desk.locator("#why").inner_text()
    assert "No ratio" in card
    assert "The hazard of this block: something it needs was missing" in card


def test_the_unit_switches_change_areas_and_temperatures_and_are_kept(desk: Page) -> None:
    desk.click("[data-unit=area][value=acre]")
    assert desk.locator(ROWS + " small").first.inner_text().endswith("\u00a0acre")
    desk.click("[data-unit=temperature][value=F]")
    assert "°F" in desk.locator("#day-says").inner_text()
    desk.reload()
    desk.wait_for_selector("html[data-painted]")
    assert desk.locator(ROWS + " small").first.inner_text().endswith("\u00a0acre")


def test_find_narrows_the_list_and_enter_opens_the_card(desk: Page) -> None:
    desk.fill("#find", "river")
    assert desk.locator(ROWS).count() == 1
    desk.press("#find", "Enter")
    assert selected(desk) == "B02"
    desk.fill("#find", "no such block")
    assert "No block by that name" in desk.locator("#list-spray").inner_text()


def test_layers_can_be_switched_off_and_on(desk: Page) -> None:
    desk.click(".layers summary")
    tiles, relief = ".leaflet-blocks-pane canvas", ".leaflet-relief-pane img"
    for box, drawn in [
        ("blocks", tiles),
        ("relief", relief),
        ("neighbours", ".leaflet-neighbours-pane path"),
        ("places", ".leaflet-places-pane .place"),
    ]:
        assert desk.locator(drawn).count() > 0
        desk.uncheck(f"#layers [value={box}]")
        assert desk.locator(drawn).count() == 0
        desk.check(f"#layers [value={box}]")
        assert desk.locator(drawn).count() > 0


def test_each_kind_of_line_on_the_map_has_a_key_of_its_own(desk: Page) -> None:
    said = desk.locator("#lines li").all_inner_texts()
    assert said[-4:] == ["Track", "Holds cold air", "Lets cold air off", "Windbreak"]
    drawn = desk.locator("#lines li path").evaluate_all(
        "paths => paths.map(p => ['stroke', 'stroke-width', 'stroke-dasharray']"
        ".map(name => p.getAttribute(name)).join())"
    )
    assert len(set(drawn)) == len(drawn)


def test_printing_and_coming_back_leaves_the_map_as_it_was(desk: Page) -> None:
    desk.emulate_media(media="print")
    assert desk.locator(".paper svg.drawing").is_visible()
    assert desk.locator(".panel").is_hidden()
    desk.emulate_media(media="screen")
    assert desk.locator(".paper").is_hidden()
    desk.mouse.click(*desk.evaluate(CENTRE_OF_BLOCK, "B07"))
    assert selected(desk) == "B07"


def test_nothing_in_a_name_is_run_or_computed(desk: Page) -> None:
    assert "<img src=x onerror=alert(1)>" in desk.locator("#list-spray").inner_text()
    assert "{{ 7 * 7 }}</script><b>" in desk.locator("#list-spray").inner_text()
    desk.locator(f"{ROWS}:has-text('onerror')").click()
    assert desk.locator("#why-name").inner_text() == "<img src=x onerror=alert(1)>"
    assert desk.locator("img[src=x]").count() == 0
    assert desk.locator(".neighbour b:has-text('Old trees <b>')").count() == 1


def test_the_browser_refuses_what_somebody_might_plant(browser: Browser, map_file: Path) -> None:
    # A page of its own: the refusals are reported as faults, which the watch would count.
    context = browser.new_context()
    page = context.new_page()
    refused: list[str] = []
    page.on("console", lambda message: refused.append(message.text))
    page.goto(map_file.as_uri())
    page.evaluate("""() => {
      const script = document.createElement("script");
      script.textContent = "window.planted = 1";
      document.body.append(script);
      document.body.insertAdjacentHTML("beforeend", "<img src='https://example.org/a.png'>");
    }""")
    page.wait_for_timeout(100)
    assert page.evaluate("window.planted") is None
    assert any("Content Security Policy" in words for words in refused)
    context.close()


def test_the_page_finds_the_same_block_under_a_point_as_exact_geometry(
    desk: Page, farm_made: Made
) -> None:
    blocks = farm_made.farm.blocks.to_crs(4326).geometry
    west, south, east, north = blocks.total_bounds
    chance = np.random.default_rng(3)
    points = np.column_stack([chance.uniform(west, east, 600), chance.uniform(south, north, 600)])
    found = desk.evaluate(
        """(points) => points.map(([east, north]) => {
          const { app } = mangoPage;
          const { x, y } = app.map.project([north, east], 0);
          return app.blocksIn(x, y, x, y).filter((b) => mangoPage.isInside(app.outlines, b, x, y));
        })""",
        points.tolist(),
    )
    # A millionth of a degree is a tenth of a metre: leave out what lies nearer to an edge.
    clear = blocks.boundary.union_all().distance(shapely.points(points)) > 3e-6
    exact = [np.flatnonzero(blocks.contains(shapely.Point(point))).tolist() for point in points]
    assert sum(clear) > 500
    assert [f for f, ok in zip(found, clear, strict=True) if ok] == [
        e for e, ok in zip(exact, clear, strict=True) if ok
    ]
    assert {len(e) for e in exact} == {0, 1}
