"""The blocks for phones and for whoever asks for them: GeoJSON (RFC 7946) and KML."""

import html
from math import isnan
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import geopandas as gpd
import pyogrio
import shapely
from pyogrio.errors import DataSourceError, FeatureError

from geo.exports.files import write_whole
from geo.exports.page_classes import CLASS_COLOURS, NOT_KNOWN_COLOUR, NOT_KNOWN_WORD
from geo.exports.xml_text import xml_text
from geo.ranking.classes import CLASS_WORDS
from geo.texts import mark, phrase_of

# A centimetre on the ground is 1e-7 degrees (RFC 7946, section 11.2, finds six decimals enough).
DECIMALS = 7
KML = "http://www.opengis.net/kml/2.2"
# What a phone shows beside the name; everything else is in the other files.
TOLD = {
    "class_ahead": mark("class ahead"),
    "hazard_ahead": mark("hazard ahead"),
    "spray_rank": mark("spray rank"),
    "scouting_rank": mark("scouting rank"),
    "cultivar": mark("cultivar"),
    "area": mark("area"),
    "scenario": mark("scenario"),
}


def write_geojson(path: Path, table: gpd.GeoDataFrame) -> None:
    """
    Write the blocks with their numbers as GeoJSON.

    Parameters
    ----------
    path : pathlib.Path
        Of the file.
    table : geopandas.GeoDataFrame
        One row a block, as the GeoPackage has it.

    Raises
    ------
    OSError
        If there is no room for it.
    """
    degrees = table.to_crs("EPSG:4326").reset_index()
    options = {"RFC7946": "YES", "COORDINATE_PRECISION": str(DECIMALS), "WRITE_BBOX": "YES"}

    def write(beside: Path) -> None:
        try:
            pyogrio.write_dataframe(
                degrees, beside, driver="GeoJSON", layer="blocks", layer_options=options
            )
        except (DataSourceError, FeatureError) as error:
            raise OSError(str(error)) from error

    write_whole(path, write)


def write_kml(path: Path, table: gpd.GeoDataFrame, *, title: str) -> None:
    """
    Write the blocks in the colours of their classes as KML, a folder a class.

    Parameters
    ----------
    path : pathlib.Path
        Of the file.
    table : geopandas.GeoDataFrame
        One row a block, as the GeoPackage has it.
    title : str
        Of the document.
    """
    degrees = table.to_crs("EPSG:4326")
    root = ET.Element("kml", xmlns=KML)
    document = ET.SubElement(root, "Document")
    _text(document, "name", title)
    words = (*CLASS_WORDS[::-1], NOT_KNOWN_WORD)
    colours = (*CLASS_COLOURS[::-1], NOT_KNOWN_COLOUR)
    for number, colour in enumerate(colours):
        _add_style(document, f"class-{number}", colour)
    for number, word in enumerate(words):
        of_class = degrees[degrees["class_ahead"] == word]
        if len(of_class):
            folder = ET.SubElement(document, "Folder")
            _text(folder, "name", f"{phrase_of(word)} ({len(of_class)})")
            columns = [of_class[name].tolist() for name in TOLD]
            for block, name, shape, *told in zip(
                of_class.index, of_class["name"], of_class.geometry, *columns, strict=True
            ):
                _add_block(folder, f"{block} {name}".strip(), shape, told, f"#class-{number}")
    written = ET.tostring(root, encoding="utf-8", xml_declaration=True)
    write_whole(path, lambda beside: _write_bytes(beside, written))


def _write_bytes(path: Path, content: bytes) -> None:
    path.write_bytes(content)


def _add_style(document: ET.Element, name: str, colour: str) -> None:
    style = ET.SubElement(document, "Style", id=name)
    # KML writes a colour as opacity, blue, green, red.
    red, green, blue = colour[1:3], colour[3:5], colour[5:7]
    _text(ET.SubElement(style, "LineStyle"), "color", "ff333333")
    _text(ET.SubElement(style, "PolyStyle"), "color", f"b3{blue}{green}{red}")


def _add_block(
    folder: ET.Element, name: str, shape: shapely.Geometry, told: list[Any], style: str
) -> None:
    placed = ET.SubElement(folder, "Placemark")
    _text(placed, "name", name)
    # Viewers read a description as HTML: what users wrote is escaped for that too.
    words = {"class_ahead": phrase_of}
    lines = [
        f"{phrase_of(title)}: {html.escape(words.get(column, str)(_said(value)))}"
        for (column, title), value in zip(TOLD.items(), told, strict=True)
        if _said(value)
    ]
    _text(placed, "description", "<br/>".join(lines))
    _text(placed, "styleUrl", style)
    data = ET.SubElement(placed, "ExtendedData")
    for title, value in zip(TOLD, told, strict=True):
        _text(ET.SubElement(data, "Data", name=title), "value", _said(value))
    parts = shapely.get_parts(shape)
    holder = placed if len(parts) == 1 else ET.SubElement(placed, "MultiGeometry")
    for part in parts:
        polygon = ET.SubElement(holder, "Polygon")
        for kind, rings in (
            ("outerBoundaryIs", [part.exterior]),
            ("innerBoundaryIs", list(part.interiors)),
        ):
            for ring in rings:
                line = ET.SubElement(ET.SubElement(polygon, kind), "LinearRing")
                _text(line, "coordinates", _corners(ring))


def _corners(ring: shapely.LinearRing) -> str:
    return " ".join(f"{x:.{DECIMALS}f},{y:.{DECIMALS}f}" for x, y in shapely.get_coordinates(ring))


def _said(value: object) -> str:
    if isinstance(value, float):
        return "" if isnan(value) else f"{value:.4g}"
    return str(value)


def _text(parent: ET.Element, tag: str, text: str) -> None:
    ET.SubElement(parent, tag).text = xml_text(text)
