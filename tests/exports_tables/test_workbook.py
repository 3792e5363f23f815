"""The workbook holds the tables: numbers as numbers, and nothing that runs."""

import csv
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from geo.exports.order_tables import as_csv
from geo.exports.workbook import LONGEST_CELL, write_workbook
from tests.demo_run import demo_folder
from tests.hostile import PAYLOADS

DAY = date(2026, 2, 18)


def sheet_of(tmp_path: Path, rows: list[list[object]]) -> list[tuple[object, ...]]:
    table = tmp_path / "table.csv"
    table.write_bytes(as_csv(["a_b", "c"], rows).encode())
    write_workbook(tmp_path / "tables.xlsx", {"one": table}, day=DAY)
    book = openpyxl.load_workbook(tmp_path / "tables.xlsx")
    assert not any(cell.data_type == "f" for row in book["one"].iter_rows() for cell in row)
    return list(book["one"].iter_rows(values_only=True))


def test_the_workbook_of_a_run_holds_its_tables() -> None:
    book = openpyxl.load_workbook(demo_folder() / "tables.xlsx")
    assert book.sheetnames == ["spray order", "scouting order", "every disease"]
    for sheet, file in zip(
        book, ("spray-order.csv", "scouting-order.csv", "risk.csv"), strict=True
    ):
        with (demo_folder() / file).open(encoding="utf-8", newline="") as text:
            rows = list(csv.reader(text))
        values = list(sheet.iter_rows(values_only=True))
        assert len(values) == len(rows)
        for written, read in zip(rows[1:], values[1:], strict=True):
            for cell, value in zip(written, read, strict=True):
                if isinstance(value, float | int):
                    assert value == pytest.approx(float(cell))
                else:
                    assert (value or "") == cell


def test_numbers_are_numbers_and_ids_are_words(tmp_path: Path) -> None:
    rows = sheet_of(tmp_path, [["07", 0.25], ["1234567890123456", -3], ["B1", None]])
    assert rows == [("a b", "c"), ("07", 0.25), ("1234567890123456", -3), ("B1", None)]


@pytest.mark.parametrize("payload", PAYLOADS)
def test_hostile_text_stays_text(tmp_path: Path, payload: str) -> None:
    (_, (value, _)) = sheet_of(tmp_path, [[payload, 1]])
    clean = payload.replace("\r\n", "\n").replace("\u0007", "").replace("\u0001", "")
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
