"""A new farm: its folder explains itself, and the check tells what is still to be done."""

import csv
import re
import shutil
import tomllib
from pathlib import Path

import geopandas as gpd
import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.texts.comments import paragraphs
from tests.inputs.catalogue import SmallFarm

ZONE = ("--zone", "Asia/Manila")


@pytest.fixture
def small(tmp_path):
    return SmallFarm(tmp_path / "small").build()


def typed(*words):
    return CliRunner().invoke(app, [str(word) for word in words])


def faults(out):
    with (out / "check.csv").open(encoding="utf-8", newline="") as opened:
        return {(row["code"], row["at"]) for row in csv.DictReader(opened)}


def test_a_new_farm_asks_only_for_what_nobody_else_can_know(small, tmp_path):
    folder, out = tmp_path / "Santa Rosa", tmp_path / "out"
    told = typed("new", folder, small.folder / "blocks.geojson")
    assert told.exit_code == 0, told.stderr
    assert told.stdout.endswith(f"type: mangoblock check {folder}\n")
    assert 'name = "Santa Rosa"' in (folder / "farm.toml").read_text("utf-8")
    typed("check", folder, "--out", out)
    assert faults(out) == {
        ("E-CHOICE-UNKNOWN", 'key "zone"'),
        ("E-KEY-MISSING", 'key "station.elevation"'),
        ("E-FILE-MISSING", 'key "files.elevation"'),
        ("E-FORECAST-MISSING", 'key "files.forecast"'),
        ("E-DIARY-MISSING", ""),
        ("E-SCOUTING-MISSING", ""),
    }


def test_filled_in_it_runs(small, tmp_path):
    folder = tmp_path / "own"
    assert typed("new", folder, small.folder / "blocks.geojson", *ZONE).exit_code == 0
    shutil.copy(small.folder / "ground.tif", folder / "elevation.tif")
    shutil.copy(small.folder / "station.csv", folder / "station.csv")
    settings = (folder / "farm.toml").read_text("utf-8")
    filled = settings.replace("# fill in: elevation = 416", "elevation = 100")
    (folder / "farm.toml").write_text(filled, "utf-8")
    told = typed("check", folder, "--out", tmp_path / "out")
    assert told.exit_code == 3, told.stdout  # no forecast yet
    assert "STOP" not in told.stdout


def test_a_shapefile_comes_with_its_parts(small, tmp_path):
    gpd.read_file(small.folder / "blocks.geojson").to_file(tmp_path / "plan.shp")
    assert typed("new", tmp_path / "own", tmp_path / "plan.shp", *ZONE).exit_code == 0
    names = {path.name for path in (tmp_path / "own").iterdir()}
    assert names >= {"plan.shp", "plan.dbf", "plan.shx", "plan.prj", "farm.toml"}


def test_nothing_is_overwritten(small):
    told = typed("new", small.folder, small.folder / "blocks.geojson")
    assert told.exit_code == 2
    assert "E-OUT-THERE STOP" in told.stderr


@pytest.mark.parametrize(("name", "code"), [("gone.gpkg", "E-FILE-MISSING"), ("bad", "E-VECTOR")])
def test_outlines_that_cannot_be_read_start_no_farm(tmp_path, name, code):
    (tmp_path / "bad").write_text("no map", "utf-8")
    told = typed("new", tmp_path / "own", tmp_path / name)
    assert told.exit_code == 2
    assert f"{code} STOP" in told.stderr
    assert not (tmp_path / "own").exists()


def test_a_place_that_cannot_be_written_is_one_line(small, tmp_path):
    (tmp_path / "taken").write_text("a file", "utf-8")
    told = typed("new", tmp_path / "taken" / "own", small.folder / "blocks.geojson")
    assert told.exit_code == 2
    assert "E-OUT-WRITE STOP" in told.stderr


def test_a_name_with_quotes_is_a_name_all_the_same(small, tmp_path):
    folder = tmp_path / 'El "Mango"'
    assert typed("new", folder, small.folder / "blocks.geojson", *ZONE).exit_code == 0
    text = Path(folder / "farm.toml").read_text("utf-8")
    assert 'name = "El  Mango"' in text


def test_a_farm_started_in_spanish_explains_itself_in_spanish_and_reads_the_same(small, tmp_path):
    read = {}
    for tag in ("en", "es"):
        folder = tmp_path / tag / "farm"
        done = typed("--language", tag, "new", folder, small.folder / "blocks.geojson")
        assert done.exit_code == 0, done.output
        text = (folder / "farm.toml").read_text("utf-8")
        read[tag] = tomllib.loads(text)
        assert read[tag].pop("language") == tag
        assert max(map(len, text.splitlines())) <= 110
    assert read["es"] == read["en"]
    comments = [said for _, _, said in paragraphs(text)]
    assert len(comments) > 30
    assert not [said for said in comments if re.search(r"\b(the|and|with|which)\b", said)]
