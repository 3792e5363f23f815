"""Scouting notes: counts and stages, and rows set aside with the reason."""

import numpy as np
import pytest

SCOUTING = "scouting.csv"


def test_counts_and_stages_of_the_demo(demo):
    read, season = demo
    assert (season.sizes["visit"], season.sizes["portion"]) == (31, 55)
    sources = season.source.values[season.visit_block.values]
    assert "N1" in sources
    last = {name: sources == name for name in ("N1", "B22")}
    assert season.visit_infected.values[last["N1"]].tolist() == [17]
    assert season.visit_inspected.values[last["B22"]].tolist() == [60, 120]
    # 17 February is the 45th day of the season.
    assert season.visit_day.values.max() == 44
    stages = season.portion_stage.values[season.portion_block.values == 21]
    assert stages.tolist() == ["515", "615", "617"]
    block_day = season.portion_block.values * 1000 + season.portion_day.values
    totals = np.bincount(block_day, season.portion_share.values)
    np.testing.assert_allclose(totals[totals > 0], 1.0, rtol=1e-12)
    assert (season.portion_block.values < len(read.blocks)).all()


@pytest.mark.parametrize(
    ("inspected", "infected", "found"),
    [
        ("50", "51", "more than was inspected"),
        ("50", "", "only one of inspected and infected"),
        ("", "3", "only one of inspected and infected"),
        ("0", "0", "at least 1 inspected"),
        ("50", "2.5", "whole numbers"),
        ("50", "-1", "whole numbers"),
        ("50", "1e30", "more than was inspected"),
    ],
)
def test_impossible_counts_set_their_row_aside(farm, demo, inspected, infected, found):
    row = farm.add(SCOUTING, "2026-02-16", "B03", inspected, infected, "519", "")
    issue = farm.only("E-COUNT")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{SCOUTING} row {row} column infected"
    assert found in issue.found
    assert farm.read()[1].equals(demo[1])


@pytest.mark.parametrize(
    ("stage", "found"),
    [
        ("65", 'no known stage "65"'),
        ("full bloom", "no known stage"),
        ("613:0.4;615:0.7", "add up to 1.1"),
        ("613:0.4", "add up to 0.4"),
        ("613:1.2;615:-0.2", "add up to 1"),
        ("613;615", "without a share"),
        ("613:half;615:half", "without a share"),
        ("613:nan", "add up to nan"),
        (":0.4;615:0.6", 'no known stage ""'),
    ],
)
def test_impossible_stages_set_their_row_aside(farm, demo, stage, found):
    row = farm.add(SCOUTING, "2026-02-16", "B03", "50", "3", stage, "")
    issue = farm.only("E-STAGE")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{SCOUTING} row {row} column stage"
    assert f'"{stage}"' in issue.found
    assert found in issue.found
    assert farm.read()[1].equals(demo[1])


def test_rounded_shares_are_made_whole(farm):
    farm.add(SCOUTING, "2026-02-16", "B03", "", "", " 613 : 0.33; 615: 0.66;", "")
    season = farm.read()[1]
    is_new = (season.portion_block.values == 2) & (season.portion_day.values == 43)
    assert season.portion_stage.values[is_new].tolist() == ["613", "615"]
    assert season.portion_share.values[is_new] == pytest.approx([1 / 3, 2 / 3])


def test_an_unknown_block_sets_its_row_aside(farm, demo):
    row = farm.add(SCOUTING, "2026-02-16", "B3x", "50", "3", "519", "")
    issue = farm.only("E-BLOCK-UNKNOWN")
    assert issue.where == f"{SCOUTING} row {row} column block_id"
    assert '"B03"' in issue.fix
    scouting = next(file for file in farm.read()[0].files if file.role == "scouting")
    assert (scouting.used, scouting.held) == (33, 1)
    assert farm.read()[1].equals(demo[1])


def test_a_look_after_today_is_set_aside(farm, demo):
    row = farm.add(SCOUTING, "2026-02-19", "B03", "50", "3", "519", "")
    issue = farm.only("E-LOOK-FUTURE")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{SCOUTING} row {row} column date"
    assert '"2026-02-19"' in issue.found
    assert farm.read()[1].equals(demo[1])


def test_a_look_from_before_the_weather_is_noted_and_left_out(farm, demo):
    farm.add(SCOUTING, "2025-12-24", "B03", "50", "3", "511", "")
    assert farm.only("E-LOOK-EARLY").outcome == "NOTE"
    assert farm.read()[1].equals(demo[1])


def test_a_look_of_today_counts(farm):
    farm.add(SCOUTING, "2026-02-18", "B03", "50", "3", "519", "")
    season = farm.read()[1]
    assert season.visit_day.values[season.visit_block.values == 2].max() == 45
    assert season.sizes["portion"] == 56


def test_a_row_that_tells_nothing_is_noted(farm, demo):
    row = farm.add(SCOUTING, "2026-02-16", "B03", "", "", "", "only walked past")
    assert f"row {row}" in farm.only("E-LOOK-EMPTY").found
    assert farm.read()[1].equals(demo[1])


def test_a_neighbour_s_stage_is_noted_and_not_used(farm, demo):
    farm.add(SCOUTING, "2026-02-16", "N2", "50", "1", "613", "")
    assert farm.only("E-STAGE-NEIGHBOUR").outcome == "NOTE"
    season = farm.read()[1]
    assert season.sizes["visit"] == demo[1].sizes["visit"] + 1
    assert season.portion_block.equals(demo[1].portion_block)


@pytest.mark.parametrize(
    ("column", "value", "code"),
    [("date", "06.02.2026", "E-DATE-ORDER"), ("inspected", "many", "E-NUMBER")],
)
def test_a_bad_date_or_number_stops_with_its_row(farm, column, value, code):
    farm.cell(SCOUTING, 6, column, value)
    assert farm.stop(code).where == f"{SCOUTING} row 6 column {column}"


@pytest.mark.parametrize("count", ["1e30", "100001"])
def test_a_count_nobody_can_have_made_is_set_aside_with_its_value(farm, demo, count):
    row = farm.add(SCOUTING, "2026-02-16", "B03", count, "3", "519", "")
    issue = farm.only("E-COUNT")
    assert issue.outcome == "HOLD"
    assert issue.where == f"{SCOUTING} row {row} column inspected"
    assert f'"{count}" is more than the 100000 panicles' in issue.found
    assert farm.read()[1].equals(demo[1])


def test_a_hundred_thousand_panicles_may_be_counted(farm):
    farm.add(SCOUTING, "2026-02-16", "B03", "100000", "3", "", "")
    assert farm.read()[1].visit_inspected.values.max() == 100_000


def test_two_counts_of_one_block_on_one_day_are_added_up_and_said(farm, demo):
    first = farm.add(SCOUTING, "2026-02-16", "B03", "50", "3", "", "Ana")
    second = farm.add(SCOUTING, "2026-02-16", "b03", "70", "0", "", "Luis")
    note = farm.only("E-COUNT-AGAIN")
    assert note.outcome == "NOTE"
    assert note.where == f"{SCOUTING} rows {first}, {second}"
    assert '"B03" was counted 2 times on "2026-02-16"' in note.found
    read, season = farm.read()
    assert season.sizes["visit"] == demo[1].sizes["visit"] + 1
    is_new = (season.visit_block.values == 2) & (season.visit_day.values == 43)
    assert season.visit_inspected.values[is_new].tolist() == [120]
    assert season.visit_infected.values[is_new].tolist() == [3]
    scouting = next(file for file in read.files if file.role == "scouting")
    assert (scouting.used, scouting.held) == (35, 0)


def test_many_counts_made_twice_are_said_once(farm):
    header, *rows = farm.table(SCOUTING)
    farm.write_table(SCOUTING, [header, *rows, *rows])
    assert farm.only("E-COUNT-AGAIN").found.startswith("31 blocks and days")


def test_the_order_of_rows_does_not_matter(farm):
    farm.add(SCOUTING, "2026-02-16", "B03", "50", "3", "613:0.5;615:0.5", "")
    farm.add(SCOUTING, "2026-02-16", "B03", "70", "0", "615", "")
    forward = farm.read()[1]
    header, *rows = farm.table(SCOUTING)
    farm.write_table(SCOUTING, [header, *reversed(rows)])
    assert farm.read()[1].equals(forward)


def test_a_row_without_a_block_is_set_aside_and_nothing_is_near_to_it(farm, demo):
    row = farm.add(SCOUTING, "2026-02-16", "", "50", "3", "519", "")
    issue = farm.only("E-BLOCK-UNKNOWN")
    assert issue.where == f"{SCOUTING} row {row} column block_id"
    assert issue.found == '"" names no block: the row is set aside'
    assert issue.fix == "Write which block is meant"
    assert farm.read()[1].equals(demo[1])


def test_semicolons_without_a_stage_between_them_name_none(farm):
    farm.add(SCOUTING, "2026-02-16", "B03", "50", "3", " ;;", "")
    farm.add(SCOUTING, "2026-02-17", "B03", "50", "3", "613:0.4;;615:0.6;", "")
    assert not farm.issues("E-STAGE")
    assert farm.read()[1].sizes["portion"] == 57


def test_an_empty_file_of_looks_is_said_like_a_missing_one(farm):
    (farm.folder / SCOUTING).write_bytes(b"")
    note = farm.only("E-SCOUTING-MISSING")
    assert (note.outcome, note.where) == ("NOTE", SCOUTING)
    assert note.found.startswith("the file is empty: no looks")
    assert farm.read()[1].sizes["visit"] == 0


def test_notes_without_rows_are_said_and_no_fault(farm):
    farm.write_table(SCOUTING, farm.table(SCOUTING)[:1])
    assert farm.only("E-SCOUTING-MISSING").found.startswith("no rows: no looks")
    season = farm.read()[1]
    assert (season.sizes["visit"], season.sizes["portion"]) == (0, 0)
    assert season.portion_stage.dtype.kind == "U"


def test_a_look_for_another_disease_is_kept_apart_and_a_strange_one_is_set_aside(farm):
    text = (farm.folder / SCOUTING).read_text("utf-8")
    first, *rest = text.splitlines()
    rows = [f"{first},disease", *(f"{row}," for row in rest)]
    rows += ["2026-02-16,B03,50,4,,,anthracnose on blossom", "2026-02-16,B03,50,1,,,rust"]
    (farm.folder / SCOUTING).write_text("\n".join(rows) + "\n", "utf-8")
    issue = farm.only("E-DISEASE")
    assert issue.where == f"{SCOUTING} row {len(rows)} column disease"
    assert "powdery mildew on leaves" in issue.fix
    season = farm.read()[1]
    of_blossom = season.visit_disease.values == "blossom_anthracnose"
    assert season.visit_infected.values[of_blossom].tolist() == [4]
    assert (season.visit_disease.values[~of_blossom] == "panicle_mildew").all()


TALLIED = ["date", "block_id", "inspected", "infected", "stage", "tree_counts", "look_id"]


def tallied(farm, *rows):
    """Write looks of one block and day; return counts and the rows set aside."""
    farm.write_table(SCOUTING, [TALLIED, *(["2026-02-16", "B03", *row] for row in rows)])
    read, season = farm.read()
    held = [issue.where for issue in read.issues if issue.code == "E-TALLY-AGAIN"]
    return season.visit_inspected.values.tolist(), held


def test_of_an_entry_saved_again_the_fullest_row_counts_wherever_it_stands(farm):
    small = ("10", "1", "", "1/10", "t1")
    full = ("20", "3", "515", "1/10 2/10", "t1")
    assert tallied(farm, small, full) == ([20], [f"{SCOUTING} row 2 column block_id"])
    assert tallied(farm, full, small) == ([20], [f"{SCOUTING} row 3 column block_id"])
    assert tallied(farm, full, full, full)[0] == [20]


def test_two_people_who_found_the_same_are_added_up(farm):
    row = ("10", "0", "", "0/10")
    assert tallied(farm, (*row, "t1"), (*row, "t2")) == ([20], [])


def test_rows_without_a_mark_are_one_tally_if_every_tree_agrees(farm):
    row = ("20", "3", "515", "1/10 2/10", "")
    other = ("20", "3", "515", "2/10 1/10", "")
    assert tallied(farm, row, row) == ([20], [f"{SCOUTING} row 3 column block_id"])
    assert tallied(farm, row, other) == ([40], [])


def test_rows_typed_by_hand_are_added_up_though_they_agree(farm):
    row = ("20", "3", "515", "", "")
    assert tallied(farm, row, row) == ([40], [])
