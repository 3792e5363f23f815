"""Two blocks side by side: by keyboard, on a phone, on shared axes, and back to the card."""

import math

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.exports.conftest import Open
from tests.exports.made import REFERENCE, UNKNOWN

OPEN = ".open-beside"


def open_beside(page: Page, row: int = 1) -> None:
    page.locator("#list-spray tbody tr").nth(row).click()
    page.locator(OPEN).focus()
    page.keyboard.press("Enter")


def test_it_opens_by_keyboard_and_escape_leads_back_to_the_card_then_to_the_list(
    desk: Page,
) -> None:
    open_beside(desk)
    card = desk.locator("#why")
    assert card.locator("h2").inner_text().endswith(f" and {REFERENCE}")
    assert desk.evaluate("document.activeElement.className") == "back"
    desk.keyboard.press("Escape")
    assert "Why this block" in card.inner_text()
    assert desk.evaluate("document.activeElement.className") == "open-beside"
    desk.keyboard.press("Enter")
    desk.keyboard.press("Enter")
    assert "Why this block" in card.inner_text()
    desk.keyboard.press("Escape")
    assert card.is_hidden()
    assert desk.evaluate("document.activeElement.closest('tr') !== null")


def test_both_columns_tell_the_same_facts_in_the_chosen_units(desk: Page) -> None:
    open_beside(desk)
    table = desk.locator("table.two")
    assert table.locator("thead th").count() == 3
    for row in table.locator("tbody tr").all():
        assert row.locator("td").count() == 2
        assert all(text.strip() for text in row.locator("td").all_inner_texts())
    assert "\u00a0ha" in table.inner_text()
    desk.click("[data-unit=area][value=acre]")
    desk.click("[data-unit=temperature][value=F]")
    assert "\u00a0acre" in table.inner_text()
    assert "\u00a0ha" not in table.inner_text()
    assert "°F" in table.inner_text()


def test_bars_of_both_share_one_log_axis_and_the_ratios_multiply_to_the_total(desk: Page) -> None:
    open_beside(desk)
    bars = desk.evaluate("""() => {
      const { app } = mangoPage;
      return [...document.querySelectorAll(".both")].flatMap((row, place) =>
        [...row.querySelectorAll(".fill")].map((fill, side) => ({
          value: app.factorOf(side ? app.compare : app.selected, place),
          left: parseFloat(fill.style.left), wide: parseFloat(fill.style.width),
          one: parseFloat(fill.parentElement.style.getPropertyValue("--one")) })));
    }""")
    assert len(bars) == 16
    assert len({bar["one"] for bar in bars}) == 1
    reach = [
        bar["wide"] / abs(math.log10(bar["value"]))
        for bar in bars
        if abs(math.log10(bar["value"])) > 0.01
    ]
    assert reach == pytest.approx([reach[0]] * len(reach), rel=1e-3)
    for bar in bars:
        assert (bar["left"] < bar["one"] - 1e-6) == (bar["value"] < 1 - 1e-6)
    ratios = desk.locator(".both .ratio").all_inner_texts()
    total = desk.locator("#why .total").inner_text().partition("×")[2].strip("\u202f.")
    assert math.prod(float(text.strip("×\u202f")) for text in ratios) == pytest.approx(
        float(total), rel=0.05
    )


def test_both_seasons_are_drawn_on_one_axis_and_follow_the_day(desk: Page) -> None:
    open_beside(desk)
    chart = desk.locator("#why .chart")
    assert chart.locator("path.line").count() == 2
    assert chart.locator("text", has_text="Protection left in").count() == 2
    assert f"; {REFERENCE}: Hazard index by day" in (chart.get_attribute("aria-label") or "")
    before = desk.locator(".day-facts").inner_text()
    desk.focus("#day")
    desk.keyboard.press("ArrowLeft")
    assert desk.locator(".day-facts").inner_text() != before
    assert f"; {REFERENCE} index " in desk.locator(".day-facts").inner_text()


def test_either_block_can_be_chosen_and_the_choice_keeps_the_focus(desk: Page) -> None:
    open_beside(desk)
    desk.select_option("[data-side='1']", "0")
    assert desk.locator("#why-name").inner_text().endswith(" and B01")
    assert desk.evaluate("document.activeElement.dataset.side") == "1"
    desk.select_option("[data-side='0']", "6")
    assert desk.locator("#why-name").inner_text() == "B07 and B01"
    assert desk.evaluate("document.activeElement.dataset.side") == "0"
    assert desk.locator("path.block-selected").get_attribute("data-block") == "B07"
    desk.keyboard.press("Escape")
    assert desk.locator("#compare").input_value() == "0"


def test_a_block_of_which_nothing_is_known_has_no_bars_and_no_ratio(desk: Page) -> None:
    open_beside(desk)
    desk.select_option("[data-side='1']", str(int(UNKNOWN[1:]) - 1))
    assert "No ratio" in desk.locator("#why .total").inner_text()
    assert desk.locator(".both .fill.side-1").evaluate_all(
        "(fills) => fills.every((fill) => !fill.style.width)"
    )


def test_a_phone_shows_both_without_scrolling_sideways_in_letters_of_16(phone: Page) -> None:
    open_beside(phone)
    assert phone.evaluate("why.scrollWidth <= why.clientWidth")
    assert phone.evaluate("document.documentElement.scrollWidth") == 390
    sizes = phone.evaluate("""[...document.querySelectorAll("#why *")]
      .filter((e) => e.textContent.trim() && e.tagName !== "OPTION")
      .map((e) => parseFloat(getComputedStyle(e).fontSize))""")
    assert min(sizes) >= 16
    for control in phone.locator("#why button, #why select").all():
        box = control.bounding_box()
        assert box is not None
        assert box["height"] >= 44


def test_nobody_is_kept_out_of_it(desk: Page, open_page: Open) -> None:
    open_beside(desk)
    glare = open_page(contrast="more")
    open_beside(glare)
    for page in (desk, glare):
        found = Axe().run(page).response["violations"]
        assert [one["id"] for one in found if one["impact"] in ("serious", "critical")] == []


def test_sentences_that_come_ready_made_follow_the_units(desk: Page) -> None:
    said = desk.evaluate("""() => {
      const { app, said } = mangoPage;
      const text = "3.0 ha; 0.35 hectare-days. 34.1 °C on Friday, 36 °C at most, -1 °C at night.";
      const before = said(app, text);
      app.set({ units: { temperature: "F", area: "acre" } });
      const after = said(app, text);
      app.spoilt = undefined;
      app.data.blocks = Object.create(app.data.blocks, { name: { value: ["The 12 ha"] } });
      return [before === text, after, said(app, text) === text, said(app, null)];
    }""")
    assert said[0] is True
    # 34.1 and 36 degrees Celsius are 93.4 and 96.8 Fahrenheit; 3 hectares are 7.4 acres.
    assert said[1] == (
        "7.4 acre; 0.35 hectare-days. 93.4 °F on Friday, 97 °F at most, 30 °F at night."
    )
    assert said[2:] == [True, None]
