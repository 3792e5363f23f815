"""The diary: what counts as a spray, and what is set aside and why."""

import numpy as np
import pytest

DIARY = "diary.csv"


def test_a_spray_of_several_blocks_counts_for_each(demo):
    read, season = demo
    assert season.sizes["spray"] == 67
    first = season.spray_block.values[:7]
    assert read.blocks.index[first].tolist() == [f"B{number:02d}" for number in range(1, 8)]
    # 12 January 06:30 is 8 days and 6.5 hours after the season's first midnight.
    assert season.spray_hour.values[0] == 8 * 24 + 6.5
    assert set(season.spray_material.values) == {"copper", "sulfur", "myclobutanil", "azoxystrobin"}


def test_without_a_time_eight_in_the_morning_is_taken(demo):
    season = demo[1]
    assert 19 * 24 + 8.0 in season.spray_hour.values


def test_a_spray_before_the_season_has_a_negative_hour(farm):
    farm.add(DIARY, "2025-12-31", "00:00", "B01", "Copper ", "", "")
    season = farm.read()[1]
    assert season.spray_hour.values[-1] == -4 * 24.0
    assert season.spray_material.values[-1] == "copper"


def test_a_planned_spray_is_noted_and_left_out(farm):
    row = farm.add(DIARY, "2026-02-18", "06:00", "B01", "sulfur", "", "")
    notes = farm.issues("E-SPRAY-PLANNED")
    assert [note.where for note in notes] == [f"{DIARY} row 20", f"{DIARY} row {row}"]
    assert {note.outcome for note in notes} == {"NOTE"}
    assert "planned, not counted as protection" in notes[0].found
    read, season = farm.read()
    assert season.sizes["spray"] == 67
    diary = next(file for file in read.files if file.role == "diary")
    assert (diary.used, diary.held) == (18, 2)


@pytest.mark.parametrize("time", ["05:30", "5:30", "05:30:00"])
def test_a_spray_of_this_morning_counts(farm, time):
    farm.add(DIARY, "2026-02-18", time, "B01", "sulfur", "", "")
    assert farm.read()[1].sizes["spray"] == 68


def test_an_unknown_block_sets_its_row_aside(farm, demo):
    row = farm.add(DIARY, "2026-02-10", "06:00", "B01;B77", "sulfur", "", "")
    issue = farm.only("E-BLOCK-UNKNOWN")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{DIARY} row {row} column block_id"
    assert '"B77"' in issue.found
    assert issue.fix.count('"B') == 3
    assert farm.read()[1].equals(demo[1])


def test_no_block_sets_the_row_aside(farm):
    row = farm.add(DIARY, "2026-02-10", "06:00", "", "sulfur", "", "")
    assert farm.only("E-BLOCK-UNKNOWN").where == f"{DIARY} row {row} column block_id"


def test_an_unknown_material_sets_its_row_aside_and_lists_the_known(farm, demo):
    row = farm.add(DIARY, "2026-02-10", "06:00", "B01", "sulphur", "", "")
    issue = farm.only("E-MATERIAL-UNKNOWN")
    assert issue.where == f"{DIARY} row {row} column material"
    assert '"sulphur"' in issue.found
    assert 'nearest: "sulfur"' in issue.fix
    assert "azoxystrobin, copper, mineral oil, myclobutanil, sulfur" in issue.fix
    assert farm.read()[1].equals(demo[1])


def test_blocks_are_found_whatever_their_case(farm):
    farm.add(DIARY, "2026-02-10", "06:00", " b01 ; b02;", "sulfur", "", "")
    assert farm.read()[1].spray_block.values[-2:].tolist() == [0, 1]


@pytest.mark.parametrize(
    ("column", "value", "code"),
    [("date", "10/02/2026", "E-DATE"), ("time", "6 am", "E-TIME")],
)
def test_a_bad_date_or_time_stops_with_its_row(farm, column, value, code):
    farm.cell(DIARY, 5, column, value)
    issue = farm.stop(code)
    assert issue.where == f"{DIARY} row 5 column {column}"
    assert f'"{value}"' in issue.found


def test_a_diary_without_rows_is_no_fault(farm):
    farm.write_table(DIARY, farm.table(DIARY)[:1])
    season = farm.read()[1]
    assert season.sizes["spray"] == 0
    assert season.spray_block.dtype == np.int64
