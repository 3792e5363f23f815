"""Bytes of sound files are spoilt, by a fixed seed: every reader gives its data or says why not."""

import warnings
from functools import partial
from zoneinfo import ZoneInfo

import geopandas as gpd
import numpy as np
import pytest

from geo.errors import InputError
from geo.inputs.daily_weather import Spot
from geo.inputs.elevation import read_elevation
from geo.inputs.reading import Reading
from geo.inputs.season import read_farm
from geo.inputs.vectors import read_features
from geo.inputs.weather_kinds import read_any_weather
from tests.inputs.catalogue import SYSTEM, SmallFarm, weather_rows
from tests.inputs.test_weather_kinds import cf, days, epw, text

ROUNDS, SEED, HEAD = 40, 20260218, 4000
DRAWN = ("b.kml", "b.gpkg", "b.shp", "b.dbf", "b.shx", "b.prj", "b.parquet", "b.geojson")
WRITTEN = ("w.epw", "d.csv", "h.nc", "c.nc")
WHOLE = ("farm.toml", "blocks.geojson", "ground.tif", "station.csv", "diary.csv", "scouting.csv")


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sound")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        small = SmallFarm(folder / "small").build()
        blocks = gpd.read_file(small.folder / "blocks.geojson")
        for name, driver in {"kml": "LIBKML", "gpkg": "GPKG", "shp": None}.items():
            blocks.to_file(folder / f"b.{name}", driver=driver)
        blocks.to_file(folder / "b.geojson")
        blocks.to_parquet(folder / "b.parquet")
        rows = weather_rows("2026-02-01T00:00", 78)
        (folder / "w.epw").write_text(epw(rows), "utf-8")
        (folder / "d.csv").write_text(text(days()), "utf-8")
        cf(rows).to_netcdf(folder / "h.nc", engine="h5netcdf")
        cf(rows).to_netcdf(folder / "c.nc", engine="scipy")
    return folder


def spoilt(content, rounds=ROUNDS):
    """Yield a content again and again with some bytes changed, mostly near its head, or cut."""
    random = np.random.default_rng(SEED)
    for _ in range(rounds):
        changed = bytearray(content)
        most = min(len(changed), HEAD) if random.random() < 0.7 else len(changed)
        for place in random.integers(0, most, random.integers(1, 6)):
            changed[place] = random.integers(0, 256)
        end = random.integers(0, len(changed)) if random.random() < 0.2 else len(changed)
        yield bytes(changed[:end])


def faults_of(read):
    """Return what a reader refuses with; nothing where it gives its data."""
    try:
        read()
    except InputError as error:
        return error.issues
    return ()


def answered(read, path):
    issues = faults_of(lambda: read(Reading("any", path)))
    assert all(issue.code.startswith("E-") for issue in issues)


@pytest.mark.parametrize("name", DRAWN)
def test_spoilt_drawings_are_answered_in_words(sound, tmp_path, name):
    for path in sound.glob("b.*"):
        if path.suffix in {".shp", ".dbf", ".shx", ".prj", ".cpg"} or path.name == name:
            (tmp_path / path.name).write_bytes(path.read_bytes())
    part_of_a_set = name.endswith((".dbf", ".shx", ".prj"))
    for content in spoilt((sound / name).read_bytes()):
        (tmp_path / name).write_bytes(content)
        asked = tmp_path / ("b.shp" if part_of_a_set else name)
        answered(partial(read_features, required=("block_id",)), asked)


@pytest.mark.parametrize("name", WRITTEN)
def test_spoilt_weather_is_answered_in_words(sound, tmp_path, name):
    read = partial(
        read_any_weather, zone=ZoneInfo("Asia/Manila"), wind_height=2.0, spot=Spot(121.04, 14.6)
    )
    for content in spoilt((sound / name).read_bytes()):
        (tmp_path / name).write_bytes(content)
        answered(read, tmp_path / name)


def test_spoilt_ground_is_answered_in_words(sound, tmp_path):
    outlines = gpd.read_file(sound / "b.geojson").to_crs(SYSTEM).geometry
    for content in spoilt((sound / "small" / "ground.tif").read_bytes()):
        (tmp_path / "ground.tif").write_bytes(content)
        answered(partial(read_elevation, outlines=outlines), tmp_path / "ground.tif")


@pytest.mark.parametrize("name", WHOLE)
def test_a_farm_with_a_spoilt_file_is_a_farm_or_an_error_in_words(tmp_path, name):
    small = SmallFarm(tmp_path / "small").build()
    for content in spoilt((small.folder / name).read_bytes(), rounds=6):
        small.write(name, content)
        read = partial(
            read_farm,
            small.folder,
            materials=["sulfur", "copper"],
            cultivars=["Kent"],
            stages=["613", "615"],
        )
        assert all(issue.code.startswith("E-") for issue in faults_of(read))


def test_a_table_of_names_in_another_alphabet_than_it_says_is_told(tmp_path):
    small = SmallFarm(tmp_path / "small").build()
    small.block(1, cultivar="Ataulfo ñ")
    blocks = gpd.read_file(small.folder / "blocks.geojson")
    blocks.to_file(small.folder / "blocks.shp", encoding="ISO-8859-1")
    small.write("blocks.cpg", "UTF-8")
    small.swap("farm.toml", "blocks.geojson", "blocks.shp")
    assert ".cpg" in small.check().only("E-TEXT")["fix"]
