"""What lies under the blocks, and a chosen block that nothing hides."""

import pytest
from playwright.sync_api import Page

PICTURES = ".leaflet-ground-pane img"
COVERED = """() => {
  const block = document.querySelector("path.block-selected").getBoundingClientRect();
  const lids = [...document.querySelectorAll(".key, .layers, .ramp, .leaflet-control-zoom, .card")];
  return lids.map((lid) => lid.getBoundingClientRect())
    .filter((b) => b.width && b.left < block.right && b.right > block.left
      && b.top < block.bottom && b.bottom > block.top).length;
}"""
IN_SIGHT = """() => {
  const block = document.querySelector("path.block-selected").getBoundingClientRect();
  const map = document.querySelector(".folium-map").getBoundingClientRect();
  return block.left >= map.left && block.right <= map.right
    && block.top >= map.top && block.bottom <= map.bottom;
}"""


def choose(page: Page, ground: str) -> None:
    if page.locator(".layers").get_attribute("open") is None:
        page.click(".layers summary")
    page.check(f"#ground [value='{ground}']")


def test_the_ground_is_relief_only_until_somebody_asks(desk: Page) -> None:
    assert desk.locator(PICTURES).count() == 0
    assert desk.locator("#ramp").is_hidden()


@pytest.mark.parametrize(
    ("ground", "words"),
    [("favourability", "share of a perfect day"), ("last_night", "05:00 on Wed 14 Aug")],
)
def test_a_ground_brings_its_picture_and_its_legend(desk: Page, ground: str, words: str) -> None:
    choose(desk, ground)
    assert desk.locator(PICTURES).count() == 1
    assert words in desk.locator("#ramp").inner_text()
    size = desk.locator(PICTURES).evaluate("(e) => [e.naturalWidth, e.naturalHeight]")
    assert min(size) > 50
    choose(desk, "")
    assert desk.locator(PICTURES).count() == 0
    assert desk.locator("#ramp").is_hidden()


def test_the_pictures_lie_where_the_relief_lies(desk: Page) -> None:
    choose(desk, "last_night")
    boxes = [desk.locator(part).bounding_box() for part in (PICTURES, ".leaflet-relief-pane img")]
    assert boxes[0] == pytest.approx(boxes[1], abs=1)


def test_the_legend_follows_the_unit(desk: Page) -> None:
    choose(desk, "last_night")
    ticks = desk.locator("#ramp .ticks span").all_inner_texts()
    assert len(ticks) == 3
    assert all(tick.endswith("°C") for tick in ticks)
    desk.click("[data-unit=temperature][value=F]")
    warm = desk.locator("#ramp .ticks span").all_inner_texts()
    for celsius, fahrenheit in zip(ticks, warm, strict=True):
        value = float(celsius.split()[0])
        assert float(fahrenheit.split()[0]) == pytest.approx(value * 9 / 5 + 32, abs=0.1)


def test_over_a_coloured_ground_blocks_are_outlines(desk: Page) -> None:
    filled = """() => [...document.querySelectorAll(".leaflet-blocks-pane canvas")]
      .map((canvas) => canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data)
      .reduce((sum, data) => sum + data.filter((v, i) => i % 4 === 3 && v > 0).length, 0)"""
    before = desk.evaluate(filled)
    choose(desk, "favourability")
    assert desk.evaluate(filled) < before / 2
    choose(desk, "")
    assert desk.evaluate(filled) == before


def test_a_chosen_block_never_lies_under_what_lies_on_the_map(desk: Page) -> None:
    choose(desk, "favourability")
    for row in range(11):
        desk.locator("#list-spray tbody tr").nth(row).click()
        desk.wait_for_timeout(350)
        assert desk.evaluate(IN_SIGHT), row
        assert desk.evaluate(COVERED) == 0, row
        desk.keyboard.press("Escape")


def test_a_phone_has_room_for_the_legend(phone: Page) -> None:
    choose(phone, "last_night")
    phone.click(".layers summary")
    legend, ground = (phone.locator(part).bounding_box() for part in ("#ramp", ".folium-map"))
    assert legend is not None
    assert ground is not None
    assert legend["y"] >= 0
    assert legend["y"] + legend["height"] <= ground["y"] + ground["height"]
    assert legend["x"] + legend["width"] <= 390


def test_the_coolest_tenth_is_dashed_over_the_blocks_once_somebody_asks(desk: Page) -> None:
    drawn = """() => [...document.querySelectorAll(".leaflet-coolest-pane canvas")]
      .flatMap((canvas) => [...canvas.getContext("2d")
        .getImageData(0, 0, canvas.width, canvas.height).data])
      .filter((value, i) => i % 4 === 3 && value > 0).length"""
    assert desk.locator(".leaflet-coolest-pane canvas").count() == 0
    desk.click(".layers summary")
    desk.check("#layers [value=coolest]")
    desk.wait_for_timeout(100)
    assert desk.evaluate(drawn) > 100
    assert desk.locator("#coolest-key").is_visible()
    desk.uncheck("#layers [value=coolest]")
    desk.wait_for_timeout(100)
    assert desk.evaluate(drawn) == 0
    assert desk.locator("#coolest-key").is_hidden()
