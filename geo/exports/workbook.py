"""The tables of a run as one workbook: a sheet each, numbers as numbers, words as words."""

import csv
import io
import re
import zipfile
from collections.abc import Iterable, Mapping
from datetime import date
from itertools import islice
from pathlib import Path

from openpyxl import Workbook
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE, Cell, WriteOnlyCell
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet._write_only import WriteOnlyWorksheet

from geo.exports.files import write_whole
from geo.exports.order_tables import FORMULA_STARTS
from geo.texts import mark, phrase, phrase_of

# A number as our tables write it; what begins with 0 like 07 is an id and stays a word.
_NUMBER = re.compile(r"-?(0|[1-9]\d*)(\.\d+)?(e[+-]\d+)?")
# Digits that a spreadsheet keeps of a number; longer ones, such as ids, stay words.
MOST_DIGITS = 15
# Width of a column in characters: as wide as what is in it, within these.
NARROWEST, WIDEST = 8, 60
# Our own choice: a sheet that a spreadsheet opens in seconds. A longer table stays a CSV only.
MOST_ROWS = 50_000
# What each table of a run is called as a sheet, in the order of the sheets.
SHEETS = {
    "spray-order.csv": mark("spray order"),
    "scouting-order.csv": mark("scouting order"),
    "risk.csv": mark("every disease"),
    "materials.csv": mark("your labels"),
    "gates.csv": mark("closed hours"),
    "rules.csv": mark("other rules"),
    "round.csv": mark("stops and loads"),
    "spray-record.csv": mark("rows to complete"),
}
# A sheet's name may not be longer, and a cell may not hold more.
LONGEST_NAME, LONGEST_CELL = 31, 32_767
_HEAD = Font(bold=True)
_WRAPPED = Alignment(wrap_text=True, vertical="top")


# The clock that the library writes into the file, and the least time that an archive can hold.
_CLOCK = re.compile(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
_NO_TIME = (1980, 1, 1, 0, 0, 0)


def write_workbook(path: Path, tables: Mapping[str, Path], *, day: date) -> None:
    """
    Write tables into a workbook, whole or not at all.

    Parameters
    ----------
    path : pathlib.Path
        Of the workbook.
    tables : mapping of str to pathlib.Path
        Name of each sheet, and the CSV table of ours that it shows.
    day : datetime.date
        Given as the day it was made: the data's own, so that the same tables give the same bytes.

    Notes
    -----
    Words are written as words, never as formulas, so the apostrophe that guards them in CSV is
    taken off again.
    """
    book = Workbook(write_only=True)
    for name, table in tables.items():
        _fill(book.create_sheet(name[:LONGEST_NAME]), _rows_of(table))
    held = io.BytesIO()
    book.save(held)
    write_whole(path, lambda beside: _pack_without_clock(held, beside, day))


def sheets_of(tables: Iterable[Path]) -> dict[str, Path]:
    """
    Return the sheets that a run's tables make.

    Parameters
    ----------
    tables : iterable of pathlib.Path
        Files of the run; those that are none of its tables are left out.

    Returns
    -------
    dict of str to pathlib.Path
        Name of each sheet, and its table.

    Examples
    --------
    >>> list(sheets_of([Path("risk.csv"), Path("blocks.kml"), Path("spray-order.csv")]))
    ['spray order', 'every disease']
    """
    by_name = {path.name: path for path in tables}
    return {phrase_of(sheet): by_name[name] for name, sheet in SHEETS.items() if name in by_name}


def _rows_of(table: Path) -> list[list[str]]:
    with table.open(encoding="utf-8", newline="") as text:
        rows = list(islice(csv.reader(text), MOST_ROWS + 2))
    if len(rows) <= MOST_ROWS + 1:
        return rows
    return [
        [phrase("too long for a sheet")],
        [phrase("More than {count} rows: see {file}", count=MOST_ROWS, file=table.name)],
    ]


def _pack_without_clock(held: io.BytesIO, path: Path, day: date) -> None:
    stamp = f"{day}T00:00:00Z".encode()
    with zipfile.ZipFile(held) as read, zipfile.ZipFile(path, "w") as written:
        for name in read.namelist():
            content = read.read(name)
            if name == "docProps/core.xml":
                content = _CLOCK.sub(stamp, content)
            entry = zipfile.ZipInfo(name, _NO_TIME)
            written.writestr(entry, content, zipfile.ZIP_DEFLATED)


def _fill(sheet: WriteOnlyWorksheet, rows: list[list[str]]) -> None:
    last = get_column_letter(len(rows[0]))
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = f"A1:{last}{len(rows)}"
    for column, cells in enumerate(zip(*rows, strict=True), start=1):
        width = max(len(cell) for cell in cells)
        sheet.column_dimensions[get_column_letter(column)].width = min(
            max(width + 1, NARROWEST), WIDEST
        )
    sheet.append([_head(sheet, word) for word in rows[0]])
    for row in rows[1:]:
        sheet.append([_value(sheet, cell) for cell in row])


def _head(sheet: WriteOnlyWorksheet, word: str) -> Cell:
    cell = WriteOnlyCell(sheet, word.replace("_", " "))
    cell.font, cell.alignment = _HEAD, _WRAPPED
    return cell


def _value(sheet: WriteOnlyWorksheet, text: str) -> float | str | Cell | None:
    if _NUMBER.fullmatch(text) and len(text) <= MOST_DIGITS:
        return float(text)
    if not text.startswith("'"):
        # Our tables guard each text that a spreadsheet would run, so this one it would not.
        return _writable(text) or None
    is_guard = text[1:].startswith(FORMULA_STARTS)
    cell = WriteOnlyCell(sheet, _writable(text[1:] if is_guard else text))
    cell.data_type = "s"
    return cell


def _writable(text: str) -> str:
    return str(ILLEGAL_CHARACTERS_RE.sub("", text))[:LONGEST_CELL]
