"""Layers that can be switched on: whose spores blow in, and what to keep away from."""

from dataclasses import replace

from playwright.sync_api import Page

from geo.exports.page_places import apart_data
from tests.exports.made import Made

SHOWN = "() => mangoPage.app.layers.arrivals.getLayers().length"
OTHERS = """() => {
  const app = mangoPage.app;
  return app.data.sources.top[app.selected].filter(([source]) => source !== app.selected).length;
}"""


def switch(page: Page, layer: str) -> None:
    if page.locator(".layers").get_attribute("open") is None:
        page.click(".layers summary")
    page.click(f"#layers [value='{layer}']")


def test_arrows_are_away_until_somebody_asks(desk: Page) -> None:
    assert desk.locator("#arrivals-key").is_hidden()
    switch(desk, "arrivals")
    assert desk.locator("#arrivals-key").is_visible()
    assert desk.evaluate(SHOWN) > 0


def test_a_chosen_block_shows_the_share_of_each_source(desk: Page) -> None:
    switch(desk, "arrivals")
    desk.evaluate("() => mangoPage.app.choose(2, 'list')")
    others = desk.evaluate(OTHERS)
    assert others > 0
    shares = desk.locator(".label .share").all_text_contents()
    assert len(shares) == others
    assert all(share.endswith("%") for share in shares)
    desk.evaluate("() => mangoPage.app.choose(null, 'list')")
    assert desk.locator(".label .share").count() == 0


def test_what_to_keep_away_from_is_drawn_and_told_in_metres(desk: Page, farm_made: Made) -> None:
    areas = apart_data(farm_made.farm)
    assert areas
    told = desk.locator("#apart-key").inner_text()
    for area in areas:
        assert area["words"] in told
    drawn = "() => mangoPage.app.layers.apart.getLayers().length"
    assert desk.evaluate(drawn) == len(areas)
    switch(desk, "apart")
    assert desk.locator("#apart-key").is_hidden()


def test_the_area_to_keep_away_from_is_as_wide_as_the_rule(farm_made: Made) -> None:
    farm = farm_made.farm
    (area,) = apart_data(farm)
    metres = float(area["words"].rpartition(": ")[2].removesuffix(" m"))
    assert metres == 30  # the assumed edge to water and hives
    (ring,) = area["outlines"][0]
    east = max(pair[1] for pair in ring)
    water = farm.places[farm.places["kind"] == "water"].to_crs(4326).geometry.iloc[0]
    # A degree of longitude at 17 degrees south is some 106 km.
    assert abs((east - water.x) * 106_400 - metres) < 1


def test_no_sensitive_place_leaves_the_layer_out(farm_made: Made) -> None:
    none = farm_made.farm.places[farm_made.farm.places["kind"] == "gate"]
    assert apart_data(replace(farm_made.farm, places=none)) == []
