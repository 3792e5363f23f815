"""The strip of hours on the card: which rule closed which hour, by mouse, by key and in grey."""

import pytest
from playwright.sync_api import Page, expect

from tests.exports.made import CLOSED


@pytest.fixture
def card(desk: Page) -> Page:
    desk.click("#list-spray tbody tr >> nth=0")
    return desk


def test_the_strip_opens_at_the_first_open_hour(card: Page) -> None:
    words = card.locator(".hour-words")
    expect(words).to_have_text("Wed 14 Aug 10:00: open.")
    assert (
        card.locator(".hour-strip").get_attribute("aria-label")
        == "26 of the next 30 hours are open"
    )


def test_keys_walk_along_the_hours_and_say_what_closes_them(card: Page) -> None:
    slide = card.locator(".hours input")
    slide.press("ArrowLeft")
    expect(card.locator(".hour-words")).to_have_text(
        "Wed 14 Aug 09:00: closed by Too little wind (limit 0.83\u00a0m s-1)."
    )
    assert "Too little wind" in (slide.get_attribute("aria-valuetext") or "")
    for _ in range(2):
        slide.press("ArrowRight")
    expect(card.locator(".hour-words")).to_have_text(
        "Wed 14 Aug 11:00: open. Caution: Bees may forage (limit 13.0\u00a0°C)."
    )


def test_a_tap_on_the_strip_says_that_hour(card: Page) -> None:
    strip = card.locator(".hour-strip")
    box = strip.bounding_box()
    assert box is not None
    strip.click(position={"x": box["width"] * 1.5 / 30, "y": 10})
    expect(card.locator(".hour-words")).to_contain_text("Wed 14 Aug 07:00: closed by")


def test_a_block_closed_all_along_says_so(desk: Page) -> None:
    desk.click(f"#list-spray tbody tr:has-text('{CLOSED}')")
    expect(desk.locator(".hour-words")).to_contain_text("closed by Sulfur and heat")
    assert "0 of the next 30" in (desk.locator(".hour-strip").get_attribute("aria-label") or "")
    expect(desk.locator(".hours")).to_contain_text("Re-entry: not asked.")
