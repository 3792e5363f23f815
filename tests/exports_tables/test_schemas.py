"""Each file that has a public schema or a validator of its own keeps it."""

from pathlib import Path

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

GPX_SCHEMA = Path(__file__).parent / "data" / "gpx-1.1.xsd"


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


# The schema of GPX 1.1 as it is published: see data/README.md.
@pytest.mark.parametrize("name", ["round.gpx", "walk.gpx"])
def test_gpx_keeps_its_schema(day: Path, name: str) -> None:
    schema = etree.XMLSchema(etree.parse(GPX_SCHEMA))
    document = etree.parse(day / name)
    assert schema.validate(document), schema.error_log
    kinds = {etree.QName(element).localname for element in document.iter()}
    assert {"metadata", "wpt", "rte", "trk"} <= kinds


def test_the_schema_of_gpx_refuses_what_is_no_gpx(day: Path) -> None:
    document = etree.parse(day / "walk.gpx")
    point = document.find(".//{*}wpt")
    assert point is not None
    point.set("lat", "91")
    assert not etree.XMLSchema(etree.parse(GPX_SCHEMA)).validate(document)


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
