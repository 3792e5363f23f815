"""A farm with everything wrong at once: its sound blocks are ranked, and every fault is told."""

import csv

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.exports.check_table import COLUMNS, cells
from geo.pipeline.check import check
from geo.texts import speaking
from tests.inputs.catalogue import SmallFarm, in_degrees, polygon, square, weather_rows
from tests.made_languages import bracketed, unsaid

SOUND = ["B1", "B2", "B3", "B4", "B5", "B6"]
OUTLINES = {
    "E-OUTLINE-CROSSED": "HOLD",
    "E-OUTLINE-SLIVER": "HOLD",
    "E-OUTLINE-KIND": "HOLD",
    "E-OUTLINE-EMPTY": "HOLD",
    "E-ID-LIKE": "HOLD",
    "E-OUTLINE-TWICE": "FIX",
    "E-OUTLINE-OVERLAP": "HOLD",
    "E-AREA": "HOLD",
    "E-CULTIVAR-SHARES": "HOLD",
    "E-CULTIVAR-UNKNOWN": "NOTE",
    "E-PLANTED": "HOLD",
}
DIARY = {
    "E-TITLE-ROWS": "FIX",
    "E-DATE": "HOLD",
    "E-BLOCK-UNKNOWN": "HOLD",
    "E-MATERIAL-UNKNOWN": "HOLD",
    "E-ROW-TWICE": "HOLD",
    "E-BLOCKS-EXPANDED": "FIX",
    "E-MIXTURE-SPLIT": "FIX",
    "E-SPRAY-PLANNED": "NOTE",
    "E-SPRAY-OLD": "NOTE",
    "E-OIL-SULFUR": "NOTE",
    "E-ROW-TOTAL": "HOLD",
}
SCOUTING = {"E-COUNT": "HOLD", "E-STAGE": "HOLD", "E-LOOK-FUTURE": "HOLD", "E-DISEASE": "HOLD"}
WEATHER = {
    "E-RANGE": "HOLD",
    "E-SPIKE": "HOLD",
    "E-MISSING-CODE": "FIX",
    "E-COLUMN-SPELLING": "FIX",
    "E-ROW-ORDER": "FIX",
    "E-HOUR-TWICE": "HOLD",
    "E-WEATHER-FILLED": "NOTE",
}
DIARY_ROWS = """\
Spray diary of the made farm,,,
,,,
date,time,block_id,material
2026-02-02,06:30,B1;B2,sulfur
2026-02-31,06:30,B1,sulfur
2026-02-02,06:30,B99,sulfur
2026-02-02,06:30,B3,elixir
2026-02-02,06:30,B1,sulfur
2026-02-03,06:30,"B3, B4 & B5",copper
2026-02-03,06:30,B6,sulfur + copper
2026-02-25,06:30,B6,copper
2023-02-03,06:30,B6,copper
2026-02-03,07:30,B1,mineral oil
Total,,,11
"""
SCOUTING_ROWS = """\
date,block_id,inspected,infected,stage,disease
2026-02-02,B1,50,0,613,
2026-02-02,B2,50,60,613,
2026-02-02,B3,50,1,full bloom,
2026-03-02,B3,50,1,613,
2026-02-02,B4,50,1,613,blight
"""


@pytest.fixture(scope="module")
def farm(tmp_path_factory):
    farm = SmallFarm(tmp_path_factory.mktemp("sink") / "farm").build()
    a, b, c, d, _ = square(1, row=1)
    walk = {"type": "LineString", "coordinates": in_degrees(square(2, row=1))}
    farm.blocks = [
        {"block_id": name, "cultivar": "Kent", "corners": polygon(square(place))}
        for place, name in enumerate(SOUND, start=1)
    ]
    farm.blocks[0] |= {"area_ha": "9"}
    farm.blocks[1] |= {"cultivar": "Kent 60, Keitt 70"}
    farm.blocks[2] |= {"cultivar": "Wonderful", "planted": "soon"}
    farm.blocks[3] |= {"corners": polygon(square(4, side=202.0))}
    farm.blocks += [
        {"block_id": "X1", "cultivar": "Kent", "corners": polygon([a, c, b, d, a])},
        {"block_id": "X2", "cultivar": "Kent", "corners": walk},
        {"block_id": "X3", "cultivar": "Kent", "corners": None},
        {"block_id": "X4", "cultivar": "Kent", "corners": polygon(square(4, row=1, side=5.0))},
        {"block_id": "7", "cultivar": "Kent", "corners": polygon(square(5, row=1))},
        {"block_id": "07", "cultivar": "Kent", "corners": polygon(square(6, row=1))},
        farm.blocks[5],
    ]
    farm.draw()
    farm.write("diary.csv", DIARY_ROWS)
    farm.write("scouting.csv", SCOUTING_ROWS)
    rows = weather_rows("2026-02-01T00:00", 78).rename(columns={"wind_speed_m_s": "Wind (m/s)"})
    rows.loc[10, "air_temperature_degC"] = -5
    rows.loc[20, "relative_humidity_percent"] = 400
    rows.loc[30, "air_temperature_degC"] = -9999
    rows.loc[[40, 41]] = rows.loc[[41, 40]].to_numpy()
    farm.hours("station.csv", rows)
    farm.add("station.csv", "2026-02-02T10:00,29,55,2,0,0.3\n")
    return farm


def test_every_fault_is_told_in_one_pass(farm):
    checked = farm.check()
    assert checked.exit_code == 3
    told = {(fault["file"], fault["code"]): fault["outcome"] for fault in checked.faults}
    expected = {
        "blocks.geojson": OUTLINES,
        "diary.csv": DIARY,
        "scouting.csv": SCOUTING,
        "station.csv": WEATHER,
    }
    for file, faults in expected.items():
        for code, outcome in faults.items():
            assert told.get((file, code)) == outcome, (file, code, sorted(told))
    assert sum(map(len, expected.values())) >= 25
    assert "STOP" not in told.values()


def test_its_sound_blocks_are_ranked_all_the_same(farm, tmp_path):
    out = tmp_path / "maps"
    told = CliRunner().invoke(app, ["map", str(farm.folder), "--out", str(out)])
    assert told.exit_code == 3, told.stderr
    with (out / "risk.csv").open(encoding="utf-8", newline="") as opened:
        ranked = {row["block_id"] for row in csv.DictReader(opened)}
    assert ranked == set(SOUND)


def test_the_same_faults_are_told_in_spanish_in_other_words(farm):
    english = [dict(zip(COLUMNS, cells(one), strict=True)) for one in check(farm.folder).issues]
    with speaking("es"):
        spanish = [dict(zip(COLUMNS, cells(one), strict=True)) for one in check(farm.folder).issues]
    assert len(english) >= 33
    data = ("outcome", "code", "file", "row", "column", "value")
    for said, other in zip(english, spanish, strict=True):
        assert [said[name] for name in data] == [other[name] for name in data]
        assert said["found"] != other["found"]
        assert said["fix"] != other["fix"]
        # A place without a word is the name of a block alone.
        assert said["at"] != other["at"] or not said["at"].strip('"B123456')


def test_names_that_a_file_must_use_are_explained_in_spanish(farm):
    with speaking("es"):
        fixes = {issue.code: issue.fix for issue in check(farm.folder).issues}
    assert "copper (cobre)" in fixes["E-MATERIAL-UNKNOWN"]
    assert "powdery mildew on panicles (oídio en panículas)" in fixes["E-DISEASE"]


def test_no_word_of_a_fault_stands_outside_the_catalogue(farm):
    with speaking(bracketed()):
        issues = check(farm.folder).issues
    for issue in issues:
        assert unsaid(issue.found).strip(" ;,.") == "", issue
        assert unsaid(issue.fix).strip(" ;,.") == "", issue
        assert unsaid(issue.where.removeprefix(issue.file)).strip(' "B123456') == "", issue
