"""The demo: made from its seeds, said to be made, and with something to decide."""

import json
from pathlib import Path

import numpy as np
import pytest
import rasterio

from geo.inputs import read_farm
from layers_demo import make_valley_farm
from layers_demo.valley_outlines import BLOCKS, block_outlines

FOLDER = Path(make_valley_farm.__file__).parent / "valley_farm"
SULFUR_LIMIT_DEGC = 29.4
LAPSE_K_PER_M = 0.0065
TEXTS = (
    "farm.toml",
    "README.md",
    "station.csv",
    "forecast.csv",
    "diary.csv",
    "scouting.csv",
)
MAPS = ("blocks.geojson", "neighbours.geojson", "places.geojson")


@pytest.fixture(scope="module")
def again(tmp_path_factory):
    folder = tmp_path_factory.mktemp("valley_farm")
    make_valley_farm.main(folder)
    return folder


@pytest.fixture(scope="module")
def farm_and_season():
    return read_farm(
        FOLDER,
        materials=["sulfur", "copper", "myclobutanil", "azoxystrobin"],
        cultivars=[
            "Sensation",
            "Tommy Atkins",
            "Kent",
            "Keitt",
            "Haden",
            "Alphonso",
            "Kensington Pride",
            "Nam Dok Mai",
            "Irwin",
        ],
        stages=["513", "514", "515", "517", "519", "610", "611", "613", "615", "617", "619", "701"],
    )


def test_the_maker_writes_just_the_shipped_files(again):
    assert {path.name for path in again.iterdir()} == {path.name for path in FOLDER.iterdir()}


@pytest.mark.parametrize("name", TEXTS)
def test_the_maker_writes_the_same_text(again, name):
    assert (again / name).read_text("utf-8") == (FOLDER / name).read_text("utf-8")


@pytest.mark.parametrize("name", MAPS)
def test_the_maker_draws_the_same_outlines(again, name):
    made, shipped = (json.loads((folder / name).read_text("utf-8")) for folder in (again, FOLDER))
    assert len(made["features"]) == len(shipped["features"])
    for one, other in zip(made["features"], shipped["features"], strict=True):
        assert one["properties"] == other["properties"]
        assert one["geometry"]["type"] == other["geometry"]["type"]
        np.testing.assert_allclose(flat(one["geometry"]), flat(other["geometry"]), atol=2e-7)


def flat(geometry):
    def spots(part):
        return (
            [part]
            if isinstance(part[0], float)
            else [spot for each in part for spot in spots(each)]
        )

    return np.array(spots(geometry["coordinates"]))


def test_the_maker_raises_the_same_ground(again):
    with (
        rasterio.open(again / "elevation.tif") as made,
        rasterio.open(FOLDER / "elevation.tif") as shipped,
    ):
        assert made.profile == shipped.profile
        np.testing.assert_allclose(made.read(1), shipped.read(1), atol=0.11)
    assert (FOLDER / "elevation.tif").stat().st_size < 400_000


def test_the_demo_says_that_it_is_made(farm_and_season):
    farm, _ = farm_and_season
    assert farm.is_made
    assert "made scenario" in (FOLDER / "README.md").read_text("utf-8")
    assert "no real farm" in (FOLDER / "README.md").read_text("utf-8").replace("\n", " ")
    assert (FOLDER / "farm.toml").read_text("utf-8").startswith("# A made scenario")


def test_the_demo_is_clean(farm_and_season):
    farm, _ = farm_and_season
    assert [issue.code for issue in farm.issues] == ["E-SPRAY-PLANNED"]


def test_the_demo_has_blocks_of_every_kind(farm_and_season):
    farm, season = farm_and_season
    assert len(farm.blocks) == 24
    assert 60.0 < farm.blocks["area"].sum() < 100.0
    assert farm.blocks["cultivar"].str.contains(",").sum() == 5
    assert (farm.blocks.geometry.geom_type == "MultiPolygon").sum() == 1
    holes = farm.blocks.geometry[farm.blocks.geometry.geom_type == "Polygon"]
    assert sum(len(outline.interiors) for outline in holes) == 1
    relief = np.ptp(season.elevation_grid.values)
    assert 80.0 < relief < 130.0


def test_blocks_touch_but_do_not_overlap():
    outlines = block_outlines()
    touching = 0
    for first in range(len(outlines)):
        for second in range(first + 1, len(outlines)):
            shared = outlines[first].intersection(outlines[second])
            assert shared.area < 0.01, (BLOCKS[first][0], BLOCKS[second][0])
            touching += shared.length > 50.0
    assert touching == 3


def test_the_heat_of_the_days_ahead_divides_the_farm(farm_and_season):
    _, season = farm_and_season
    cell = season.elevation_grid.values.ravel()[season.cover_cell.values]
    block, share = season.cover_block.values, season.cover_share.values
    height = np.bincount(block, cell * share) / np.bincount(block, share)
    ahead = season.air_temperature.values[season.is_forecast.values == 1]
    assert ahead.max() < SULFUR_LIMIT_DEGC
    days = season.hour_day.values
    today = days[season.is_forecast.values == 0][-1]
    for last in (today + 2, today + 3):
        hottest = season.air_temperature.values[(days >= today) & (days <= last)].max()
        above = hottest + LAPSE_K_PER_M * (float(season.station_elevation) - height)
        assert (above >= SULFUR_LIMIT_DEGC).sum() == 7


def test_the_weather_is_a_dry_cool_bloom_with_one_wet_spell(farm_and_season):
    _, season = farm_and_season
    measured = season.is_forecast.values == 0
    rain = np.bincount(season.hour_day.values[measured], season.precipitation.values[measured])
    assert np.flatnonzero(rain).tolist() == [23, 24, 25, 36]
    assert 30.0 <= rain[23:26].sum() <= 45.0
    assert 1.0 < rain[36] < 5.0
    humidity = season.relative_humidity.values
    assert 38 <= humidity.min() < humidity.max() <= 96
    nights = season.air_temperature.values.reshape(-1, 24)[:45].min(axis=1)
    days = season.air_temperature.values.reshape(-1, 24)[:45].max(axis=1)
    assert 9.0 <= np.median(nights) <= 14.0
    assert 24.0 <= np.median(days) <= 28.0
