"""Outlines as GeoParquet."""

import sys

import geopandas as gpd
import pandas as pd
import pytest

from geo.inputs.season import read_farm
from tests.inputs.catalogue import SmallFarm


@pytest.fixture
def small(tmp_path):
    small = SmallFarm(tmp_path / "small").build()
    blocks = gpd.read_file(small.folder / "blocks.geojson")
    blocks.to_parquet(small.folder / "blocks.parquet")
    small.swap("farm.toml", "blocks.geojson", "blocks.parquet")
    return small


def test_geoparquet_gives_the_same_blocks(small):
    farm, _ = read_farm(
        small.folder, materials=["sulfur", "copper"], cultivars=["Kent"], stages=["613", "615"]
    )
    assert list(farm.blocks.index) == ["B1", "B2", "B3"]
    assert farm.blocks["area"].to_numpy() == pytest.approx(2.25, rel=1e-3)


def test_what_is_no_geoparquet_is_told(small):
    pd.DataFrame({"block_id": ["B1"]}).to_parquet(small.folder / "blocks.parquet")
    assert "geo" in small.check().only("E-VECTOR")["found"]
    small.write("blocks.parquet", b"PAR1 and nothing else")
    assert small.check().only("E-VECTOR")["outcome"] == "STOP"


def test_what_unpacks_to_too_much_is_not_unpacked(small, monkeypatch):
    monkeypatch.setattr("geo.inputs.parquet.LARGEST_BYTES", 10)
    assert "are the most" in small.check().only("E-FILE-LARGE")["found"]


def test_without_its_reader_it_says_what_to_install(small, monkeypatch):
    monkeypatch.setattr(sys.modules["geo.inputs.parquet"], "find_spec", lambda _: None)
    assert "mangoblock-risk[parquet]" in small.check().only("E-PARQUET-READER")["fix"]
