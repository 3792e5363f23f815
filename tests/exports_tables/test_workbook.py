"""The workbook holds the tables: numbers as numbers, and nothing that runs."""

import csv
import re
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from python_calamine import CalamineWorkbook

from geo.exports.order_tables import as_csv
from geo.exports.workbook import LONGEST_CELL, MOST_ROWS, SHEETS, write_workbook
from geo.pipeline.today import today_of, write_today
from tests.demo_run import demo_outcome
from tests.hostile import PAYLOADS

DAY = date(2026, 2, 18)


def sheet_of(tmp_path: Path, rows: list[list[object]]) -> list[tuple[object, ...]]:
    table = tmp_path / "table.csv"
    table.write_bytes(as_csv(["a_b", "c"], rows).encode())
    write_workbook(tmp_path / "tables.xlsx", {"one": table}, day=DAY)
    book = openpyxl.load_workbook(tmp_path / "tables.xlsx")
    assert not any(cell.data_type == "f" for row in book["one"].iter_rows() for cell in row)
    return list(book["one"].iter_rows(values_only=True))


@pytest.fixture(scope="module")
def day_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("day")
    write_today(demo_outcome(), today_of(demo_outcome(), walk_hours=2.0), folder)
    return folder


def test_every_table_of_a_run_is_a_sheet(day_folder: Path) -> None:
    book = openpyxl.load_workbook(day_folder / "tables.xlsx")
    assert book.sheetnames == list(SHEETS.values())
    assert {path.name for path in day_folder.glob("*.csv")} == SHEETS.keys()


@pytest.mark.parametrize(("file", "name"), SHEETS.items())
def test_a_sheet_holds_its_table_cell_by_cell(day_folder: Path, file: str, name: str) -> None:
    with (day_folder / file).open(encoding="utf-8", newline="") as text:
        rows = list(csv.reader(text))
    # Read with another library than wrote it.
    sheet = CalamineWorkbook.from_path(day_folder / "tables.xlsx").get_sheet_by_name(name)
    values = sheet.to_python(skip_empty_area=False)
    assert [str(cell) for cell in values[0]] == [cell.replace("_", " ") for cell in rows[0]]
    assert len(values) == len(rows) > 1
    for written, read in zip(rows[1:], values[1:], strict=True):
        for cell, value in zip(written, read, strict=True):
            if isinstance(value, float):
                assert value == pytest.approx(float(cell))
            else:
                assert value == cell


def test_a_table_too_long_for_a_sheet_says_where_it_is(tmp_path: Path) -> None:
    table = tmp_path / "gates.csv"
    table.write_bytes(as_csv(["a"], [[number] for number in range(MOST_ROWS + 1)]).encode())
    write_workbook(tmp_path / "tables.xlsx", {"closed hours": table}, day=DAY)
    sheet = openpyxl.load_workbook(tmp_path / "tables.xlsx")["closed hours"]
    assert list(sheet.iter_rows(values_only=True)) == [
        ("too long for a sheet",),
        (f"More than {MOST_ROWS} rows: see gates.csv",),
    ]


def test_numbers_are_numbers_and_ids_are_words(tmp_path: Path) -> None:
    rows = sheet_of(tmp_path, [["07", 0.25], ["1234567890123456", -3], ["B1", None]])
    assert rows == [("a b", "c"), ("07", 0.25), ("1234567890123456", -3), ("B1", None)]


@pytest.mark.parametrize("payload", PAYLOADS)
def test_hostile_text_stays_text(tmp_path: Path, payload: str) -> None:
    (_, (value, _)) = sheet_of(tmp_path, [[payload, 1]])
    # ECMA-376 cells are XML 1.0, which has no way to write most control characters.
    clean = re.sub("[\u0001\u0007\u001b]", "", payload.replace("\r\n", "\n"))
    assert value == clean


def test_a_cell_never_holds_more_than_a_spreadsheet_can(tmp_path: Path) -> None:
    (_, (value, _)) = sheet_of(tmp_path, [["x" * 40_000, 1]])
    assert value == "x" * LONGEST_CELL


def test_an_apostrophe_of_the_users_own_stays(tmp_path: Path) -> None:
    (_, (value, _)) = sheet_of(tmp_path, [["'s Block", 1]])
    assert value == "'s Block"


def test_the_same_tables_give_the_same_bytes(tmp_path: Path) -> None:
    table = tmp_path / "table.csv"
    table.write_bytes(as_csv(["a"], [[1]]).encode())
    for name in ("first.xlsx", "second.xlsx"):
        write_workbook(tmp_path / name, {"one": table}, day=DAY)
    first, second = ((tmp_path / name).read_bytes() for name in ("first.xlsx", "second.xlsx"))
    assert first == second
    book = openpyxl.load_workbook(tmp_path / "first.xlsx")
    assert book.properties.created.date() == book.properties.modified.date() == DAY
