"""The round as GPX is what other readers read, and bears names without harm."""

from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import gpxpy
import numpy as np
import pyogrio
import pytest

from geo.exports.round_gpx import write_round_gpx
from geo.season.farm import Farm
from tests.exports.made import HOSTILE, made_farm
from tests.exports.made_round import HOSTILE_SPRAYER, made_round

SPACE = "{http://www.topografix.com/GPX/1/1}"


@pytest.fixture(scope="module")
def farm() -> Farm:
    return made_farm(12)


def test_the_root_and_the_order_of_its_children_are_those_of_gpx_1_1(
    farm: Farm, tmp_path: Path
) -> None:
    path = tmp_path / "round.gpx"
    write_round_gpx(path, farm=farm, day_round=made_round(farm))
    root = ET.parse(path).getroot()
    assert root.tag == f"{SPACE}gpx"
    assert root.get("version") == "1.1"
    assert str(root.get("creator")).startswith("mangoblock-risk ")
    kinds = list(dict.fromkeys(child.tag for child in root))
    assert kinds == [f"{SPACE}{kind}" for kind in ("metadata", "wpt", "rte", "trk")]
    names = [child.tag.removeprefix(SPACE) for child in root.find(f"{SPACE}wpt")]
    assert names == ["name", "cmt", "desc", "type"]


def test_two_readers_find_each_stop_numbered_and_each_way_whole(farm: Farm, tmp_path: Path) -> None:
    path = tmp_path / "round.gpx"
    planned = made_round(farm, stops=5, sprayers=("One", "Two"))
    write_round_gpx(path, farm=farm, day_round=planned)
    read = gpxpy.parse(path.read_text("utf-8"))
    assert [point.name for point in read.waypoints][:2] == ["A01 B01", "A02 B02"]
    assert read.waypoints[5].name == "B01 B06"
    assert [track.name for track in read.tracks] == ["One", "Two"]
    way = [(point.longitude, point.latitude) for point in read.tracks[0].segments[0].points]
    assert np.allclose(way, planned.sprayers[0].path, rtol=0, atol=1e-6)
    layers = {name: pyogrio.read_dataframe(path, layer=name) for name in ("waypoints", "tracks")}
    assert len(layers["waypoints"]) == 10
    assert layers["tracks"].crs.to_epsg() == 4326
    stop = planned.sprayers[0].stops[0]
    assert layers["waypoints"].geometry[0].x == pytest.approx(stop.longitude, abs=1e-6)


def test_one_sprayer_needs_no_letter(farm: Farm, tmp_path: Path) -> None:
    path = tmp_path / "round.gpx"
    write_round_gpx(path, farm=farm, day_round=made_round(farm, stops=1))
    assert gpxpy.parse(path.read_text("utf-8")).waypoints[0].name == "01 B01"


def test_hostile_names_stay_names(farm: Farm, tmp_path: Path) -> None:
    path = tmp_path / "round.gpx"
    named = replace(farm, name=f"{HOSTILE}]]>\x00\u202e<!ENTITY x>")
    planned = made_round(farm, sprayers=(HOSTILE_SPRAYER,))
    write_round_gpx(path, farm=named, day_round=planned)
    read = gpxpy.parse(path.read_text("utf-8"))
    assert read.tracks[0].name == HOSTILE_SPRAYER
    assert str(read.name).startswith(f"{HOSTILE}]]><!ENTITY x> (made scenario)")


def test_nothing_planned_is_a_file_without_points(farm: Farm, tmp_path: Path) -> None:
    path = tmp_path / "round.gpx"
    write_round_gpx(path, farm=farm, day_round=made_round(farm, sprayers=()))
    read = gpxpy.parse(path.read_text("utf-8"))
    assert not read.waypoints
    assert not read.tracks
