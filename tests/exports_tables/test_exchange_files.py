"""Outlines for exchange and for phones read back with other libraries, whatever names hold."""

import json
import re
from pathlib import Path
from xml.etree import ElementTree as ET

import geopandas as gpd
import numpy as np
import pyogrio
import pytest
import shapely

from geo.exports.exchange_files import DECIMALS, KML, write_geojson, write_kml
from geo.exports.geopackage import block_table
from geo.exports.page_classes import CLASS_COLOURS
from geo.ranking.classes import CLASS_WORDS
from tests.demo_run import demo_folder, demo_outcome
from tests.hostile import PAYLOADS


@pytest.fixture(scope="module")
def table() -> gpd.GeoDataFrame:
    demo = demo_outcome()
    return block_table(demo.farm, demo.season, spray=demo.spray, scouting=demo.scouting)


@pytest.fixture(scope="module")
def hostile(table: gpd.GeoDataFrame) -> gpd.GeoDataFrame:
    some = table.iloc[: len(PAYLOADS)].copy()
    some["name"] = list(PAYLOADS)
    some["cultivar"] = list(PAYLOADS)
    return some


def in_degrees(table: gpd.GeoDataFrame) -> list[shapely.Geometry]:
    return list(table.to_crs("EPSG:4326").geometry)


# RFC 7946, sections 4 (no "crs", WGS 84), 3.1.6 (exterior rings anticlockwise) and 5 (bbox).
def test_geojson_keeps_what_rfc_7946_asks(table: gpd.GeoDataFrame) -> None:
    content = json.loads((demo_folder() / "blocks.geojson").read_text("utf-8"))
    assert content["type"] == "FeatureCollection"
    assert "crs" not in content
    west, south, east, north = content["bbox"]
    assert -180 <= west < east <= 180
    assert -90 <= south < north <= 90
    for feature in content["features"]:
        shape = shapely.geometry.shape(feature["geometry"])
        assert all(part.exterior.is_ccw for part in shapely.get_parts(shape))
    assert len(content["features"]) == len(table)


def test_geojson_reads_back_as_the_blocks(table: gpd.GeoDataFrame) -> None:
    read = gpd.read_file(demo_folder() / "blocks.geojson").set_index("block_id")
    assert list(read.index) == list(table.index)
    np.testing.assert_allclose(read["hazard_ahead"], table["hazard_ahead"], rtol=1e-12)
    off = shapely.hausdorff_distance(list(read.geometry), in_degrees(table))
    assert off.max() < 2 * 10.0**-DECIMALS


def test_kml_reads_back_as_the_blocks_in_folders_of_their_class(table: gpd.GeoDataFrame) -> None:
    path = demo_folder() / "blocks.kml"
    layers = [name for name, _ in pyogrio.list_layers(path)]
    words = [word for word in CLASS_WORDS[::-1] if (table["class_ahead"] == word).any()]
    assert [layer.rpartition(" (")[0] for layer in layers] == words
    shapes = {}
    for layer in layers:
        read = gpd.read_file(path, layer=layer)
        assert (read["class_ahead"] == layer.rpartition(" (")[0]).all()
        shapes |= {
            str(name).split(" ")[0]: shape
            for name, shape in zip(read["Name"], read.geometry, strict=True)
        }
    order = [shapes[block] for block in table.index]
    assert shapely.hausdorff_distance(order, in_degrees(table)).max() < 2 * 10.0**-DECIMALS


# OGC 07-147r2, "color": aabbggrr in hexadecimal.
def test_kml_writes_colours_back_to_front() -> None:
    root = ET.parse(demo_folder() / "blocks.kml").getroot()
    of_fill = [mark.text for mark in root.iterfind(f".//{{{KML}}}PolyStyle/{{{KML}}}color")]
    first = CLASS_COLOURS[-1]
    assert of_fill[0] == f"b3{first[5:7]}{first[3:5]}{first[1:3]}"


def test_hostile_names_stay_text_in_geojson(hostile: gpd.GeoDataFrame, tmp_path: Path) -> None:
    write_geojson(tmp_path / "blocks.geojson", hostile)
    assert list(gpd.read_file(tmp_path / "blocks.geojson")["name"]) == list(PAYLOADS)


def test_hostile_names_stay_text_in_kml(hostile: gpd.GeoDataFrame, tmp_path: Path) -> None:
    write_kml(tmp_path / "blocks.kml", hostile, title=PAYLOADS[0])
    content = (tmp_path / "blocks.kml").read_text("utf-8")
    assert "<!" not in content
    root = ET.fromstring(content)
    names = {mark.findtext(f"{{{KML}}}name") for mark in root.iter(f"{{{KML}}}Placemark")}
    for block, name in zip(hostile.index, PAYLOADS, strict=True):
        seen = re.sub("[\u0001\u0007\u001b]", "", name.replace("\r\n", "\n"))
        assert f"{block} {seen}" in {str(one).replace("\r", "") for one in names} | names
    for told in root.iter(f"{{{KML}}}description"):
        assert "<img" not in str(told.text)
        assert "<script" not in str(told.text)


def test_holes_and_parts_survive_in_kml(table: gpd.GeoDataFrame, tmp_path: Path) -> None:
    x, y = table.geometry.iloc[0].centroid.coords[0]
    ring = shapely.box(x, y, x + 90, y + 90).difference(shapely.box(x + 30, y + 30, x + 60, y + 60))
    parts = shapely.MultiPolygon([ring, shapely.box(x + 200, y, x + 230, y + 40)])
    two = table.iloc[:1].copy().set_geometry([parts], crs=table.crs)
    write_kml(tmp_path / "blocks.kml", two, title="two")
    read = gpd.read_file(tmp_path / "blocks.kml").to_crs(table.crs)
    assert read.geometry.iloc[0].area == pytest.approx(90 * 90 - 30 * 30 + 30 * 40, rel=1e-4)


def test_a_full_disk_is_told_as_such(table: gpd.GeoDataFrame, tmp_path: Path) -> None:
    with pytest.raises(OSError, match="nowhere"):
        write_geojson(tmp_path / "nowhere" / "blocks.geojson", table)
