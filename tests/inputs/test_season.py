"""The season as read: in the words of the vocabulary, complete, and with its files on record."""

import hashlib

import numpy as np
import pytest

from geo.inputs import parts
from geo.inputs import season as season_of_files
from geo.season import VOCABULARY

# The vocabulary is in the order of the rooms: what comes from files ends with the sources' status.
NAMES = list(VOCABULARY)
MAY_BE_UNKNOWN = {"cloud_cover", "wind_from_direction", "logger_air_temperature"}
FROM_FILES = NAMES[: NAMES.index("source_status") + 1]


def test_a_season_holds_just_what_comes_from_files(demo):
    _, season = demo
    assert set(season.data_vars) == set(FROM_FILES)


@pytest.mark.parametrize("name", FROM_FILES)
def test_each_variable_says_its_unit_and_meaning(demo, name):
    variable, array = VOCABULARY[name], demo[1][name]
    assert array.dims == variable.dims
    assert array.attrs == {
        "units": variable.unit,
        "long_name": variable.meaning,
        "made_by": "inputs",
    }
    assert array.dtype in (np.float64, np.int64) or array.dtype.kind == "U"
    if name not in MAY_BE_UNKNOWN and array.dtype.kind == "f":
        assert np.isfinite(array).all()


def test_coordinates_are_ids_dates_and_instants(demo):
    _, season = demo
    assert season.block.dtype.kind == season.source.dtype.kind == "U"
    assert season.day.dtype == season.hour.dtype == "datetime64[ns]"
    assert isinstance(season.attrs["grid_west"], float)
    assert isinstance(season.attrs["grid_north"], float)


def test_the_farm_is_what_the_files_say(demo):
    read, season = demo
    assert read.is_made
    assert read.zone == "America/Mazatlan"
    assert read.crs.to_epsg() == 32613
    rows = ["row_spacing", "row_direction", "canopy_height", "canopy_width"]
    told = ["name", "cultivar", "planted", "area", "note"]
    assert list(read.blocks.columns) == [*told, *rows, "geometry"]
    assert read.blocks.index.name == "block_id"
    assert read.neighbours.index.name == "neighbour_id"
    assert read.blocks.index.tolist() == season.block.values.tolist()
    assert read.blocks["area"].tolist() == season.area.values.tolist()
    assert season.cultivar_share_text.values[3] == "Keitt:0.6;Kent:0.4"


def test_every_file_is_on_record_with_its_digest(demo):
    read, _ = demo
    roles = [file.role for file in read.files]
    assert roles == [
        "settings",
        "outlines",
        "elevation",
        "weather",
        "forecast",
        "diary",
        "scouting",
        "neighbours",
        "places",
        "labels",
    ]
    for file in read.files:
        content = file.path.read_bytes()
        assert file.size == len(content)
        assert file.sha256 == hashlib.sha256(content).hexdigest()
        assert file.used > 0
    assert {file.role: file.held for file in read.files if file.held} == {"diary": 1}


def test_the_digest_is_of_what_was_read_though_the_files_change_thereafter(farm, monkeypatch):
    before = {path.name: path.read_bytes() for path in farm.folder.iterdir()}
    assemble = season_of_files.assembled

    def change_files_and_assemble(*arguments, **options):
        for path in farm.folder.iterdir():
            path.write_bytes(b"changed")
        return assemble(*arguments, **options)

    monkeypatch.setattr(season_of_files, "assembled", change_files_and_assemble)
    for file in farm.read()[0].files:
        content = before[file.path.name]
        assert file.sha256 == hashlib.sha256(content).hexdigest()
        assert file.size == len(content)


def test_the_digest_of_a_table_is_of_the_bytes_that_were_read(farm, demo, monkeypatch):
    read_land = parts.read_land

    def change_diary_and_read_land(*arguments, **options):
        farm.add("diary.csv", "2026-02-10", "06:00", "B01", "sulfur", "", "")
        return read_land(*arguments, **options)

    monkeypatch.setattr(parts, "read_land", change_diary_and_read_land)
    read, season = farm.read()
    content = (farm.folder / "diary.csv").read_bytes()
    diary = next(file for file in read.files if file.role == "diary")
    assert season.sizes["spray"] == demo[1].sizes["spray"] + 1
    assert (diary.size, diary.sha256) == (len(content), hashlib.sha256(content).hexdigest())


def test_nothing_in_the_folder_is_changed(farm):
    before = {path: path.read_bytes() for path in farm.folder.iterdir()}
    farm.read()
    assert {path: path.read_bytes() for path in farm.folder.iterdir()} == before


def test_reading_twice_gives_the_same(farm, demo):
    assert farm.read()[1].identical(demo[1])


def test_a_farm_with_one_of_every_held_thing_is_still_read(farm):
    bow_tie = [[-105.80, 23.70], [-105.79, 23.71], [-105.79, 23.70], [-105.80, 23.71]]
    crossed = {"type": "Polygon", "coordinates": [[*bow_tie, bow_tie[0]]]}
    farm.feature("blocks.geojson", 3, geometry=crossed)
    farm.feature("blocks.geojson", 4, cultivar="Keitt 60, Kent 70")
    farm.feature("places.geojson", 6, kind="door")
    farm.add("diary.csv", "2026-02-10", "06:00", "X1", "sulfur", "", "")
    farm.add("diary.csv", "2026-02-10", "06:00", "B01", "sulphur", "", "")
    farm.add("scouting.csv", "2026-02-19", "B01", "50", "3", "610", "")
    farm.add("scouting.csv", "2026-02-16", "B01", "50", "60", "610", "")
    farm.add("scouting.csv", "2026-02-16", "B01", "50", "3", "61", "")
    (farm.folder / "forecast.csv").write_text("", "utf-8")
    read, season = farm.read()
    held = sorted(issue.code for issue in read.issues if issue.outcome == "HOLD")
    assert held == [
        "E-BLOCK-UNKNOWN",
        "E-COUNT",
        "E-CULTIVAR-SHARES",
        "E-FORECAST-MISSING",
        "E-LOOK-FUTURE",
        "E-MATERIAL-UNKNOWN",
        "E-OUTLINE-CROSSED",
        "E-PLACE-KIND",
        "E-STAGE",
    ]
    assert season.sizes["block"] == 23
    for issue in read.issues:
        assert "\n" not in str(issue)
