"""Whatever stands in a file, readers answer in words: no bytes make them stumble or run on."""

import csv
import io
import zipfile
from contextlib import suppress
from datetime import timedelta
from functools import partial
from zoneinfo import ZoneInfo

import openpyxl
import pandas as pd
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from geo.errors import InputError
from geo.inputs.column_map import read_column_map
from geo.inputs.crews import read_crews
from geo.inputs.diary import read_diary
from geo.inputs.folder import open_folder
from geo.inputs.labels import read_labels
from geo.inputs.loggers import read_rows
from geo.inputs.named import Named
from geo.inputs.outlines import read_blocks
from geo.inputs.reading import Reading
from geo.inputs.records import recorded_sprays
from geo.inputs.scouting import read_scouting
from geo.inputs.survey import survey
from geo.inputs.vectors import read_features
from geo.inputs.weather import read_weather
from tests.inputs.catalogue import DIARY, SCOUTING, SETTINGS, weather_rows

ZONE = ZoneInfo("Asia/Manila")
BLOCKS, MATERIALS = ["B1", "B2", "7"], ["sulfur", "copper"]
DAYS = pd.date_range("2026-02-01", periods=5)
BOUNDED = settings(
    max_examples=60,
    deadline=timedelta(seconds=5),
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


def diary(reading):
    read_diary(reading, blocks=BLOCKS, held=["B9"], materials=MATERIALS, zone=ZONE)


def scouting(reading):
    read_scouting(
        reading,
        sources=BLOCKS,
        block_count=2,
        held=["B9"],
        stages=["613"],
        days=DAYS,
        today=DAYS[-1],
    )


def weather(reading):
    read_weather(reading, zone=ZONE, wind_height=10.0)


def labels(reading):
    read_labels(reading, materials=MATERIALS, today=DAYS[-1].date())


def crews(reading):
    read_crews(reading, blocks=BLOCKS, held=[], zone=ZONE, first_hour=DAYS[0], first_day=DAYS[0])


def records(reading):
    recorded_sprays(reading, Named(BLOCKS, [], MATERIALS, ZONE))


def column_map(reading):
    read_column_map(reading, {})


def loggers(reading):
    read_rows(reading, zone=ZONE)


TABLES = [diary, scouting, weather, labels, crews, records, column_map, loggers]
HEADS = {
    diary: "date,time,block_id,material,rate,rate_unit,area_ha,total_amount",
    scouting: "date,block_id,disease,inspected,infected,stage,infected_percent",
    weather: weather_rows("2026-02-01T00:00", 1).to_csv(index=False).splitlines()[0],
    labels: "material,frac_codes,rate,rate_unit,re_entry_hours,season_maximum,label_date",
    crews: "date,block_id,start,end,task",
    records: "record_id,block_id,date,start_time,finish_time,material,corrects,first_row,last_row",
    column_map: "file,heading,means,unit",
    loggers: "time,logger_id,air_temperature_degC",
}
WORDS = st.sampled_from(
    [
        "", "B1", "7", "b1;B2", "1-7", "sulfur", "sulfur+copper", "2026-02-02", "02/03/2026",
        "46055",
        "2026-02-02T05:00", "06:30", "25:99", "NaN", "-9999", "1e400", "-0", "1,5", "2,500", "T",
        "613", "613:0.4;615", "613:x", "none", "Total", "=1+1", "\u202e",
        "é", "９", "∞", "%", "x" * 300,
    ]
)  # fmt: skip
CELLS = st.one_of(WORDS, st.text(max_size=8), st.floats(allow_nan=True).map(str))


def answered(read, path):
    reading = Reading("any", path)
    with suppress(InputError):
        read(reading)
    assert all(issue.code.startswith("E-") for issue in reading.issues)


@pytest.mark.parametrize("read", TABLES)
@BOUNDED
@given(content=st.binary(max_size=300))
def test_any_bytes_are_answered_in_words(tmp_path, read, content):
    (tmp_path / "any.csv").write_bytes(content)
    answered(read, tmp_path / "any.csv")


@pytest.mark.parametrize("read", TABLES)
@BOUNDED
@given(rows=st.lists(st.lists(CELLS, min_size=1, max_size=9), max_size=8))
def test_any_cells_under_our_headings_are_answered_in_words(tmp_path, read, rows):
    text = io.StringIO()
    csv.writer(text).writerows([HEADS[read].split(","), *rows])
    (tmp_path / "any.csv").write_text(text.getvalue(), "utf-8", errors="replace")
    answered(read, tmp_path / "any.csv")


@BOUNDED
@given(rows=st.lists(st.lists(CELLS, min_size=1, max_size=9), min_size=1, max_size=8))
def test_any_workbook_is_answered_in_words(tmp_path, rows):
    book = openpyxl.Workbook()
    for row in [HEADS[diary].split(","), *rows]:
        book.active.append([cell if cell.isprintable() else "" for cell in row])
    book.save(tmp_path / "any.xlsx")
    answered(diary, tmp_path / "any.xlsx")


@BOUNDED
@given(place=st.integers(0, 5000), value=st.integers(0, 255), cut=st.integers(1, 6000))
def test_a_workbook_with_spoilt_bytes_is_answered_in_words(tmp_path, place, value, cut):
    book = openpyxl.Workbook()
    for line in DIARY.splitlines():
        book.active.append(line.split(","))
    book.save(tmp_path / "any.xlsx")
    content = bytearray((tmp_path / "any.xlsx").read_bytes())
    content[place % len(content)] = value
    (tmp_path / "any.xlsx").write_bytes(bytes(content[:cut]))
    answered(diary, tmp_path / "any.xlsx")


OUTLINES = (
    '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"block_id":"B1",'
)
OUTLINES += '"cultivar":"Kent"},"geometry":{"type":"Polygon","coordinates":[[[121,14],[121.01,14],'
OUTLINES += "[121.01,14.01],[121,14]]]}}]}"


@pytest.mark.parametrize("name", ["any.geojson", "any.gpkg", "any.kml", "any.kmz", "any.shp"])
@BOUNDED
@given(content=st.binary(max_size=300))
def test_any_bytes_for_outlines_are_answered_in_words(tmp_path, name, content):
    (tmp_path / name).write_bytes(content)
    answered(partial(read_features, required=("block_id",)), tmp_path / name)


@pytest.mark.filterwarnings("ignore:invalid value encountered:RuntimeWarning")
@BOUNDED
@given(
    place=st.integers(0, len(OUTLINES) - 1),
    text=st.sampled_from(
        ["", "9", "-", "[", "]", "null", "1e308", "NaN", '"', "\\u0000", "é", ","]
    ),
)
def test_spoilt_outlines_are_answered_in_words(tmp_path, place, text):
    spoilt = OUTLINES[:place] + text + OUTLINES[place + 1 :]
    (tmp_path / "any.geojson").write_text(spoilt, "utf-8")
    answered(partial(read_blocks, cultivars=["Kent"]), tmp_path / "any.geojson")


@BOUNDED
@given(
    place=st.integers(0, len(SETTINGS) - 1),
    text=st.sampled_from(
        ["", "9", "=", "[", '"', "\n", "true", "1979-05-27", "{}", "[[x]]\n", "é"]
    ),
)
def test_spoilt_settings_are_told_like_any_fault(tmp_path, place, text):
    spoilt = SETTINGS[:place] + text + SETTINGS[place + 1 :]
    (tmp_path / "farm.toml").write_text(spoilt, "utf-8")
    for name in ("station.csv", "forecast.csv"):
        weather_rows("2026-02-01T00:00", 30).to_csv(tmp_path / name, index=False)
    (tmp_path / "diary.csv").write_text(DIARY, "utf-8")
    (tmp_path / "scouting.csv").write_text(SCOUTING, "utf-8")
    found = survey(tmp_path, materials=MATERIALS, cultivars=["Kent"], stages=["613"])
    assert found.issues


def test_a_packed_file_that_lies_about_its_size_is_no_trap(tmp_path):
    path = tmp_path / "any.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/workbook.xml", b"0" * 3_000_000)
    content = path.read_bytes()
    size = (3_000_000).to_bytes(4, "little")
    path.write_bytes(content.replace(size, (10).to_bytes(4, "little")))
    with pytest.raises(InputError, match=r"E-PACKED|E-WORKBOOK"):
        diary(Reading("any", path))


def test_a_huge_file_is_refused_before_it_is_read(tmp_path, monkeypatch):
    path = tmp_path / "any.csv"
    with path.open("wb") as opened:
        opened.truncate(300_000_000)  # holes: nothing is stored
    with pytest.raises(InputError, match=r"E-FILE-LARGE STOP any.csv: 300 MB, and 200 MB"):
        diary(Reading("any", path))
    monkeypatch.setattr("geo.inputs.sheets.MOST_ROWS", 2)
    path.write_text(DIARY, "utf-8")
    with pytest.raises(InputError, match="more than 2 rows"):
        diary(Reading("any", path))


def test_a_folder_without_settings_is_one_fault(tmp_path):
    with pytest.raises(InputError, match="E-FILE-MISSING"):
        open_folder(tmp_path, materials=MATERIALS)
