"""The chain of the record shows what was changed, and the last correction holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.season.spray_record import (
    CELLS,
    COLUMNS,
    broken,
    chained,
    digest_of,
    in_force,
    is_completed,
    record_id,
)

TEXT = st.text(max_size=12)
ROWS = st.lists(st.fixed_dictionaries({"date": TEXT, "block_id": TEXT, "note": TEXT}), max_size=6)


@given(ROWS)
def test_rows_put_down_one_by_one_or_together_have_the_same_digests(rows):
    together = chained(rows, "")
    one_by_one, last = [], ""
    for row in rows:
        one_by_one += chained([row], last)
        last = one_by_one[-1]["digest"]
    assert one_by_one == together
    assert broken(together) == []


@given(ROWS.filter(bool), st.data())
def test_a_changed_cell_is_seen_in_its_row_only(rows, data):
    tied = chained(rows, "")
    place = data.draw(st.integers(0, len(tied) - 1))
    column = data.draw(st.sampled_from(CELLS))
    changed = [dict(row) for row in tied]
    changed[place][column] += "x"
    assert broken(changed) == [place]


@given(ROWS.filter(lambda rows: len(rows) > 1), st.data())
def test_a_row_taken_out_is_seen_in_the_row_after_it(rows, data):
    tied = chained(rows, "")
    place = data.draw(st.integers(0, len(tied) - 2))
    assert broken(tied[:place] + tied[place + 1 :]) == [place]


def test_a_row_slipped_in_is_seen():
    tied = chained([{"date": "2026-02-18"}, {"date": "2026-02-19"}], "")
    assert broken([tied[0], {"date": "2026-02-18", "digest": ""}, tied[1]]) == [1, 2]


def test_rows_without_any_digest_were_never_put_down():
    assert broken([{"date": "2026-02-18"}, {"date": "2026-02-19"}]) == []


def test_cells_cannot_be_shifted_without_the_digest_telling():
    assert digest_of({"farm": "ab", "date": "c"}, "") != digest_of({"farm": "a", "date": "bc"}, "")


def test_the_digest_is_no_part_of_what_it_is_of():
    assert (*CELLS, "digest") == COLUMNS
    assert digest_of({"digest": "x"}, "") == digest_of({}, "")


def row(own, corrects="", **cells):
    return {"record_id": own, "corrects": corrects, **cells}


@pytest.mark.parametrize(
    ("rows", "holding"),
    [
        ([row("a"), row("b")], [0, 1]),
        ([row("a"), row("b", "a")], [1]),
        ([row("a"), row("b", "a"), row("c", "b")], [2]),
        ([row("a"), row("b", "a"), row("c", "a")], [2]),
        ([row("a"), row("z"), row("b", "a"), row("c", "b"), row("d", "z")], [3, 4]),
        ([row(""), row("")], [0, 1]),
        ([row("a", "nobody")], [0]),
        ([], []),
    ],
)
def test_the_last_correction_of_a_row_holds(rows, holding):
    assert in_force(rows) == holding


def test_only_a_start_with_a_finish_is_done():
    assert is_completed({"start_time": "06:00", "finish_time": "06:40"})
    assert not is_completed({"start_time": "06:00", "finish_time": ""})
    assert not is_completed({})


def test_an_id_begins_with_the_day_and_comes_from_the_cells():
    first = {"date": "2026-02-18", "block_id": "B01"}
    assert record_id(first).startswith("2026-02-18-")
    assert record_id(first) == record_id(first | {"record_id": "mine"})
    assert record_id(first) != record_id(first | {"block_id": "B02"})
