"""Each file that has a public schema or a validator of its own keeps it."""

from pathlib import Path
from xml.etree import ElementTree as ET

import html5lib
import pytest
from fastkml import KML
from fastkml.validator import get_schema_parser
from geojson_pydantic import FeatureCollection
from lxml import etree
from pypdf import PdfReader
from rio_cogeo import cog_validate

from geo.pipeline.today import today_of, write_today
from tests.demo_run import NAMES, OF_TODAY, demo_folder, demo_outcome

GPX = "{http://www.topografix.com/GPX/1/1}"
_TOLD = ("name", "cmt", "desc", "src", "link")
_POINT = ("ele", "time", "magvar", "geoidheight", *_TOLD, "sym", "type", "fix", "sat", "hdop")
_POINT = (*_POINT, "vdop", "pdop", "ageofdgpsdata", "dgpsid", "extensions")
# The sequences of the GPX 1.1 schema (topografix.com/GPX/1/1/gpx.xsd), type by type.
SEQUENCES = {
    "gpx": ("metadata", "wpt", "rte", "trk", "extensions"),
    "metadata": (
        *("name", "desc", "author", "copyright", "link", "time", "keywords", "bounds"),
        "extensions",
    ),
    "wpt": _POINT,
    "rte": (*_TOLD, "number", "type", "extensions", "rtept"),
    "rtept": _POINT,
    "trk": (*_TOLD, "number", "type", "extensions", "trkseg"),
    "trkseg": ("trkpt", "extensions"),
    "trkpt": _POINT,
}
# Of those, what may stand more than once.
MANY = {"wpt", "rte", "trk", "rtept", "trkseg", "trkpt", "link"}


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("day")
    write_today(demo_outcome(), today_of(demo_outcome(), walk_hours=2.0), folder)
    return folder


# OGC 07-147r2: the schema ogckml22.xsd, as the library carries it.
def test_kml_keeps_its_schema_and_another_library_reads_it() -> None:
    path, schema = demo_folder() / "blocks.kml", get_schema_parser()
    assert schema.validate(etree.parse(path)), schema.error_log
    document = KML.parse(path).features[0]
    read = [mark.name for folder in document.features for mark in folder.features]
    blocks = demo_outcome().farm.blocks
    assert sorted(read) == sorted(f"{block} {name}" for block, name in blocks["name"].items())


# RFC 7946 as models, which refuse open rings, wrong positions and unknown kinds.
def test_geojson_keeps_its_models() -> None:
    text = (demo_folder() / "blocks.geojson").read_text("utf-8")
    read = FeatureCollection.model_validate_json(text)
    assert [one.properties["block_id"] for one in read.features] == list(
        demo_outcome().farm.blocks.index
    )
    assert read.bbox is not None


# The checks of rio-cogeo: tiles, order of the directories, overviews.
@pytest.mark.parametrize("name", ["favourability.tif", "last-night.tif"])
def test_cells_are_cloud_optimised_by_the_judgement_of_another_library(name: str) -> None:
    assert cog_validate(demo_folder() / name, strict=True) == (True, [], [])


@pytest.mark.parametrize("name", ["round.gpx", "walk.gpx"])
def test_gpx_keeps_the_sequences_of_its_schema(day: Path, name: str) -> None:
    root = ET.parse(day / name).getroot()
    assert (root.get("version"), bool(root.get("creator"))) == ("1.1", True)
    kinds = set()
    for element in root.iter():
        kind = element.tag.removeprefix(GPX)
        kinds.add(kind)
        parts = [part.tag.removeprefix(GPX) for part in element]
        if kind in SEQUENCES:
            places = [SEQUENCES[kind].index(part) for part in parts]
            assert places == sorted(places)
            assert not {part for part in parts if parts.count(part) > 1} - MANY
        else:
            assert parts == []
        if kind in {"wpt", "rtept", "trkpt"}:
            assert -90 <= float(element.attrib["lat"]) <= 90
            assert -180 <= float(element.attrib["lon"]) < 180
            assert element.attrib.keys() == {"lat", "lon"}
        if kind == "number":
            assert str(element.text).isdigit()
    assert {"metadata", "wpt", "rte", "trk"} <= kinds


# ISO 216: A4 is 210 mm by 297 mm; ISO 32000: 72 units to the inch.
def test_the_pdf_is_an_a4_page_for_each_sprayer_and_the_office(day: Path) -> None:
    plan = today_of(demo_outcome(), walk_hours=2.0)
    assert plan.ways.day_round is not None
    pages = PdfReader(day / "day-sheet.pdf").pages
    assert len(pages) == len(plan.ways.day_round.sprayers) + 1
    for page in pages:
        size = (float(page.mediabox.width), float(page.mediabox.height))
        assert size == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=0.5)
        assert "Made Valley Farm" in page.extract_text()


# WHATWG HTML, section 13.2, by its reference parser in Python.
@pytest.mark.parametrize(
    "name", sorted(name for name in NAMES | OF_TODAY if name.endswith(".html"))
)
def test_pages_parse_without_a_fault(day: Path, name: str) -> None:
    html5lib.HTMLParser(strict=True).parse((day / name).read_text("utf-8"))
