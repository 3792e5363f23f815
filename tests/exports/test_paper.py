"""The still version in few bytes: outlines stay where they are, reasons for scripts off alone."""

import re
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPolygon, Point, Polygon, box

from geo.exports.page_risk import Risk
from geo.exports.paper import paper_html
from geo.exports.paper_brief import LETTERS_OF_A_LIST, brief_blocks, brief_lines, brief_rows
from geo.exports.paper_drawing import HEIGHT, WIDTH, svg_path
from geo.rounds.order import SprayEntry
from tests.exports.conftest import PHONE, Open
from tests.exports.made import APART, CLOSED, UNKNOWN, Made, made, made_farm

REASONS = ".reasons tbody tr:first-child"
NUMBER = re.compile(r"-?\d*\.?\d+")


def rings_of(path: str) -> list[np.ndarray]:
    """Read a path back (SVG 2, section 9.3): M is a place, l and what follows it are steps."""
    assert re.fullmatch(r"(M[-\d. ]+(l[-\d. ]+)?z)*", path)
    found = []
    for ring in path.split("z")[:-1]:
        numbers = np.array([float(number) for number in NUMBER.findall(ring)]).reshape(-1, 2)
        found.append(np.cumsum(numbers, axis=0))
    return found


def shape_of(path: str) -> shapely.Geometry:
    """Fill what a path goes round by the non-zero rule, holes being what turns the other way."""
    rings = [shapely.linearrings(ring) for ring in rings_of(path) if len(ring) > 2]
    # Down is positive in a drawing, so that what turned left turns right.
    outer = [shapely.polygons(ring) for ring in rings if not shapely.is_ccw(ring)]
    holes = [shapely.polygons(ring) for ring in rings if shapely.is_ccw(ring)]
    return shapely.difference(shapely.union_all(outer), shapely.union_all(holes))


def in_pixels(shapes: np.ndarray, west: float, north: float, scale: float) -> np.ndarray:
    return shapely.transform(shapes, lambda at: (at - [west, north]) * [scale, -scale])


def off(path: str, drawn: shapely.Geometry) -> float:
    """Return by how many pixels the lines of a path and of an outline differ at most."""
    rings = [shapely.linestrings(np.vstack([ring, ring[:1]])) for ring in rings_of(path)]
    lines = shapely.union_all(rings)
    return float(shapely.hausdorff_distance(lines, shapely.boundary(drawn), densify=0.05))


def test_a_drawn_outline_lies_within_half_a_pixel_of_the_outline() -> None:
    shapes = made_farm(40).blocks.geometry.to_numpy()  # with a hole, with parts
    west, south, east, north = shapely.total_bounds(shapes)
    scale = min(WIDTH / (east - west), HEIGHT / (north - south))
    for shape, drawn in zip(shapes, in_pixels(shapes, west, north, scale), strict=True):
        path = svg_path(np.array([shape]), west=west, north=north, scale=scale)
        assert off(path, drawn) < 0.5
        difference = shapely.symmetric_difference(shape_of(path), drawn)
        assert difference.area < 0.5 * drawn.length


@settings(max_examples=25)
@given(
    st.integers(3, 400),
    st.floats(0.02, 3.0),
    st.tuples(st.floats(-1e3, 9e6), st.floats(-1e3, 9e6)),
)
def test_round_outlines_of_many_corners_stay_in_place_too(
    corners: int, scale: float, middle: tuple[float, float]
) -> None:
    turn = np.linspace(0, 2 * np.pi, corners, endpoint=False)
    ring = np.column_stack([np.cos(turn), np.sin(turn)]) * (300 + 40 * np.sin(5 * turn))[:, None]
    shape = shapely.polygons(ring + middle)
    west, _, _, north = shapely.bounds(shape).tolist()
    path = svg_path(np.array([shape]), west=west, north=north, scale=scale)
    drawn = in_pixels(np.array([shape]), west, north, scale)[0]
    assert off(path, drawn) < 0.5
    assert len(rings_of(path)[0]) <= corners


def test_holes_stay_open_whichever_way_they_turn_and_a_block_in_a_hole_is_filled() -> None:
    lake = Point(50, 50).buffer(20).exterior.coords
    one = Polygon(box(0, 0, 100, 100).exterior.coords, [lake])
    other = Polygon(box(0, 0, 100, 100).exterior.coords[::-1], [lake[::-1]])
    for shape in (one, other):
        filled = shape_of(svg_path(np.array([shape]), west=0.0, north=100.0, scale=1.0))
        assert not filled.contains(Point(50, 50))
        assert filled.contains(Point(5, 5))
    island = MultiPolygon([box(45, 45, 55, 55), box(130, 10, 150, 30)])
    path = svg_path(np.array([one, island]), west=0.0, north=100.0, scale=1.0)
    assert len(rings_of(path)) == 4
    assert path.count("M") == path.count("z") == 4


def test_numbers_are_written_short() -> None:
    shape = Polygon([(0.3, 9.5), (10, 9.5), (10, 0), (0.3, 0.04), (0.3, 0.04)])
    path = svg_path(np.array([shape]), west=0.0, north=10.0, scale=1.0)
    assert path == "M.3 .5l0 9.5 9.7 0 0-9.5z"
    assert svg_path(np.array([]), west=0.0, north=0.0, scale=1.0) == ""


def test_the_drawing_groups_outlines_by_class_and_marks_every_block(farm_made: Made) -> None:
    html = paper_of(farm_made)
    paths = re.findall(r'<path class="outline( barred)?" fill="([^"]+)" d="([^"]+)"', html)
    assert len(paths) == len({(barred, fill) for barred, fill, _ in paths})
    assert [bool(barred) for barred, _, _ in paths].index(True) == len(paths) - 1
    rings = shapely.get_num_interior_rings(shapely.get_parts(farm_made.farm.blocks.geometry)) + 1
    assert sum(path.count("M") for _, _, path in paths) == rings.sum()
    unknown = next(path for _, fill, path in paths if fill == "url(#unknown)")
    assert unknown.count("M") == 1
    ids = re.search(r'<g class="ids">(.*?)</g>', html)
    assert ids is not None
    assert ids.group(1).count("<text") == 12
    assert html.count('<circle class="ring"') == 1 + 1  # APART, and in the key
    assert {APART, CLOSED, UNKNOWN} <= set(re.findall(r">(B\d\d)<", ids.group(1)))
    assert "too small" not in html


def test_of_many_blocks_the_still_version_stays_lean() -> None:
    # 86 kB of outlines alone while each corner stood with both its places.
    assert len(paper_of(made(count=300)).encode()) < 60_000


def test_a_block_too_small_for_its_number_is_left_without_one() -> None:
    crowded = made(count=500)
    html = paper_of(crowded)
    ids = re.search(r'<g class="ids">(.*?)</g>', html)
    assert ids is not None
    assert ids.group(1) == ""
    assert "A block too small for its number or its name carries none." in html


def test_a_day_without_a_block_to_spray_says_so(farm_made: Made) -> None:
    html = paper_of(farm_made, entries=())
    assert "No block to spray now." in html
    assert "The page tells the reasons on a screen." in html
    assert "The reasons are in" not in html


def paper_of(made: Made, **changed: object) -> str:
    spray = replace(made.spray, **changed)
    return paper_html(made.farm, Risk(made.season, spray, made.scouting))


def entries_of(count: int) -> list[SprayEntry]:
    first = made().spray.entries[0]
    return [replace(first, rank=rank, block=f"B{rank}") for rank in range(1, count + 1)]


@pytest.mark.parametrize(
    ("name", "columns", "rows"), [("", 3, 66), ("South spur three", 2, 44), ("x" * 60, 1, 22)]
)
def test_the_longer_the_names_the_fewer_columns_and_rows(
    name: str, columns: int, rows: int
) -> None:
    entries = entries_of(100)
    names = {entry.block: name or entry.block for entry in entries}
    found = brief_rows(entries, names, 22)
    assert (found.columns, len(found.rows), found.rest) == (columns, rows, 100 - rows)
    assert brief_rows(entries[:3], names, 22).rest == 0
    assert brief_rows([], {}, 22).rows == ()


def test_a_drawing_and_notes_take_lines_from_the_order() -> None:
    alone = brief_lines(0.0, ())
    assert alone > brief_lines(HEIGHT / 3, ()) > brief_lines(HEIGHT, ())
    assert brief_lines(HEIGHT, ["Check the label."]) == brief_lines(HEIGHT, ()) - 1
    assert brief_lines(0.0, ["much " * 30, "noted"]) == alone - 3
    assert brief_lines(HEIGHT, ["noted"] * 100) > 0


def test_a_name_that_takes_lines_takes_room_from_the_others() -> None:
    entries = entries_of(100)
    names = {entry.block: entry.block for entry in entries} | {"B2": "y" * 80}
    plain = brief_rows(entries, names | {"B2": "B2"}, 11)
    assert 0 < len(brief_rows(entries, names, 11).rows) < len(plain.rows)
    wide = brief_rows(entries, {entry.block: "漢" * 60 for entry in entries}, 11)
    assert len(wide.rows) == 5  # two lines each of eleven


def test_a_list_of_names_tells_how_many_it_leaves_out() -> None:
    found = brief_blocks([f"B{number:03d}" for number in range(1000)])
    assert len(", ".join(found.ids)) <= LETTERS_OF_A_LIST
    assert len(found.ids) + found.rest == 1000
    assert brief_blocks(["z" * 500, "y" * 500]).ids == ("z" * 79 + "…",)
    assert brief_blocks([]).ids == ()


def test_only_where_scripts_are_off_are_the_reasons_elements(open_page: Open) -> None:
    running = open_page()
    assert running.locator(".paper table, .paper .reasons, .paper a").count() == 0
    assert running.locator(".paper .brief li").count() > 0
    # Scripts that stop leave the day in short, not the sentence about screens.
    running.evaluate("document.documentElement.classList.remove('live')")
    assert running.locator(".paper .brief").is_visible()
    assert running.locator(".paper .printed").is_hidden()
    off_page = open_page(java_script_enabled=False, size=PHONE)
    assert off_page.locator(".paper .reasons table").count() == 4
    assert off_page.locator(".paper .reasons").is_visible()
    assert off_page.locator(".paper .brief").is_hidden()
    assert off_page.locator(".paper-cautions").is_visible()
    # The reason of a block stands below it, within the width of a phone.
    for name in (f"{REASONS} th", f"{REASONS} td:last-child"):
        box = off_page.locator(name).first.bounding_box()
        assert box is not None
        assert box["x"] + box["width"] <= PHONE["width"]
