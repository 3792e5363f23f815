"""Workbooks are read as the CSV that a spreadsheet would save of their first sheet."""

import io
import zipfile
from datetime import date, datetime, time

import pytest
from openpyxl import Workbook

from geo.inputs import workbooks
from geo.inputs.workbooks import WorkbookError, first_sheet, is_workbook


def saved(*rows: object) -> bytes:
    book = Workbook()
    for row in rows:
        book.active.append(row)
    book.create_sheet("another").append(["not read"])
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def at(clock: str) -> datetime:
    return datetime.fromisoformat(f"2026-02-18T{clock}")


def test_cells_are_told_as_csv_tells_them() -> None:
    content = saved(
        ["date", "block_id", "stage"],
        [date(2026, 2, 18), "B01", 615],
        [at("06:30"), 7.25, True],
        [],
        [at("06:29:59.999999"), time(6, 30), None, "x"],
        [at("06:30:05"), 12.0],
    )
    assert is_workbook(content)
    assert first_sheet(content) == [
        ["date", "block_id", "stage"],
        ["2026-02-18", "B01", "615"],
        ["2026-02-18T06:30", "7.25", "True"],
        [],
        ["2026-02-18T06:30", "06:30", "", "x"],
        ["2026-02-18T06:30:05", "12"],
    ]


@pytest.mark.parametrize("content", [b"PK\x03\x04 and no more", saved([1])[:300]])
def test_a_broken_workbook_is_refused(content: bytes) -> None:
    with pytest.raises(WorkbookError, match="cannot be read as a workbook"):
        first_sheet(content)


def test_another_kind_of_archive_is_refused() -> None:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as packed:
        packed.writestr("something.txt", "else")
    with pytest.raises(WorkbookError, match="cannot be read as a workbook"):
        first_sheet(held.getvalue())


def test_a_formula_that_nobody_computed_is_refused_and_not_read_as_nothing() -> None:
    with pytest.raises(WorkbookError, match="formula in row 2"):
        first_sheet(saved(["inspected"], ["=5*20"]))


def test_a_workbook_that_unpacks_to_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workbooks, "MOST_BYTES", 100)
    with pytest.raises(WorkbookError, match="unpacks to 0 MB, more than any table"):
        first_sheet(saved([1]))


def test_text_is_no_workbook() -> None:
    assert not is_workbook(b"date,block_id\n")


def test_a_scouting_workbook_counts_as_its_csv_does(farm) -> None:
    csv_farm, from_csv = farm.read()
    rows = farm.table("scouting.csv")
    header, *body = rows
    typed = [
        [
            datetime.fromisoformat(cell)
            if name == "date"
            else int(cell)
            if cell.isdigit()
            else cell
            for name, cell in zip(header, row, strict=True)
        ]
        for row in body
    ]
    (farm.folder / "tallies.xlsx").write_bytes(saved(header, *typed))
    farm.swap("farm.toml", 'scouting = "scouting.csv"', 'scouting = "tallies.xlsx"')
    book_farm, from_book = farm.read()
    assert from_book.identical(from_csv)
    told = [issue.code for issue in book_farm.issues if issue.code != "E-SHEETS"]
    assert told == [issue.code for issue in csv_farm.issues]


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"PK\x03\x04", "E-WORKBOOK"),
        (saved(), "E-COLUMN-MISSING"),
        (saved(["="]), "E-COLUMN-MISSING"),
    ],
)
def test_a_workbook_at_fault_is_named(farm, content: bytes, code: str) -> None:
    (farm.folder / "scouting.csv").write_bytes(content)
    found = [issue for issue in farm.stopped() if issue.code == code]
    assert found
    assert all(issue.where.startswith("scouting.csv") for issue in found)
