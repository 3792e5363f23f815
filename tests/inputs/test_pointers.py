"""Files that point elsewhere, run on without end or nest without bottom: one line, no more."""

import zipfile

import pytest
import rasterio

from geo.inputs.season import read_farm
from tests.inputs.catalogue import EAST, NORTH, SYSTEM, SmallFarm

MOSAIC = """<VRTDataset rasterXSize="60" rasterYSize="60"><SRS>{system}</SRS>
<GeoTransform>{west}, 60, 0, {north}, 0, -60</GeoTransform>
<VRTRasterBand dataType="Float32" band="1"><UnitType>m</UnitType>{band}</VRTRasterBand>
</VRTDataset>"""
SOURCE = '<SimpleSource><SourceFilename relativeToVRT="{beside}">{name}</SourceFilename>'
SOURCE += "<SourceBand>1</SourceBand></SimpleSource>"


@pytest.fixture
def small(tmp_path):
    return SmallFarm(tmp_path / "small").build()


def mosaic(band):
    return MOSAIC.format(system=SYSTEM, west=EAST - 1500.0, north=NORTH + 2000.0, band=band)


def source(name, *, beside=1):
    return SOURCE.format(name=name, beside=beside)


def test_a_mosaic_of_tiles_beside_it_is_read_and_said(small):
    small.write("tile.tif", (small.folder / "ground.tif").read_bytes())
    small.write("ground.tif", mosaic(source("tile.tif")))
    assert "mosaic of 1 piece of a file" in small.check().only("E-RASTER-TILES")["found"]
    _, season = read_farm(
        small.folder, materials=["sulfur", "copper"], cultivars=["Kent"], stages=["613", "615"]
    )
    assert float(season["elevation_grid"].max()) == 100.0


@pytest.mark.parametrize(
    "band",
    [
        source("/etc/hostname", beside=0),
        source("../tile.tif"),
        source("/vsicurl/http://example.org/tile.tif", beside=0),
        source("gone.tif"),
        source("ground.tif"),  # itself
        source("tile.tif", beside=0),
        source("tile.tif") + "<PixelFunctionCode>x</PixelFunctionCode>",
    ],
)
def test_a_mosaic_that_leads_elsewhere_is_refused(small, band):
    small.write("tile.tif", (small.folder / "ground.tif").read_bytes())
    small.write("ground.tif", mosaic(band))
    fault = small.check().only("E-FILE-POINTER")
    assert (fault["outcome"], fault["file"]) == ("STOP", "ground.tif")
    assert "one GeoTIFF" in fault["fix"]


@pytest.mark.parametrize(
    "text",
    [
        "<VRTDataset",
        '<!DOCTYPE a [<!ENTITY b "c">]><VRTDataset>&b;</VRTDataset>',
        '<GDAL_WMS><Service name="TMS"/></GDAL_WMS>',
        '{"stac_version": "1.0.0"}',
    ],
)
def test_what_holds_no_heights_is_not_opened(small, monkeypatch, text):
    monkeypatch.setattr(rasterio, "open", None)
    small.write("ground.tif", text)
    assert small.check().only("E-FILE-POINTER")["outcome"] == "STOP"


def test_a_list_of_tiles_without_end_is_refused(small, monkeypatch):
    monkeypatch.setattr("geo.inputs.pointers.MOST_MOSAIC_BYTES", 10)
    small.write("ground.tif", mosaic(source("tile.tif")))
    assert "longer list" in small.check().only("E-FILE-POINTER")["found"]


def test_a_kind_of_grid_that_only_points_is_refused_by_its_name(small, monkeypatch):
    monkeypatch.setattr("geo.inputs.elevation.INDIRECT", {"GTiff"})
    assert "is GTiff" in small.check().only("E-FILE-POINTER")["found"]


POINTERS = [
    '<OGRVRTDataSource><OGRVRTLayer name="other"/></OGRVRTDataSource>',
    "<ogrwfsdatasource/>",
    '{"type": "gdal_streamed_alg", "command_line": "gdal vector pipeline"}',
]


@pytest.mark.parametrize("text", POINTERS)
def test_outlines_that_point_elsewhere_are_refused(small, text):
    small.write("blocks.geojson", text)
    fault = small.check().only("E-FILE-POINTER")
    assert (fault["outcome"], fault["file"]) == ("STOP", "blocks.geojson")


def test_outlines_that_point_elsewhere_from_within_a_packed_file_are_refused(small):
    with zipfile.ZipFile(small.folder / "blocks.zip", "w") as packed:
        packed.writestr("blocks.vrt", POINTERS[0])
    small.swap("farm.toml", "blocks.geojson", "blocks.zip")
    assert "blocks.vrt" in small.check().only("E-FILE-POINTER")["at"]


@pytest.mark.parametrize("before", [b"", b"\xef\xbb\xbf \n"])
def test_entities_are_refused_whatever_the_file_is_called(small, before):
    drawn = b'<?xml version="1.0"?><!DOCTYPE k [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><kml/>'
    small.write("blocks.geojson", before + drawn)
    assert "entities" in small.check().only("E-PACKED")["found"]


@pytest.mark.parametrize(
    ("rows", "where", "found"),
    [
        (b"x" * 1_200_000, "2", "a line of 1200001 bytes"),
        (b"\n" * 1_000_001 + b",,,,\n" * 5, "", "20 cells"),
    ],
)
def test_lines_and_cells_without_end_are_refused_before_they_are_taken_apart(
    small, monkeypatch, rows, where, found
):
    monkeypatch.setattr("geo.inputs.endless.MOST_CELLS", 20)
    small.write("diary.csv", b"date,time,block_id,material\n" + rows)
    fault = small.check().only("E-FILE-LARGE")
    assert (fault["outcome"], fault["row"]) == ("STOP", where)
    assert found in fault["found"] or "23 cells" in fault["found"]


def test_settings_nested_without_bottom_are_one_line(small):
    small.write("farm.toml", "a = " + "[" * 100_000)
    assert "E-SETTINGS" in small.check().codes()
