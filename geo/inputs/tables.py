"""Read a CSV file or a workbook as text, with rows counted as the spreadsheet shows them."""

import csv
import io
from collections.abc import Sequence

import numpy as np
import pandas as pd

from geo.errors import Outcome
from geo.inputs.names import nearest, plain
from geo.inputs.reading import Reading
from geo.inputs.workbooks import WorkbookError, first_sheet, is_workbook

# What loggers and spreadsheets write where nothing was measured.
MISSING = ("", "nan", "na", "n/a", "null", "none", "-", "--", "---", "-9999", "-999", "-9999.0")


def read_table(
    reading: Reading, *, required: Sequence[str], optional: Sequence[str] = ()
) -> pd.DataFrame:
    """
    Return the named columns of a CSV file, or of a workbook's first sheet, as text.

    Parameters
    ----------
    reading : Reading
        The file.
    required, optional : sequence of str
        Columns to take, found whatever their case. Others are left where they are.

    Returns
    -------
    pandas.DataFrame
        Text without outer spaces, "" where a cell or an optional column is missing. The index
        is the row as the spreadsheet shows it: the header is row 1. Blank rows are left out.

    Raises
    ------
    InputError
        If the file is empty, is no CSV text or lacks a required column.
    """
    if reading.is_blank():
        fix = f"Fill it: its first row names the columns {', '.join(required)}"
        raise reading.refused("E-FILE-EMPTY", "", found="file is empty", fix=fix)
    header, *rows = _records(reading) or [[""]]
    named = [plain(cell) for cell in header]
    for column in required:
        if plain(column) not in named:
            fix = f'Write "{column}" over that column, or save the table as CSV with commas'
            if any(named):
                fix += f"; nearest is {nearest(column, header)}"
            reading.add(
                Outcome.STOP,
                "E-COLUMN-MISSING",
                "row 1",
                found=f'no column "{column}"',
                fix=fix,
            )
    _refuse_long_rows(reading, len(header), rows)
    reading.check()
    frame = pd.DataFrame(
        {
            column: _column(rows, named.index(plain(column)) if plain(column) in named else None)
            for column in (*required, *optional)
        },
        index=range(2, len(rows) + 2),
        dtype=object,
    )
    is_blank = (frame == "").all(axis=1)
    return frame[~is_blank]


def _column(rows: list[list[str]], place: int | None) -> list[str]:
    if place is None:
        return [""] * len(rows)
    return [row[place].strip() if place < len(row) else "" for row in rows]


def _records(reading: Reading) -> list[list[str]]:
    records: list[list[str]] = []
    fix = "Save the table as CSV UTF-8"
    if is_workbook(reading.content()):
        try:
            return first_sheet(reading.content())
        except WorkbookError as error:
            raise reading.refused("E-WORKBOOK", "", found=str(error), fix=fix) from error
    try:
        text = reading.content().decode("utf-8-sig")
        records.extend(csv.reader(io.StringIO(text, newline=""), strict=True))
    except UnicodeDecodeError as error:
        found = f"byte {error.start} is not UTF-8 text"
        raise reading.refused("E-TEXT", "", found=found, fix=fix) from error
    except csv.Error as error:
        found = f"the row after row {len(records)} cannot be read: {error}"
        raise reading.refused("E-TEXT", "", found=found, fix=fix) from error
    return records


def _refuse_long_rows(reading: Reading, width: int, rows: list[list[str]]) -> None:
    for number, row in enumerate(rows, start=2):
        if any(cell.strip() for cell in row[width:]):
            reading.add(
                Outcome.STOP,
                "E-ROW-LONG",
                f"row {number}",
                found=f"{len(row)} cells under {width} headings",
                fix="Put a cell with a comma in double quotes, and write decimals with a point",
            )


def numbers(reading: Reading, cells: pd.Series) -> pd.Series:
    """
    Return a column of numbers.

    Parameters
    ----------
    reading : Reading
        The file, for faults.
    cells : pandas.Series
        Text.

    Returns
    -------
    pandas.Series
        Floats, NaN where the cell says that nothing was measured or is faulty.
    """
    is_missing = cells.str.lower().isin(MISSING)
    values = pd.to_numeric(cells.mask(is_missing, "nan"), errors="coerce").astype(float)
    values = values.where(np.isfinite(values))
    reading.add_rows(
        Outcome.STOP,
        "E-NUMBER",
        cells[values.isna() & ~is_missing],
        found="is not a number",
        fix="Write a number with a decimal point, or leave the cell empty",
    )
    return values


def dates(reading: Reading, cells: pd.Series) -> pd.Series:
    """
    Return a column of calendar dates.

    Parameters
    ----------
    reading : Reading
        The file, for faults.
    cells : pandas.Series
        Text, year first. Day and month are never guessed from their order.

    Returns
    -------
    pandas.Series
        Midnights without a zone, NaT where the cell is faulty.
    """
    read = pd.to_datetime(cells, format="%Y-%m-%d", errors="coerce")
    # Beyond these a year is a slip of the pen (or another calendar), and nanoseconds run out.
    read = read.where(read.dt.year.between(1900, 2200))
    reading.add_rows(
        Outcome.STOP,
        "E-DATE",
        cells[read.isna()],
        found="is not a date",
        fix="Write it as 2026-02-18: year, month, day",
    )
    return read.astype("datetime64[ns]")
