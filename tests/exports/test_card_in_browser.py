"""The card that says why: its ratios multiply out, and follow the block compared with."""

import math

import pytest
from playwright.sync_api import Page

from tests.demo_run import demo_folder, demo_outcome
from tests.exports.conftest import Open
from tests.exports.made import OFF_THE_GRID, REFERENCE

ALL_PAIRS = """() => {
  const { app } = mangoPage;
  const known = [...app.data.blocks.ahead.keys()].filter((i) => !isNaN(app.data.blocks.ahead[i]));
  return known.flatMap((block) => known.map((against) => {
    const { total, rows } = mangoPage.ratios(app, block, against);
    const exact = rows.map((row) => row.ratio);
    return { exact, total, printed: exact.map((ratio) => Number(mangoPage.three(ratio))) };
  }));
}"""


def printed(page: Page) -> list[float]:
    texts = page.locator(".factor-row .ratio").all_inner_texts()
    return [float(text.removeprefix("×")) for text in texts]


def test_the_ratios_of_every_pair_multiply_to_the_total(desk: Page) -> None:
    pairs = desk.evaluate(ALL_PAIRS)
    assert len(pairs) == 11 * 11
    for pair in pairs:
        assert pair["total"] == pytest.approx(math.prod(pair["exact"]), rel=1e-4)
        # As printed, to three figures each: half of the last one of eight.
        assert math.prod(pair["printed"]) == pytest.approx(pair["total"], rel=8 * 0.005)
        for shown, exact in zip(pair["printed"], pair["exact"], strict=True):
            assert shown == pytest.approx(exact, rel=0.0051)


def test_the_card_prints_what_the_list_prints(desk: Page) -> None:
    row = desk.locator("#list-spray tbody tr").nth(1)
    ratio = row.locator(".ratio small").inner_text().partition(" (")[0]
    row.click()
    assert desk.locator("#total").inner_text() == ratio
    assert math.prod(printed(desk)) == pytest.approx(float(ratio.removeprefix("×")), rel=0.05)
    assert len(printed(desk)) == 8


def test_the_card_says_what_is_left_of_its_sprays_and_how_far_the_line_is(desk: Page) -> None:
    desk.evaluate("() => mangoPage.app.set({ selected: 0 })")
    card = desk.locator("#why").inner_text()
    assert "sulfur of " in card
    assert ": 0.48 left; about 17 mm of rain or 9 dry days to the reapply line of 0.30" in card
    desk.evaluate("() => mangoPage.app.set({ selected: 1 })")
    assert "Sprays: none in the diary." in desk.locator("#why").inner_text()


def test_the_card_shows_the_note_of_a_block_as_mere_text(desk: Page) -> None:
    desk.evaluate("() => mangoPage.app.set({ selected: 1 })")
    assert "Note: <b>Late urea</b> in May" in desk.locator("#why").inner_text()
    assert desk.locator("#why header b").count() == 0
    desk.evaluate("() => mangoPage.app.set({ selected: 0 })")
    assert "Note:" not in desk.locator("#why header").inner_text()


def test_another_block_to_compare_with_changes_the_ratios(desk: Page) -> None:
    desk.locator("#list-spray tbody tr").nth(1).click()
    before = printed(desk)
    assert desk.locator("#compare").input_value() == "5"
    desk.select_option("#compare", "0")
    assert printed(desk) != before
    assert "in B01" in desk.locator(".values").first.inner_text()
    assert math.prod(printed(desk)) == pytest.approx(
        float(desk.locator("#total").inner_text().removeprefix("×")), rel=0.05
    )


def test_the_reference_block_against_itself_is_one_in_all_eight(desk: Page) -> None:
    desk.locator(f"#list-spray tbody tr:has-text('{REFERENCE}')").first.click()
    assert printed(desk) == [1.0] * 8
    assert "the block that the others are compared with" in desk.locator(".factors").inner_text()


def test_each_factor_says_its_standing_and_shows_its_basis_on_demand(desk: Page) -> None:
    desk.locator("#list-spray tbody tr").first.click()
    words = desk.locator(".factor-row .standing").all_inner_texts()
    assert set(words) == {"published", "assumed", "measured"}
    basis = desk.locator(".basis").first
    assert basis.is_hidden()
    desk.locator(".factor-row summary").first.click()
    assert "Yan and Hunt 1999" in basis.inner_text()


def test_bars_point_to_the_side_of_their_ratio(desk: Page) -> None:
    desk.locator("#list-spray tbody tr").nth(1).click()
    for row in desk.locator(".factor-row").all():
        ratio = float(row.locator(".ratio").inner_text().removeprefix("×"))
        mark, track = row.locator(".mark").bounding_box(), row.locator(".track").bounding_box()
        assert mark is not None
        assert track is not None
        middle = track["x"] + track["width"] / 2
        if ratio > 1:
            assert mark["x"] == pytest.approx(middle, abs=1)
        elif ratio < 1:
            assert mark["x"] + mark["width"] == pytest.approx(middle, abs=1)


def test_the_card_tells_ranks_reasons_sources_and_what_is_not_known(desk: Page) -> None:
    desk.locator("#list-spray tbody tr").first.click()
    words = desk.locator("#why").inner_text()
    for part in [
        "Keitt · 2.2\u00a0ha",
        "No. 1",
        "B01 has little protection left",
        "Nobody has looked at B01",
        "Protection left",
        "Background, from beyond the map",
        "Other outlines' spores come mostly from the north-east, most of them from within 300 m.",
        "What the tool does not know",
        "no look on record",
        "nothing here has been tested against this farm's own seasons",
    ]:
        assert part in words
    shares = desk.locator(".sources .ratio").all_inner_texts()
    assert sum(int(share.removesuffix("\u00a0%")) for share in shares) == pytest.approx(100, abs=3)


def test_the_chart_marks_today_and_follows_the_day_shown(desk: Page) -> None:
    desk.locator("#list-spray tbody tr").first.click()
    chart = desk.locator(".chart")
    assert "Hazard index by day" in (chart.get_attribute("aria-label") or "")
    assert chart.locator("text=today").count() == 1
    before = chart.locator(".dot").get_attribute("cx")
    desk.focus("#day")
    desk.keyboard.press("ArrowLeft")
    assert chart.locator(".dot").get_attribute("cx") != before
    assert "Tue 13 Aug" in desk.locator(".day-facts").inner_text()
    desk.click("[data-unit=temperature][value=F]")
    assert "°F" in desk.locator(".day-facts").inner_text()


def test_the_card_says_what_is_doubtful_about_the_ground(desk: Page) -> None:
    desk.locator("#list-spray tbody tr", has_text=OFF_THE_GRID).first.click()
    words = desk.locator("#why").inner_text()
    assert "ground not known" in words
    assert "m above sea level" not in words
    assert "Ground: the elevation file has none of it" in desk.locator(".doubts").inner_text()


def test_the_card_says_what_of_the_labels_could_be_sprayed_and_where_that_comes_from(
    desk: Page, open_page: Open
) -> None:
    desk.evaluate("() => mangoPage.app.set({ selected: 0 })")
    assert "Suggestions need your own label file" in desk.locator("#why").inner_text()
    assert desk.locator("#why .materials").count() == 0
    demo = open_page(path=demo_folder() / "block-map.html")
    first = demo_outcome().spray.entries[0].block
    place = demo_outcome().farm.blocks.index.get_loc(first)
    demo.evaluate(f"() => mangoPage.app.set({{ selected: {place} }})")
    card = demo.locator("#why .materials").inner_text()
    assert "What could be sprayed: check the label" in card
    assert "suggest: passes every rule asked, open from Wed 18 Feb 11:00" in card
    assert "FRAC M02" in card
    assert "prevents 0.6 (0.39 to 0.81; efficacy assumed)" in card
    assert "closed today: Days since azoxystrobin before: 13 d, limit 14 d" in card
    assert "caution: Copper in open bloom" in card
    assert "Nothing is picked here. Check the label." in card
    # What passes comes before what does not.
    assert card.index("closed today") > card.rindex("suggest:")
    demo.select_option("#disease", label="Anthracnose on blossom")
    assert "not known to act on anthracnose on blossom" in demo.locator("#why").inner_text()
