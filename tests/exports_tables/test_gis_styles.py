"""The layers bring their colours along, the same as on the map page."""

import sqlite3
from contextlib import closing
from xml.etree import ElementTree as ET

import geopandas as gpd
import pytest

from geo.exports.geopackage import COOLEST_LAYER, LAYER
from geo.exports.geopackage_styles import add_styles
from geo.exports.gis_styles import style_of_classes, style_of_coolest
from geo.exports.page_classes import CLASS_COLOURS, NOT_KNOWN_COLOUR
from geo.ranking.classes import CLASS_WORDS
from tests.demo_run import demo_folder

WORDS = (*CLASS_WORDS, "Not known")
SE = "{http://www.opengis.net/se}"


def test_each_layer_opens_with_a_style() -> None:
    path = demo_folder() / "blocks.gpkg"
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as connection:
        rows = connection.execute(
            "SELECT f_table_name, f_geometry_column, useAsDefault FROM layer_styles"
        ).fetchall()
        columns = dict(
            connection.execute("SELECT table_name, column_name FROM gpkg_geometry_columns")
        )
        listed = connection.execute(
            "SELECT data_type FROM gpkg_contents WHERE table_name = 'layer_styles'"
        ).fetchall()
    assert rows == [(LAYER, columns[LAYER], 1), (COOLEST_LAYER, columns[COOLEST_LAYER], 1)]
    assert listed == [("attributes",)]


def test_other_readers_still_see_two_layers_of_shapes() -> None:
    layers = gpd.list_layers(demo_folder() / "blocks.gpkg")
    with_shapes = layers[layers["geometry_type"].notna()]
    assert set(with_shapes["name"]) == {LAYER, COOLEST_LAYER}


def test_classes_have_the_colours_of_the_page() -> None:
    style = style_of_classes(LAYER, column="class_ahead", label="block_id")
    root = ET.fromstring(style.qml)
    colours = {}
    for category in root.iter("category"):
        symbol = root.find(f".//symbol[@name='{category.get('symbol')}']//Option[@name='color']")
        assert symbol is not None
        channels = [int(part) for part in str(symbol.get("value")).split(",")[:3]]
        colours[category.get("value")] = "#" + "".join(f"{one:02x}" for one in channels)
    assert colours == dict(zip(WORDS, (*CLASS_COLOURS, NOT_KNOWN_COLOUR), strict=True))


# OGC 05-077r4 (Symbology Encoding), 11.1.2: a fill is an SvgParameter named "fill".
def test_the_open_description_of_styles_says_the_same() -> None:
    style = style_of_classes(LAYER, column="class_ahead", label="block_id")
    root = ET.fromstring(style.sld)
    fills = [mark.text for mark in root.iter(f"{SE}SvgParameter") if mark.get("name") == "fill"]
    assert fills == [*CLASS_COLOURS[::-1], NOT_KNOWN_COLOUR]


def test_coolest_tenths_are_hatched() -> None:
    root = ET.fromstring(style_of_coolest(COOLEST_LAYER).qml)
    pattern = root.find(".//Option[@name='style']")
    assert pattern is not None
    assert pattern.get("value") == "b_diagonal"


def test_a_style_that_cannot_be_written_is_told_as_a_fault_of_the_disk() -> None:
    with pytest.raises(OSError, match="unable to open"):
        add_styles(demo_folder() / "nowhere" / "blocks.gpkg", [], stamp="")
