"""GPX that any reader of the standard opens: named places, a route over them and a track."""

from datetime import date
from pathlib import Path
from xml.etree import ElementTree as ET

import gpxpy
import pyogrio

from geo.exports.gpx import Mark, Way, write_gpx
from tests.exports.made import HOSTILE, made_farm

DAY = date(2026, 2, 18)
SPACE = "{http://www.topografix.com/GPX/1/1}"
FIRST = Mark("01 B14", -105.7912345678, 23.7, comment="by lot", description="B14, by lot")
SECOND = Mark(f"02 {HOSTILE}\x07", -105.79, 23.71, kind="gate")
BENDS = ((-105.79, 23.70), (-105.78, 23.71), (-105.79, 23.72))


def written(folder: Path) -> Path:
    path = folder / "walk.gpx"
    write_gpx(
        path,
        farm=made_farm(3),
        day=DAY,
        description="A walk: planned, not walked",
        marks=[FIRST, SECOND],
        ways=[
            Way("Walk", "planned", BENDS, marks=(FIRST, SECOND)),
            Way("Line", "planned", BENDS),
        ],
    )
    return path


def test_it_says_its_version_and_its_parts_stand_in_the_order_of_the_standard(
    tmp_path: Path,
) -> None:
    root = ET.parse(written(tmp_path)).getroot()
    assert root.tag == f"{SPACE}gpx"
    assert root.get("version") == "1.1"
    assert root.get("creator", "").startswith("mangoblock-risk ")
    parts = [child.tag.removeprefix(SPACE) for child in root]
    assert parts == ["metadata", "wpt", "wpt", "rte", "trk", "trk"]
    place = [child.tag.removeprefix(SPACE) for child in root.find(f"{SPACE}wpt") or ()]
    assert place == ["name", "cmt", "desc", "type"]


def test_it_comes_back_as_it_was_and_bears_no_time(tmp_path: Path) -> None:
    text = written(tmp_path).read_text("utf-8")
    back = gpxpy.parse(text)
    assert [mark.name for mark in back.waypoints] == ["01 B14", f"02 {HOSTILE}"]
    assert back.waypoints[0].longitude == -105.7912346
    assert [point.name for point in back.routes[0].points] == ["01 B14", f"02 {HOSTILE}"]
    bends = [(point.longitude, point.latitude) for point in back.tracks[1].segments[0].points]
    assert tuple(bends) == BENDS
    assert "<time>" not in text
    assert HOSTILE not in text


def test_another_reader_finds_its_layers_too(tmp_path: Path) -> None:
    path = written(tmp_path)
    assert {"waypoints", "routes", "tracks"} <= {name for name, _ in pyogrio.list_layers(path)}
    assert len(pyogrio.read_dataframe(path, layer="waypoints")) == 2


def test_the_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    assert written(tmp_path).read_bytes() == written(tmp_path / "other").read_bytes()
