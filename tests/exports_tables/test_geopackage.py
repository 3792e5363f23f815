"""The GeoPackage opens as one, says what the season says, and is the same each time."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import geopandas as gpd
import numpy as np
import pyogrio
import pytest
from pyogrio.errors import FeatureError

from geo.exports.geopackage import (
    COOLEST_LAYER,
    LAYER,
    OF_BLOCK,
    OF_TODAY,
    block_table,
    write_geopackage,
)
from geo.ranking.classes import CLASS_WORDS
from geo.ranking.factors import FACTORS
from geo.scouting.coolest import coolest_tenth
from geo.season.today import today_index
from tests.demo_run import demo_folder, demo_outcome


@pytest.fixture
def written() -> Path:
    return demo_folder() / "blocks.gpkg"


@pytest.fixture
def database(written: Path) -> Iterator[sqlite3.Connection]:
    with closing(sqlite3.connect(f"file:{written}?mode=ro", uri=True)) as connection:
        yield connection


def write_again(path: Path) -> None:
    demo = demo_outcome()
    table = block_table(demo.farm, demo.season, spray=demo.spray, scouting=demo.scouting)
    write_geopackage(path, farm=demo.farm, season=demo.season, table=table)


# OGC 12-128r14 (GeoPackage 1.2), requirements 2 and 3: "GPKG" in ASCII and 10200.
def test_the_file_says_it_is_a_geopackage_1_2(database: sqlite3.Connection) -> None:
    (application,) = database.execute("PRAGMA application_id").fetchone()
    (version,) = database.execute("PRAGMA user_version").fetchone()
    assert application.to_bytes(4, "big") == b"GPKG"
    assert version == 10200


def test_the_database_is_whole(database: sqlite3.Connection) -> None:
    assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert database.execute("PRAGMA foreign_key_check").fetchall() == []


def test_the_time_in_it_is_the_datas_own(database: sqlite3.Connection) -> None:
    (changed,) = database.execute("SELECT last_change FROM gpkg_contents").fetchone()
    assert changed[:16] == str(demo_outcome().season.hour.values[-1])[:16]


def test_two_writes_are_equal_to_the_byte(written: Path, tmp_path: Path) -> None:
    write_again(tmp_path / "again.gpkg")
    assert (tmp_path / "again.gpkg").read_bytes() == written.read_bytes()


def test_plain_sql_reads_the_same_rows_as_a_gis(
    database: sqlite3.Connection, written: Path
) -> None:
    frame = gpd.read_file(written, layer=LAYER)
    rows = database.execute(f"SELECT block_id, hazard_ahead FROM {LAYER} ORDER BY fid").fetchall()  # noqa: S608
    assert rows == list(zip(frame.block_id, frame.hazard_ahead, strict=True))


def test_outlines_come_back_as_they_were_read(written: Path) -> None:
    blocks = demo_outcome().farm.blocks
    frame = pyogrio.read_dataframe(written, layer=LAYER).set_index("block_id")
    assert frame.crs == blocks.crs
    assert frame.index.tolist() == blocks.index.tolist()
    assert frame.geometry.geom_equals(blocks.geometry).all()


def test_each_number_is_the_seasons(written: Path) -> None:
    season = demo_outcome().season
    frame = pyogrio.read_dataframe(written, layer=LAYER)
    today = today_index(season)
    for name in OF_BLOCK:
        np.testing.assert_array_equal(frame[name].to_numpy(), season[name].values)
    for name in OF_TODAY:
        np.testing.assert_array_equal(
            frame[f"{name}_today"].to_numpy(), season[name].values[:, today]
        )
    for estimator in season.estimator.values:
        np.testing.assert_array_equal(
            frame[f"wet_hours_{estimator}_today"].to_numpy(),
            season.wet_hours.sel(estimator=estimator).values[:, today],
        )
    factors = [f"factor_{factor.name.replace(' ', '_')}" for factor in FACTORS]
    np.testing.assert_array_equal(frame[factors].to_numpy(), season.factors.values)


def test_a_block_has_a_spray_rank_or_a_rule_or_is_not_worth_it_and_never_two_of_them(
    written: Path,
) -> None:
    demo, frame = demo_outcome(), pyogrio.read_dataframe(written, layer=LAYER).set_index("block_id")
    has_rank = frame.spray_rank.notna()
    said = (frame.cannot_now != "").astype(int) + (frame.not_worth_it_now != "")
    assert (has_rank + said == 1).all()
    assert (frame.avoidable_ha_days.notna() == has_rank).all()
    assert frame.scouting_rank.notna().all()
    for entry in demo.spray.entries:
        assert frame.spray_rank[entry.block] == entry.rank


def test_a_hazard_that_is_not_known_is_said_in_words_and_left_empty(tmp_path: Path) -> None:
    demo = demo_outcome()
    hazard = demo.season.hazard_ahead.copy()
    hazard[0] = np.nan
    season = demo.season.assign(hazard_ahead=hazard)
    table = block_table(demo.farm, season, spray=demo.spray, scouting=demo.scouting)
    assert table.class_ahead.iloc[0] == "Not known"
    assert table.class_ahead.iloc[1:].isin(CLASS_WORDS).all()
    path = tmp_path / "a.gpkg"
    table = block_table(demo.farm, season, spray=demo.spray, scouting=demo.scouting)
    write_geopackage(path, farm=demo.farm, season=season, table=table)
    with closing(sqlite3.connect(path)) as connection:
        (unknown,) = connection.execute(f"SELECT hazard_ahead FROM {LAYER} LIMIT 1").fetchone()  # noqa: S608
    assert unknown is None


def test_a_block_without_ground_has_no_height_of_its_own() -> None:
    demo = demo_outcome()
    covered = demo.season.terrain_covered.copy()
    covered[2] = 0.0
    season = demo.season.assign(terrain_covered=covered)
    table = block_table(demo.farm, season, spray=demo.spray, scouting=demo.scouting)
    for name in ("elevation", "pool_depth"):
        assert np.flatnonzero(table[name].isna()).tolist() == [2]


def test_the_coolest_tenths_come_back_as_a_second_layer(written: Path) -> None:
    demo = demo_outcome()
    shapes = [name for name, kind in pyogrio.list_layers(written) if kind is not None]
    assert shapes == [LAYER, COOLEST_LAYER]
    assert pyogrio.read_info(written, layer=COOLEST_LAYER)["geometry_type"] == "MultiPolygon"
    frame = pyogrio.read_dataframe(written, layer=COOLEST_LAYER).set_index("block_id")
    expected = coolest_tenth(demo.farm, demo.season)
    assert len(frame) > 10
    assert frame.index.tolist() == expected.index.tolist()
    assert frame.crs == demo.farm.crs
    assert frame.geometry.geom_equals(expected.geometry).all()
    assert (frame.name == demo.farm.blocks.name.loc[frame.index]).all()
    assert (frame.scenario == "made scenario").all()


def test_even_ground_leaves_the_second_layer_empty(tmp_path: Path) -> None:
    demo = demo_outcome()
    season = demo.season.assign(pool_depth_grid=0.0 * demo.season.pool_depth_grid)
    path = tmp_path / "a.gpkg"
    table = block_table(demo.farm, season, spray=demo.spray, scouting=demo.scouting)
    write_geopackage(path, farm=demo.farm, season=season, table=table)
    frame = pyogrio.read_dataframe(path, layer=COOLEST_LAYER)
    assert frame.empty
    assert frame.crs == demo.farm.crs


def test_a_hostile_name_is_only_text(tmp_path: Path) -> None:
    demo, name = demo_outcome(), "x'); DROP TABLE blocks; --"
    farm = replace(demo.farm, blocks=demo.farm.blocks.assign(name=name))
    path = tmp_path / "a.gpkg"
    table = block_table(farm, demo.season, spray=demo.spray, scouting=demo.scouting)
    write_geopackage(path, farm=farm, season=demo.season, table=table)
    assert (pyogrio.read_dataframe(path, layer=LAYER).name == name).all()


def test_a_full_disk_is_told_as_for_any_other_file(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def fill_the_disk(*_: object, **__: object) -> None:
        raise FeatureError("database or disk is full")

    monkeypatch.setattr(pyogrio, "write_dataframe", fill_the_disk)
    with pytest.raises(OSError, match="disk is full"):
        write_again(tmp_path / "a.gpkg")
    assert list(tmp_path.iterdir()) == []
