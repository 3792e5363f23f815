"""The record of sprays: done is what has a start and a finish, and the last correction holds."""

import pytest

from geo.season.spray_record import chained

RECORD = "sprays-done.csv"
COLUMNS = ("record_id", "corrects", "date", "block_id", "material", "start_time", "finish_time")
ROWS = ("first_row", "last_row", "rows_of_block")


@pytest.fixture
def kept(farm):
    """Return the demo farm with a record of its own, as yet without rows."""
    farm.swap("farm.toml", 'diary = "diary.csv"', f'diary = "diary.csv"\nrecords = "{RECORD}"')
    farm.write_table(RECORD, [[*COLUMNS, *ROWS]])
    return farm


def done(
    farm, own="a", block="B01", *, corrects="", start="05:00", finish="05:20", rows=(), **more
):
    """Add a row that says that sulfur was sprayed on 17 February."""
    cells = [own, corrects, more.get("date", "2026-02-17"), block, more.get("material", "sulfur")]
    return farm.add(RECORD, *cells, start, finish, *(rows or ("", "", "")))


def sprays(farm):
    """Return the hours of the season's sprays beyond those of the diary."""
    season = farm.read()[1]
    found = list(zip(season.spray_block.values, season.spray_hour.values, strict=True))
    return [(int(block), float(hour)) for block, hour in found[67:]]


# 17 February 05:20 is 44 days and 5 h 20 min after the season's first midnight.
HOUR = 44 * 24 + 5 + 20 / 60


def test_a_completed_row_counts_at_its_finish(kept):
    done(kept)
    assert sprays(kept) == [(0, pytest.approx(HOUR))]
    file = next(file for file in kept.read()[0].files if file.role == "records")
    assert (file.used, file.held) == (1, 0)


def test_a_planned_row_never_counts(kept):
    done(kept, start="", finish="")
    assert sprays(kept) == []


@pytest.mark.parametrize(("start", "finish"), [("05:00", ""), ("", "05:20")])
def test_half_a_row_is_set_aside(kept, start, finish):
    row = done(kept, start=start, finish=finish)
    issue = kept.only("E-RECORD-HALF")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{RECORD} row {row} column block_id"
    assert sprays(kept) == []


def test_the_last_correction_holds(kept):
    done(kept, "a", "B01")
    done(kept, "b", "B02", corrects="a")
    done(kept, "c", "B03", corrects="a")
    assert [block for block, _ in sprays(kept)] == [2]


def test_a_correction_without_hours_takes_the_row_back(kept):
    done(kept, "a")
    done(kept, "b", corrects="a", start="", finish="")
    assert sprays(kept) == []


def test_a_correction_of_nothing_counts_by_itself_and_is_noted(kept):
    done(kept, "b", corrects="gone")
    assert kept.only("E-RECORD-ID").outcome == "NOTE"
    assert len(sprays(kept)) == 1


def test_the_same_id_twice_counts_once(kept):
    done(kept, "a")
    done(kept, "a", "B02")
    assert "stands there already" in kept.only("E-ROW-TWICE").found


def test_rows_of_a_block_sprayed_from_two_tanks_are_one_spray(kept):
    done(kept, "a", rows=("1", "14", "24"))
    done(kept, "b", start="05:30", finish="05:50", rows=("15", "24", "24"))
    assert sprays(kept) == [(0, pytest.approx(HOUR + 0.5))]
    assert kept.issues("E-RECORD-PART") == []


def test_a_block_of_which_rows_are_missing_counts_and_says_so(kept):
    done(kept, "a", rows=("1", "14", "24"))
    issue = kept.only("E-RECORD-PART")
    assert issue.outcome == "NOTE"
    assert '"B01" has 14 of 24 rows recorded on 2026-02-17, sulfur' in issue.found
    assert len(sprays(kept)) == 1


def test_work_may_go_on_after_midnight_but_not_half_a_day(kept):
    done(kept, "a", start="23:30", finish="00:10", date="2026-02-16")
    assert sprays(kept) == [(0, pytest.approx(44 * 24 + 10 / 60))]
    done(kept, "b", "B02", start="05:00", finish="18:00")
    issue = kept.only("E-RECORD-LONG")
    assert issue.outcome == "HOLD"
    assert len(sprays(kept)) == 1


def test_unknown_blocks_and_materials_are_set_aside(kept):
    done(kept, "a", "B77")
    done(kept, "b", material="sulphur dust")
    assert kept.only("E-BLOCK-UNKNOWN").outcome == "HOLD"
    assert kept.only("E-MATERIAL-UNKNOWN").outcome == "HOLD"
    assert sprays(kept) == []


@pytest.mark.parametrize(
    ("cells", "code"), [({"start": "dawn"}, "E-TIME"), ({"date": "17/2/26"}, "E-DATE")]
)
def test_a_time_that_cannot_be_read_stops_the_run(kept, cells, code):
    done(kept, **cells)
    assert kept.stop(code).where.startswith(RECORD)


@pytest.mark.parametrize("day", ["2026-02-17", "17 Feb 2026"])
def test_what_the_diary_tells_too_counts_once(kept, day):
    done(kept, "a")
    kept.add("diary.csv", day, "04:00", "B01;B02", "sulfur", "", "")
    assert kept.only("E-RECORD-TWICE").outcome == "NOTE"
    assert [block for block, _ in sprays(kept)] == [0, 1]


def test_a_spray_after_the_last_measured_hour_counts_later(kept):
    done(kept, start="06:30", finish="07:10", date="2026-02-18")
    note = next(n for n in kept.issues("E-SPRAY-PLANNED") if n.where.startswith(RECORD))
    assert "it counts as soon as weather is measured beyond it" in note.found
    assert sprays(kept) == []


def test_a_record_makes_a_diary_needless(farm):
    farm.swap("farm.toml", 'diary = "diary.csv"', f'records = "{RECORD}"')
    farm.write_table(RECORD, [list(COLUMNS)])
    done(farm, rows=[""])
    rows = [row[: len(COLUMNS)] for row in farm.table(RECORD)]
    farm.write_table(RECORD, rows)
    assert farm.issues("E-DIARY-MISSING") == []
    assert farm.read()[1].sizes["spray"] == 1


def test_with_neither_diary_nor_record_nothing_was_sprayed(farm):
    farm.swap("farm.toml", 'diary = "diary.csv"\n', "")
    assert farm.read()[1].sizes["spray"] == 0


def test_a_record_may_be_named_before_its_first_row(kept):
    (kept.folder / RECORD).unlink()
    issue = kept.only("E-FILE-MISSING")
    assert issue.outcome == "NOTE"
    assert f'file "{RECORD}" is not there yet' in issue.found
    assert sprays(kept) == []


def test_an_empty_record_is_noted(kept):
    assert kept.only("E-RECORD-EMPTY").outcome == "NOTE"


def test_a_changed_row_is_noted_and_used(kept):
    rows = [
        {"record_id": own, "date": "2026-02-17", "block_id": block, "material": "sulfur"}
        | {"start_time": "05:00", "finish_time": "05:20"}
        for own, block in (("a", "B01"), ("b", "B02"))
    ]
    tied = chained(rows, "")
    kept.write_table(RECORD, [list(tied[0]), *[list(row.values()) for row in tied]])
    assert kept.issues("E-RECORD-CHANGED") == []
    kept.cell(RECORD, 2, "finish_time", "05:40")
    issue = kept.only("E-RECORD-CHANGED")
    assert (issue.outcome, issue.where) == ("NOTE", f"{RECORD} row 2 column record_id")
    assert len(sprays(kept)) == 2


def test_faults_of_diary_and_record_are_told_together(kept):
    done(kept, date="yesterday")
    kept.add("diary.csv", "last week", "", "B01", "sulfur", "", "")
    found = [issue.where.split()[0] for issue in kept.stopped() if issue.code == "E-DATE"]
    assert sorted(found) == ["diary.csv", RECORD]


def test_a_record_is_checked_even_where_the_weather_cannot_be_used(kept):
    done(kept, date="yesterday")
    kept.swap("station.csv", "air_temperature_degC", "warmth")
    assert {"E-DATE", "E-COLUMN-MISSING"} <= {issue.code for issue in kept.stopped()}
