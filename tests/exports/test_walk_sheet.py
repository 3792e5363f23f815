"""The walk on one sheet of paper: complete, one page, black and white, readable on a phone."""

import re
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import numpy as np
import pytest
import shapely

from geo.exports.drawings import drawings
from geo.exports.walk_map import inset, overview, path_of, pushed_apart
from geo.exports.walk_sheet import walk_html, write_walk_sheet
from geo.scouting.walk import Walk
from geo.texts import LANGUAGES, speaking
from tests.exports.conftest import DESK, PHONE, Tab
from tests.exports.made import HOSTILE, HOSTILE_TEMPLATE, Made
from tests.exports.made_walks import walk_through
from tests.scouting.made_walk import OPENS

DISEASE = "panicle_mildew"
BLOCKS = ("B03", "B05", "B01", "B02", "B06", "B07")


@pytest.fixture(scope="module")
def usual(farm_made: Made) -> Walk:
    """Return a walk of two hours, with names that would spoil a careless page."""
    return walk_through(
        farm_made, dict.fromkeys(BLOCKS, 9), hours=2.0, B01=OPENS + timedelta(hours=3), B02=None
    )


@pytest.fixture(scope="module")
def sheet(farm_made: Made, usual: Walk, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("walk") / "walk-sheet.html"
    write_walk_sheet(path, farm=farm_made.farm, walk=usual, disease=DISEASE)
    return path


def test_each_tree_has_a_row_with_a_box_for_each_panicle(usual: Walk, sheet: Path) -> None:
    html = sheet.read_text("utf-8")
    trees = sum(len(visit.stops) for visit in usual.visits)
    assert len(usual.visits) >= 2
    assert html.count('<tr><th scope="row">') == trees
    assert html.count("<i></i>") == 10 * trees
    for visit in usual.visits:
        assert visit.entry.proof in html
        assert f"<time>{visit.arrives:%H:%M}</time>" in html


def test_sums_typed_back_name_their_disease(farm_made: Made, usual: Walk) -> None:
    html = walk_html(farm=farm_made.farm, walk=usual, disease="leaf_mildew")
    assert "disease (powdery mildew on leaves), inspected, infected." in html


def test_a_name_that_is_written_from_the_right_turns_no_hours_round(
    farm_made: Made, usual: Walk
) -> None:
    block = usual.visits[0].entry.block
    blocks = farm_made.farm.blocks.assign(name="east \u202e tsew")
    html = walk_html(farm=replace(farm_made.farm, blocks=blocks), walk=usual, disease="leaf_mildew")
    assert f"<b><bdi>{block}</bdi></b> <bdi>east \u202e tsew</bdi>, " in html
    assert "<small><bdi>east \u202e tsew</bdi></small>" in html


def test_it_says_who_may_not_be_entered_and_what_stands_next(usual: Walk, sheet: Path) -> None:
    html = sheet.read_text("utf-8")
    assert "B01: do not enter before Wed 14 Aug 09:30." in html
    assert "B02: sprayed, re-entry hours not known. Do not enter." in html
    assert f"Not on it, in this order: <bdi>{usual.left_out[0].entry.block}" in html
    assert "06:30 to 10:30" in html
    assert "the label holds" in html
    assert "Walk early." in html


def test_a_walked_block_that_opens_later_says_so(farm_made: Made) -> None:
    walk = walk_through(farm_made, {"B01": 5}, B01=OPENS + timedelta(minutes=30))
    html = walk_html(farm=farm_made.farm, walk=walk, disease=DISEASE)
    assert "B01: do not enter before Wed 14 Aug 07:00 (on this walk after that)." in html
    plain = walk_through(farm_made, {"B01": 5})
    html = walk_html(farm=farm_made.farm, walk=plain, disease=DISEASE)
    assert "No block is known to be within its re-entry time." in html


def test_it_shows_all_pictures_the_one_looked_for_first_and_the_scale(
    farm_made: Made, usual: Walk
) -> None:
    html = walk_html(farm=farm_made.farm, walk=usual, disease="fruit_anthracnose")
    for drawing in drawings():
        assert drawing.markup in html
        assert drawing.words in html
    assert html.index("Anthracnose on fruit.") < html.index("Powdery mildew on a panicle.")
    grades = re.findall(r"<b>(\d)</b> ([^<]+)</li>", html)
    assert grades == [
        ("0", "none"),
        ("1", "1–10 %"),
        ("2", "11–25 %"),
        ("3", "26–50 %"),
        ("4", "51–75 %"),
        ("5", "over 75 %"),
    ]
    covered = [part.count('class="on"') for part in html.split("<li><svg")[1:]]
    assert covered[0] == 0
    assert covered == sorted(covered)


def test_names_are_escaped_and_the_page_may_run_and_fetch_nothing(sheet: Path) -> None:
    html = sheet.read_text("utf-8")
    assert HOSTILE not in html
    assert HOSTILE_TEMPLATE not in html
    assert "&lt;img src=x" in html
    assert "<script" not in html
    assert " style=" not in html
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', html)
    assert policy
    assert policy[1].startswith("default-src 'none'; script-src 'none'; style-src 'sha256-")


def test_the_same_walk_gives_the_same_bytes(farm_made: Made, usual: Walk, sheet: Path) -> None:
    again = walk_html(farm=farm_made.farm, walk=usual, disease=DISEASE)
    assert again == sheet.read_text("utf-8")


def test_it_is_black_and_white(sheet: Path) -> None:
    colours = set(re.findall(r"#[0-9a-fA-F]{3,6}\b(?!\")", sheet.read_text("utf-8")))
    for colour in colours:
        digits = colour[1:] if len(colour) == 7 else "".join(2 * one for one in colour[1:])
        if len(digits) == 6:
            assert len({digits[:2], digits[2:4], digits[4:]}) == 1, colour


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_it_fits_its_screen_without_scripts_or_faults(
    size: dict[str, int], tab: Tab, sheet: Path
) -> None:
    opened, said = tab(viewport=size), []
    opened.on("console", lambda message: said.append(message.text))
    opened.on("request", lambda request: said.append(request.url))
    opened.goto(sheet.as_uri())
    assert opened.evaluate("document.documentElement.scrollWidth") == size["width"]
    small = opened.evaluate(
        """() => [...document.querySelectorAll("main *")].filter((e) => !e.closest("svg")
        && [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim())
        && parseFloat(getComputedStyle(e).fontSize) < 14).map((e) => e.outerHTML.slice(0, 80))"""
    )
    assert small == []
    box = opened.locator("td i").first.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 18
    assert said == [sheet.as_uri()]


@pytest.mark.parametrize(
    "counts",
    [
        {"B03": 20},
        {"B03": 20, "B05": 16},
        {"B03": 11, "B05": 11},
        {"B03": 9, "B05": 8, "B06": 7},
        {"B03": 5, "B05": 5, "B01": 6, "B02": 5},
        {"B03": 5, "B05": 5, "B01": 5, "B02": 5, "B06": 5},
    ],
    ids=lambda counts: "+".join(map(str, counts.values())),
)
@pytest.mark.parametrize("tag", LANGUAGES)
def test_a_usual_walk_is_one_page_of_a4_in_every_language(
    tag: str, counts: dict[str, int], farm_made: Made, tab: Tab, tmp_path: Path
) -> None:
    walk = walk_through(farm_made, counts)
    assert len(walk.visits) == len(counts)
    path = tmp_path / "walk-sheet.html"
    with speaking(tag):
        write_walk_sheet(path, farm=farm_made.farm, walk=walk, disease=DISEASE)
    opened = tab()
    opened.goto(path.as_uri())
    pdf = opened.pdf(prefer_css_page_size=True)
    assert re.findall(rb"/Type /Pages\s+/Count (\d+)|/Count (\d+)", pdf)
    assert len(re.findall(rb"/Type /Page\b", pdf)) == 1
    width, height = map(float, re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)[0])
    assert (width, height) == pytest.approx((595.3, 841.9), abs=1.5)


def test_a_very_long_walk_is_let_run_over(farm_made: Made, usual: Walk) -> None:
    crowd = replace(usual, visits=usual.visits * 9)
    html = walk_html(farm=farm_made.farm, walk=crowd, disease=DISEASE)
    assert "--row: 4.2mm; --columns: 3" in html


def test_the_overview_shows_the_way_and_the_numbered_blocks(farm_made: Made, usual: Walk) -> None:
    drawn = overview(farm_made.farm, usual)
    assert [visit["number"] for visit in drawn["visits"]] == [
        visit.number for visit in usual.visits
    ]
    assert sum(block["is_walked"] for block in drawn["blocks"]) == len(usual.visits)
    points = [*drawn["visits"], *drawn["labels"], drawn["start"]]
    assert all(0 <= point["x"] <= drawn["width"] for point in points)
    assert all(0 <= point["y"] <= drawn["height"] for point in points)
    assert drawn["bar"]["words"].endswith(" m")


def test_an_inset_holds_its_trees_and_says_how_they_were_chosen(
    farm_made: Made, usual: Walk
) -> None:
    visit = usual.visits[0]
    drawn = inset(farm_made.farm, visit, (376.0, 160.0))
    assert [stop["number"] for stop in drawn["stops"]] == [stop.number for stop in visit.stops]
    assert {stop["shape"] for stop in drawn["stops"]} <= {"disc", "square", "ring"}
    assert all(0 <= stop["x"] <= 376 and 0 <= stop["y"] <= 160 for stop in drawn["stops"])


def test_marks_on_one_spot_are_pushed_apart_and_stay_on_the_drawing() -> None:
    spot = np.array([[50.0, 4.0]] * 4 + [[200.0, 80.0]])
    moved = pushed_apart(spot, (300.0, 160.0), mark=16.0)
    step = moved[:, None] - moved[None]
    far = np.hypot(step[..., 0], step[..., 1])
    assert far[~np.eye(5, dtype=bool)].min() > 14.4
    assert moved.min() >= 8.0
    np.testing.assert_allclose(moved[4], spot[4], atol=0.01)


def test_a_path_has_its_holes_and_its_lines() -> None:
    ring = shapely.box(0, 0, 4, 4).difference(shapely.box(1, 1, 2, 2))
    assert path_of(ring).count("M") == path_of(ring).count("Z") == 2
    assert path_of(shapely.LineString([(0, 0), (1.26, 2)])) == "M0.0,0.0 1.3,2.0"
