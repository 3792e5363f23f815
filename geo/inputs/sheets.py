"""Read a table file as rows of text: CSV in its encodings, or the first sheet of a workbook."""

import codecs
import csv
import io
import re
import warnings
import zipfile

import openpyxl
import pandas as pd
from openpyxl.utils import get_column_letter
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from geo.errors import Outcome, quoted
from geo.inputs.archives import refuse_bomb
from geo.inputs.at import WHOLE_FILE, at_row
from geo.inputs.endless import refuse_endless_lines
from geo.inputs.reading import Reading
from geo.inputs.workbooks import WorkbookError, first_sheet, is_workbook
from geo.texts import mark, phrase, phrases

Rows = list[list[str]]
WORKBOOKS = (".xlsx", ".xlsm")
# Far above any farm's season (our choice).
MOST_ROWS, MOST_COLUMNS = 2_000_000, 1000
_OLD_WORKBOOK = bytes.fromhex("d0cf11e0a1b11ae1")  # how .xls and locked workbooks begin
_UTF16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_SEPARATORS = ",;\t"
_ERRORS = {"#REF!", "#N/A", "#VALUE!", "#DIV/0!", "#NAME?", "#NUM!", "#NULL!"}
_HIDDEN = re.compile(rb"<row\b[^>]*\bhidden=\"(?:1|true)\"")


def rows_of(reading: Reading) -> Rows:
    """
    Return all rows of a table, the first of them row 1.

    Parameters
    ----------
    reading : Reading
        The file.

    Returns
    -------
    list of list of str
        As people see them. Nothing is computed: of a formula the value it was saved with counts.

    Raises
    ------
    InputError
        If the file is larger than any farm's, no text and no workbook, or locked.
    """
    refuse_bomb(reading)
    content = reading.content()
    if content.startswith(_OLD_WORKBOOK):
        found = phrase("is a locked workbook, or one of the old kind (.xls)")
        fix = phrase("Take the password off and save it as .xlsx, or as CSV UTF-8")
        raise reading.refused("E-WORKBOOK", WHOLE_FILE, found=found, fix=fix)
    if reading.path.suffix.lower() == ".json":
        found = phrase("is JSON, in which any program arranges its numbers in its own way")
        fix = phrase("Save it as a table: CSV with a heading over each column")
        raise reading.refused("E-TABLE-JSON", WHOLE_FILE, found=found, fix=fix)
    if reading.path.suffix.lower() in WORKBOOKS or is_workbook(content):
        return without_errors(reading, _of_workbook(reading))
    refuse_endless_lines(reading, content)
    return without_errors(reading, _of_text(reading, _text(reading, content)))


def _text(reading: Reading, content: bytes) -> str:
    fix = phrase("Save the table as CSV UTF-8")
    if content.startswith(_UTF16):
        found = phrase("is written in UTF-16: read so")
        reading.add(Outcome.FIX, "E-TEXT-ENCODING", WHOLE_FILE, found=found, fix=fix)
        encoding = "utf-16"
    else:
        encoding = "utf-8-sig"
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as error:
        at = at_row(len(content[: error.start].splitlines()) or 1)
        found = phrase("byte {byte} is not UTF-8 text", byte=error.start)
        raise reading.refused("E-TEXT", at, found=found, fix=fix) from error
    place = text.find("\0")
    if place >= 0:
        at = at_row(len(text[: place + 1].splitlines()))
        found = phrase("a character without meaning (NUL) stands in it")
        raise reading.refused("E-TEXT", at, found=found, fix=fix)
    return text


def _of_text(reading: Reading, text: str) -> Rows:
    first = next((line for line in io.StringIO(text) if line.strip()), "")
    separator = max(_SEPARATORS, key=first.count)
    if separator != ",":
        found = (
            phrase("cells stand between semicolons: read so")
            if separator == ";"
            else phrase("cells stand between tabs: read so")
        )
        fix = phrase("Nothing")
        reading.add(Outcome.FIX, "E-SEPARATOR", WHOLE_FILE, found=found, fix=fix)
    records: Rows = []
    try:
        source = io.StringIO(text, newline="")
        for record in csv.reader(source, strict=True, delimiter=separator):
            records.append(record)
            _refuse_endless(reading, len(records), record)
    except csv.Error as error:
        found = phrase(
            "the row after row {row} cannot be read: {error}", row=len(records), error=error
        )
        fix = phrase("Save the table as CSV UTF-8")
        raise reading.refused("E-TEXT", WHOLE_FILE, found=found, fix=fix) from error
    return records


def _refuse_endless(reading: Reading, number: int, record: list[str]) -> None:
    fix = phrase("Keep what this season needs")
    if number > MOST_ROWS:
        found = phrase("more than {most} rows, the most that is read", most=MOST_ROWS)
        raise reading.refused("E-FILE-LARGE", at_row(number), found=found, fix=fix)
    if len(record) > MOST_COLUMNS:
        found = phrase(
            "{columns} columns, and {most} are the most that is read",
            columns=len(record),
            most=MOST_COLUMNS,
        )
        raise reading.refused("E-FILE-LARGE", at_row(number), found=found, fix=fix)


def _of_workbook(reading: Reading) -> Rows:
    content = reading.content()
    try:
        rows = first_sheet(content)
        _look_around(reading)
    except WorkbookError as error:
        fix = phrase("Open it in the spreadsheet and save it there as .xlsx, or as CSV UTF-8")
        raise reading.refused("E-WORKBOOK", WHOLE_FILE, found=str(error), fix=fix) from error
    for number, row in enumerate(rows, start=1):
        _refuse_endless(reading, number, row)
    return rows


def _look_around(reading: Reading) -> None:
    """Say what else a workbook holds, and keep from which day it counts."""
    with warnings.catch_warnings():
        # What is not kept (styles, drawings, links) is nothing we read.
        warnings.simplefilter("ignore")
        book = openpyxl.load_workbook(io.BytesIO(reading.content()), read_only=True)
    reading.counts_from_1904 = book.epoch == CALENDAR_MAC_1904
    titles = [sheet.title for sheet in book.worksheets]
    book.close()
    if len(titles) > 1:
        names = ", ".join(map(quoted, titles[1:]))
        found = phrase(
            "the first sheet, {sheet}, is read; {others} is left out",
            sheet=quoted(titles[0]),
            others=names,
        )
        fix = phrase("Put the sheet that is meant first")
        reading.add(Outcome.NOTE, "E-SHEETS", WHOLE_FILE, found=found, fix=fix)
    _note_hidden(reading)


def without_errors(reading: Reading, rows: Rows) -> Rows:
    """
    Return rows in which cells that a spreadsheet could not compute are empty.

    Parameters
    ----------
    reading : Reading
        The file.
    rows : list of list of str
        As read.

    Returns
    -------
    list of list of str
        The same rows, changed in place.
    """
    errors: dict[int, dict[int, str]] = {}
    for number, row in enumerate(rows, start=1):
        for place, cell in enumerate(row):
            if cell.startswith("#") and cell.strip().upper() in _ERRORS:
                errors.setdefault(place, {})[number] = cell
                row[place] = ""
    for place, cells in sorted(errors.items()):
        reading.add_rows(
            Outcome.HOLD,
            "E-CELL-ERROR",
            pd.Series(cells, name=get_column_letter(place + 1), dtype=object),
            found=mark("{value} is an error of the spreadsheet: the cell counts as empty"),
            fix=phrase("Mend the formula"),
        )
    return rows


def _note_hidden(reading: Reading) -> None:
    with zipfile.ZipFile(io.BytesIO(reading.content())) as packed:
        names = sorted(name for name in packed.namelist() if name.startswith("xl/worksheets/sheet"))
        hidden = len(_HIDDEN.findall(packed.read(names[0]))) if names else 0
    if hidden:
        found = phrases(
            "{count} hidden row is read like the others",
            "{count} hidden rows are read like the others",
            hidden,
        )
        fix = phrase("Delete what is not meant")
        reading.add(Outcome.NOTE, "E-ROWS-HIDDEN", WHOLE_FILE, found=found, fix=fix)
