"""The diary: what counts as a spray, and what is set aside and why."""

import numpy as np
import pytest

from geo.season.acts import UNKNOWN_SPRAY

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
    assert [note.where for note in notes] == [
        f"{DIARY} row 20 column date",
        f"{DIARY} row {row} column date",
    ]
    assert notes[0].found.startswith('"2026-02-20" is after')
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


@pytest.mark.parametrize("cell", ["B01;B77;B02", "B77; b01;;B02"])
def test_an_unknown_block_is_set_aside_and_the_others_of_its_row_are_kept(farm, cell):
    row = farm.add(DIARY, "2026-02-10", "06:00", cell, "sulfur", "", "")
    issue = farm.only("E-BLOCK-UNKNOWN")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{DIARY} row {row} column block_id"
    assert issue.found.startswith('"B77" is no known block')
    assert "the other blocks of the row are kept" in issue.found
    assert issue.fix.count('"B') == 3
    read, season = farm.read()
    assert season.spray_block.values[67:].tolist() == [0, 1]
    diary = next(file for file in read.files if file.role == "diary")
    assert (diary.used, diary.held) == (19, 1)


@pytest.mark.parametrize("material", ["sulfur", "sulphur"])
def test_a_row_of_which_no_block_is_known_is_set_aside_whole(farm, demo, material):
    farm.add(DIARY, "2026-02-10", "06:00", "B77", material, "", "")
    assert "the row is set aside" in farm.only("E-BLOCK-UNKNOWN").found
    assert farm.read()[1].equals(demo[1])


def test_of_a_row_with_an_unknown_block_and_material_the_known_block_is_not_forgotten(farm, demo):
    farm.add(DIARY, "2026-02-10", "06:00", "B01;B77", "sulphur", "", "")
    assert_kept_apart(farm.read()[1], demo[1])


def assert_kept_apart(read, demo):
    """Hold that a spray of an unknown material protects nothing, and is not forgotten."""
    assert read.drop_dims("act").equals(demo.drop_dims("act"))
    assert read.act_kind.values[-1] == UNKNOWN_SPRAY
    assert read.sizes["act"] == demo.sizes["act"] + 1


@pytest.mark.parametrize("cell", ["", ";", " ; "])
def test_no_block_sets_the_row_aside(farm, cell):
    row = farm.add(DIARY, "2026-02-10", "06:00", cell, "sulfur", "", "")
    issue = farm.only("E-BLOCK-UNKNOWN")
    assert issue.where == f"{DIARY} row {row} column block_id"
    assert issue.found == '"" names no block: the row is set aside'
    assert issue.fix == "Write which block is meant"


def test_no_material_sets_the_row_aside_and_nothing_is_near_to_it(farm, demo):
    farm.add(DIARY, "2026-02-10", "06:00", "B01", "", "", "")
    issue = farm.only("E-MATERIAL-UNKNOWN")
    assert "names no material" in issue.found
    assert "nearest" not in issue.fix
    assert "Known are azoxystrobin" in issue.fix
    assert_kept_apart(farm.read()[1], demo[1])


@pytest.mark.parametrize(
    ("time", "blocks", "material"),
    [("06:30", "B23", "copper"), ("6:30:00", " b23;B24", "Copper "), ("06:30", "B23", "COPPER")],
)
def test_a_spray_written_down_twice_counts_once(farm, demo, time, blocks, material):
    row = farm.add(DIARY, "2026-01-26", time, blocks, material, "", "")
    issue = farm.only("E-ROW-TWICE")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{DIARY} row {row} column block_id"
    assert '"B23"' in issue.found
    assert "row 8" in issue.found
    assert farm.read()[1].equals(demo[1])


def test_sprays_without_a_time_on_one_day_are_one_spray(farm, demo):
    row = farm.add(DIARY, "2026-01-23", "", "B14", "sulfur", "", "")
    assert farm.only("E-ROW-TWICE").where == f"{DIARY} row {row} column block_id"
    assert farm.read()[1].equals(demo[1])


def test_a_block_named_twice_in_a_row_counts_once(farm):
    row = farm.add(DIARY, "2026-02-10", "06:00", "B01;B01;b01;B02", "sulfur", "", "")
    issue = farm.only("E-ROW-TWICE")
    assert issue.where == f"{DIARY} row {row} column block_id"
    assert issue.found.startswith('"B01" with the same material')
    assert f"the same row {row}" in issue.found
    read, season = farm.read()
    assert season.spray_block.values[67:].tolist() == [0, 1]
    diary = next(file for file in read.files if file.role == "diary")
    assert (diary.used, diary.held) == (19, 1)


def test_another_material_or_time_is_another_spray(farm):
    farm.add(DIARY, "2026-01-26", "06:30", "B22", "sulfur", "", "")
    farm.add(DIARY, "2026-01-26", "06:31", "B22", "copper", "", "")
    assert not farm.issues("E-ROW-TWICE")
    assert farm.read()[1].sizes["spray"] == 69


def test_a_diary_pasted_twice_is_said_once(farm, demo):
    header, *rows = farm.table(DIARY)
    farm.write_table(DIARY, [header, *rows, *rows, *rows])
    issue = farm.only("E-ROW-TWICE")
    assert issue.where == f"{DIARY} rows 21 to 58 (38 of them) column block_id"
    assert "row 2 and row 21" in issue.found
    assert farm.read()[1].equals(demo[1])


def test_sprays_from_before_the_weather_are_said_once(farm):
    farm.add(DIARY, "2025-12-31", "00:00", "B01;B02", "copper", "", "")
    farm.add(DIARY, "2026-01-03", "23:59", "B01", "copper", "", "")
    farm.add(DIARY, "2026-01-04", "00:00", "B01", "copper", "", "")
    note = farm.only("E-SPRAY-EARLY")
    assert note.outcome == "NOTE"
    assert note.found.startswith("2 rows from before the weather starts")
    assert "not known and taken as none" in note.found
    assert farm.read()[1].sizes["spray"] == 71


def test_sprays_of_more_than_four_hundred_days_ago_are_noted_and_not_used(farm, demo):
    # The last measured hour ends at 06:00 on 18 February 2026.
    farm.add(DIARY, "2025-01-14", "05:59", "B01;B02", "copper", "", "")
    farm.add(DIARY, "1926-02-10", "06:00", "B01", "copper", "", "")
    note = farm.only("E-SPRAY-OLD")
    assert note.outcome == "NOTE"
    assert note.found == "2 rows from more than 400 days ago are not used"
    assert not farm.issues("E-SPRAY-EARLY")
    read, season = farm.read()
    assert season.equals(demo[1])
    diary = next(file for file in read.files if file.role == "diary")
    assert (diary.used, diary.held) == (18, 3)


def test_a_spray_of_four_hundred_days_ago_is_used(farm):
    farm.add(DIARY, "2025-01-14", "06:00", "B01", "copper", "", "")
    assert not farm.issues("E-SPRAY-OLD")
    assert farm.read()[1].sizes["spray"] == 68


def test_an_unknown_material_sets_its_row_aside_and_lists_the_known(farm, demo):
    row = farm.add(DIARY, "2026-02-10", "06:00", "B01", "sulphur", "", "")
    issue = farm.only("E-MATERIAL-UNKNOWN")
    assert issue.where == f"{DIARY} row {row} column material"
    assert '"sulphur"' in issue.found
    assert 'nearest: "sulfur"' in issue.fix
    assert "mineral oil, myclobutanil, panicle removal, sulfur, washing" in issue.fix
    assert_kept_apart(farm.read()[1], demo[1])


def test_blocks_are_found_whatever_their_case(farm):
    farm.add(DIARY, "2026-02-10", "06:00", " b01 ; b02;", "sulfur", "", "")
    assert farm.read()[1].spray_block.values[-2:].tolist() == [0, 1]


@pytest.mark.parametrize(
    ("column", "value", "code"),
    [("date", "10/02/2026", "E-DATE-ORDER"), ("time", "6 am", "E-TIME")],
)
def test_a_bad_date_or_time_stops_with_its_row(farm, column, value, code):
    farm.cell(DIARY, 5, column, value)
    issue = farm.stop(code)
    assert issue.where == f"{DIARY} row 5 column {column}"
    assert f'"{value}"' in issue.found


@pytest.mark.parametrize("content", [b"", b"\xef\xbb\xbf\r\n"])
def test_an_empty_diary_is_said_like_a_missing_one(farm, content):
    (farm.folder / DIARY).write_bytes(content)
    note = farm.only("E-DIARY-MISSING")
    assert (note.outcome, note.where) == ("NOTE", DIARY)
    assert note.found.startswith("the file is empty: no sprays")
    assert farm.read()[1].sizes["spray"] == 0


def test_a_diary_without_rows_is_said_and_no_fault(farm):
    farm.write_table(DIARY, farm.table(DIARY)[:1])
    assert farm.only("E-DIARY-MISSING").found.startswith("no rows: no sprays")
    season = farm.read()[1]
    assert season.sizes["spray"] == 0
    assert season.spray_block.dtype == np.int64


def test_what_was_cut_out_or_washed_is_no_spray(farm, demo):
    farm.add("diary.csv", "2026-02-16", "09:30", "B03;B04", "Panicle removal", "", "")
    farm.add("diary.csv", "2026-02-16", "10:00", "B03", "washing", "", "")
    season = farm.read()[1]
    assert season.sizes["spray"] == demo[1].sizes["spray"]
    assert season.act_kind.values.tolist() == ["panicle removal"] * 2 + ["washing"]
    assert season.block.values[season.act_block.values].tolist() == ["B03", "B04", "B03"]
