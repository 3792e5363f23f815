"""CSV files: text, rows as the spreadsheet shows them, and every fault named."""

import pandas as pd
import pytest

from geo.errors import InputError
from geo.inputs.at import at_row
from geo.inputs.reading import Reading
from geo.inputs.tables import numbers, read_table


@pytest.fixture
def reading(tmp_path):
    return Reading("diary", tmp_path / "table.csv")


def test_rows_count_from_the_header_and_blank_ones_are_left_out(reading):
    reading.path.write_bytes("\ufeffDate, Block_ID\r\n2026-01-01, B1\r\n,\r\n\r\nx".encode())
    table = read_table(reading, required=("date", "block_id"), optional=("note",))
    assert list(table.index) == [2, 5]
    assert table.loc[2].tolist() == ["2026-01-01", "B1", ""]
    assert table.loc[5].tolist() == ["x", "", ""]


def test_a_missing_column_is_named_with_the_nearest(reading):
    reading.path.write_text("date,blokk\n", "utf-8")
    with pytest.raises(InputError, match=r'table\.csv row 1: no column "block_id".*"blokk"'):
        read_table(reading, required=("date", "block_id"))


@pytest.mark.parametrize("content", ["", "\ufeff", " \r\n"])
def test_an_empty_file_is_one_fault_whatever_columns_it_lacks(reading, content):
    reading.path.write_text(content, "utf-8")
    with pytest.raises(InputError, match=r"^E-FILE-EMPTY STOP table\.csv: file is empty") as raised:
        read_table(reading, required=("date", "block_id"))
    assert len(raised.value.issues) == 1


def test_an_unnamed_column_is_not_the_nearest(reading):
    reading.path.write_text(",blokk\n", "utf-8")
    with pytest.raises(InputError) as raised:
        read_table(reading, required=("block_id",))
    assert raised.value.issues[0].fix.endswith('nearest is "blokk"')


def test_a_header_without_a_name_has_no_nearest(reading):
    reading.path.write_text(",\nx,y\n", "utf-8")
    with pytest.raises(InputError) as raised:
        read_table(reading, required=("block_id",))
    assert "nearest" not in raised.value.issues[0].fix


def test_bytes_that_are_no_text_are_counted_from_the_start(reading):
    reading.path.write_bytes(b"date\nma\xf1ana\n")
    with pytest.raises(InputError, match="byte 7 is not UTF-8"):
        read_table(reading, required=("date",))


def test_an_open_quote_is_refused(reading):
    reading.path.write_text('date,note\n2026-01-01,"open\n', "utf-8")
    with pytest.raises(InputError, match="row after row 1 cannot be read"):
        read_table(reading, required=("date",))


def test_a_decimal_comma_makes_a_row_too_long(reading):
    reading.path.write_text("date,rain\n2026-01-01,2,5\n", "utf-8")
    with pytest.raises(InputError, match="row 2: 3 cells under 2 headings"):
        read_table(reading, required=("date", "rain"))


def test_what_loggers_write_for_nothing_is_no_number_and_no_fault(reading):
    cells = pd.Series(["", "NaN", "-9999", "---", "NULL", "2.5", " 1e1"], name="rain")
    values = numbers(reading, cells)
    assert values.isna().tolist() == [True] * 5 + [False] * 2
    assert values.iloc[5:].tolist() == [2.5, 10.0]
    assert not reading.issues


def test_a_bad_number_names_row_column_and_value(reading):
    numbers(reading, pd.Series({7: "1,5", 9: "inf"}, name="rain"))
    assert [str(issue) for issue in reading.issues] == [
        f'E-NUMBER STOP table.csv row {row} column rain: "{value}" is not a number. '
        "Write a number with a decimal point, or leave the cell empty."
        for row, value in ((7, "1,5"), (9, "inf"))
    ]


def test_the_same_fault_in_many_rows_is_said_once(reading):
    numbers(reading, pd.Series(dict.fromkeys(range(14, 49), "x"), name="rain"))
    assert len(reading.issues) == 1
    assert reading.issues[0].where == "table.csv rows 14 to 48 (35 of them) column rain"


def test_what_stops_is_said_before_what_is_set_aside(reading):
    reading.add("HOLD", "E-A", at_row(2), found="a", fix="b")
    error = reading.refused("E-B", at_row(3), found="c", fix="d")
    assert [issue.code for issue in error.issues] == ["E-B", "E-A"]
