"""Read a table as text, with rows counted as the spreadsheet shows them."""

from collections.abc import Collection, Sequence

import numpy as np
import pandas as pd

from geo.errors import Outcome
from geo.inputs.at import WHOLE_FILE, at_column, at_row, at_span
from geo.inputs.headings import find_header, refuse_missing
from geo.inputs.names import plain
from geo.inputs.reading import GROUP_FROM, Reading
from geo.inputs.sheets import rows_of
from geo.inputs.spellings import QUANTITIES
from geo.inputs.units import UNITS
from geo.texts import mark, phrase, phrases

_TOTALS = {
    "total", "totals", "sum", "grand total", "average", "mean", "total general", "suma", "promedio",
}  # fmt: skip
_COMMA, _WHOLE, _THOUSANDS = r"[+-]?\d+,\d+", r"[+-]?\d+", r"[+-]?\d{1,3},\d{3}"
# What loggers and spreadsheets write where nothing was measured.
MISSING = ("", "nan", "na", "n/a", "null", "none", "-", "--", "---", "-9999", "-999", "-9999.0")


def read_table(
    reading: Reading, *, required: Sequence[str], optional: Sequence[str] = ()
) -> pd.DataFrame:
    """
    Return the named columns of a table as text.

    Parameters
    ----------
    reading : Reading
        The file: CSV, or a workbook of which the first sheet counts.
    required, optional : sequence of str
        Columns to take, found whatever their case, by the names people use for them or by the
        user's own column map. Others are left where they are.

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
        columns = ", ".join(required)
        fix = phrase("Fill it: its first row names the columns {columns}", columns=columns)
        found = phrase("file is empty")
        raise reading.refused("E-FILE-EMPTY", WHOLE_FILE, found=found, fix=fix)
    rows = rows_of(reading) or [[""]]
    header = find_header(reading, rows, required=required, optional=optional)
    refuse_missing(reading, header, rows[header.row], required)
    below = rows[header.first :]
    _refuse_long_rows(reading, len(rows[header.row]), below, first=header.first + 1)
    reading.check()
    frame = pd.DataFrame(
        {column: _column(below, header.places.get(column)) for column in (*required, *optional)},
        index=range(header.first + 1, header.first + 1 + len(below)),
        dtype=object,
    )
    is_blank = (frame == "").all(axis=1)
    return _without_totals(reading, frame[~is_blank])


def _column(rows: list[list[str]], place: int | None) -> list[str]:
    if place is None:
        return [""] * len(rows)
    return [row[place].strip() if place < len(row) else "" for row in rows]


def _without_totals(reading: Reading, frame: pd.DataFrame) -> pd.DataFrame:
    """Set rows aside in which a spreadsheet adds up the others."""
    if frame.empty or not len(frame.columns):
        return frame
    first = frame.iloc[:, 0].where(frame.iloc[:, 0] != "", frame.bfill(axis=1).iloc[:, 0])
    is_total = first.map(plain).isin(_TOTALS)
    reading.add_rows(
        Outcome.HOLD,
        "E-ROW-TOTAL",
        first[is_total],
        found=mark("{value} adds up the other rows: it is set aside"),
        fix=phrase("Take the row out of the table"),
    )
    return frame[~is_total]


def _refuse_long_rows(reading: Reading, width: int, rows: list[list[str]], *, first: int) -> None:
    fix = phrase("Put a cell with a comma in double quotes, and write decimals with a point")
    long = [
        (number, len(row))
        for number, row in enumerate(rows, start=first)
        if len(row) > width and any(cell.strip() for cell in row[width:])
    ]
    if len(long) >= GROUP_FROM:
        at = at_span([number for number, _ in long], count=len(long))
        found = _too_long(long[0][1], width)
        reading.add(Outcome.STOP, "E-ROW-LONG", at, found=found, fix=fix)
        return
    for number, count in long:
        found = _too_long(count, width)
        reading.add(Outcome.STOP, "E-ROW-LONG", at_row(number), found=found, fix=fix)


def _too_long(cells: int, headings: int) -> str:
    return phrase("{cells} cells under {headings} headings", cells=cells, headings=headings)


def numbers(reading: Reading, cells: pd.Series, *, gaps: Collection[str] = ()) -> pd.Series:
    """
    Return a column of numbers, in the house's unit.

    Parameters
    ----------
    reading : Reading
        The file, for faults, and for the unit of the column.
    cells : pandas.Series
        Text.
    gaps : collection of str
        Further cells that say that nothing was measured.

    Returns
    -------
    pandas.Series
        Floats, NaN where the cell says that nothing was measured or is faulty.
    """
    is_missing = cells.str.lower().isin([*MISSING, *gaps])
    cells = _with_points(reading, cells)
    values = pd.to_numeric(cells.mask(is_missing, "nan"), errors="coerce").astype(float)
    values = values.where(np.isfinite(values))
    reading.add_rows(
        Outcome.STOP,
        "E-NUMBER",
        cells[values.isna() & ~is_missing],
        found=mark("{value} is not a number"),
        fix=phrase("Write a number with a decimal point, or leave the cell empty"),
    )
    quantity, _ = QUANTITIES.get(str(cells.name), ("", ""))
    if not quantity:
        return values
    written = {heading.means: heading.unit for heading in reading.headings}
    unit = UNITS[quantity].get(written.get(str(cells.name), ""))
    return values if unit is None else values * unit.scale + unit.offset


def _with_points(reading: Reading, cells: pd.Series) -> pd.Series:
    """Return cells with decimal points where the whole column has commas that can mean no other."""
    filled = cells[~cells.str.lower().isin(MISSING)]
    is_comma = filled.str.fullmatch(_COMMA)
    if not is_comma.any() or not (is_comma | filled.str.fullmatch(_WHOLE)).all():
        return cells
    if filled[is_comma].str.fullmatch(_THOUSANDS).all():
        # 2,500 may be two and a half or two thousand five hundred: nobody but the writer knows.
        return cells
    found = phrases(
        "{count} number with a decimal comma read as such",
        "{count} numbers with a decimal comma read as such",
        int(is_comma.sum()),
    )
    at = at_column(cells.name)
    reading.add(Outcome.FIX, "E-DECIMAL-COMMA", at, found=found, fix=phrase("Nothing"))
    return cells.str.replace(",", ".", regex=False)
