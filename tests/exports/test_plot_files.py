"""Drawings as files of their own."""

import re
from xml.etree import ElementTree as ET

from geo.exports.plot_files import drawing_paths, write_days_drawing, write_drawings
from tests.exports.drawn import hostile
from tests.exports.made import HOSTILE

SVG = "{http://www.w3.org/2000/svg}"


def test_drawings_are_whole_svg_files_that_run_and_fetch_nothing(tmp_path) -> None:
    farm, season = hostile()
    paths = drawing_paths(tmp_path, season=season, blocks=[HOSTILE, "B02", "B23"])
    write_drawings(paths, farm=farm, season=season)
    by_day = tmp_path / "drawings" / "blocks-by-day.svg"
    write_days_drawing(by_day, farm=farm, season=season)
    for path in (*paths.values(), by_day):
        root = ET.parse(path).getroot()
        kinds = {element.tag.removeprefix(SVG) for element in root.iter()}
        assert root.tag == f"{SVG}svg"
        assert kinds <= {"svg", "title", "style", "g", "defs", "pattern", "path", "rect", "text"}
        links = [
            value
            for element in root.iter()
            for value in element.attrib.values()
            if "url(" in value and not value.startswith("url(#")
        ]
        assert links == []
        names = [element.get("id") for element in root.iter() if element.get("id")]
        assert len(names) == len(set(names))


def test_a_hostile_id_gives_a_plain_name_and_no_two_blocks_share_one(tmp_path) -> None:
    _, season = hostile()
    ids = season.block.values.tolist()
    alike = season.assign_coords(block=["a/b", "a?b", *ids[2:]])
    paths = drawing_paths(tmp_path, season=alike, blocks=["a/b", "a?b"])
    assert len(set(paths.values())) == 2
    for path in (*paths.values(), *drawing_paths(tmp_path, season=season, blocks=None).values()):
        assert path.parent == tmp_path / "drawings"
        assert re.fullmatch(r"season-\d{3}-[A-Za-z0-9_-]*\.svg", path.name)


def test_the_drawing_of_a_block_lists_its_sprays_and_says_that_the_farm_is_made(tmp_path) -> None:
    farm, season = hostile()
    place = season.block.values.tolist().index("B08")
    season = season.copy(deep=True)
    last = int((season.spray_block.values == place).nonzero()[0][-1])
    season["spray_hour"][last] = season.sizes["hour"] - 90.0
    paths = drawing_paths(tmp_path, season=season, blocks=["B08"])
    write_drawings(paths, farm=farm, season=season)
    text = next(iter(paths.values())).read_text("utf-8")
    assert "1 copper, Tue 13 Jan" in text
    assert "Feb (planned)" in text
    assert "(made scenario)" in text
