"""What stands on the first sheet of a workbook, as a CSV file would say it?"""

import io
import warnings
import zipfile
import zlib
from datetime import datetime, time, timedelta
from xml.etree.ElementTree import ParseError

from openpyxl import load_workbook
from openpyxl.utils.exceptions import InvalidFileException

from geo.texts import phrase

ZIP_MARK = b"PK\x03\x04"  # with which every workbook of this kind begins, and no text does
MOST_BYTES = 100_000_000  # unpacked: more is no table of a farm (our choice)
_BROKEN = (
    zipfile.BadZipFile, zlib.error, InvalidFileException, ParseError,
    KeyError, ValueError, TypeError, OSError, RuntimeError,
)  # fmt: skip


class WorkbookError(ValueError):
    """A workbook that cannot be read: what is wrong with it, in words."""


def is_workbook(content: bytes) -> bool:
    """
    Return whether bytes are those of a workbook.

    Parameters
    ----------
    content : bytes
        Of a file.

    Returns
    -------
    bool
        By its first bytes, whatever the file is called.
    """
    return content.startswith(ZIP_MARK)


def first_sheet(content: bytes) -> list[list[str]]:
    """
    Return the rows of a workbook's first sheet as text.

    Parameters
    ----------
    content : bytes
        Of the file. Formulas count by the values last computed; macros are left alone.

    Returns
    -------
    list of list of str
        From the sheet's first row, blank ones too, so that rows keep their numbers. Dates stand
        year first, and times as on a clock.

    Raises
    ------
    WorkbookError
        If it is no workbook, is too large, or holds a formula whose value was never computed.
    """
    try:
        _refuse_huge(content)
        # Two readings: values, and where formulas stand.
        values, formulas = (_cells(content, data_only=only) for only in (True, False))
    except WorkbookError:
        raise
    except _BROKEN as error:
        message = phrase("cannot be read as a workbook ({error})", error=error)
        raise WorkbookError(message) from error
    _refuse_uncomputed(values, formulas)
    return [[_text(cell) for cell in row] for row in values]


def _refuse_huge(content: bytes) -> None:
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        size = sum(part.file_size for part in packed.infolist())
    if size > MOST_BYTES:
        message = phrase("unpacks to {size:.0f} MB, more than any table of a farm", size=size / 1e6)
        raise WorkbookError(message)


def _cells(content: bytes, *, data_only: bool) -> list[tuple[object, ...]]:
    with warnings.catch_warnings():
        # It warns of colours and drop-down lists that it does not keep: none is read here.
        warnings.simplefilter("ignore")
        book = load_workbook(io.BytesIO(content), read_only=True, data_only=data_only)
        sheet = book.worksheets[0]
        # Some programs write a wrong size into the file.
        sheet.reset_dimensions()
        rows = [tuple(row) for row in sheet.iter_rows(values_only=True)]
        book.close()
    return rows


def _refuse_uncomputed(
    values: list[tuple[object, ...]], formulas: list[tuple[object, ...]]
) -> None:
    for number, (row, written) in enumerate(zip(values, formulas, strict=True), start=1):
        for value, formula in zip(row, written, strict=True):
            if value is None and formula is not None:
                message = phrase(
                    "has a formula in row {row} whose value was never computed", row=number
                )
                raise WorkbookError(message)


def _text(cell: object) -> str:
    if cell is None:
        return ""
    if isinstance(cell, datetime):
        # Spreadsheets keep moments as fractions of a day, off by a little.
        moment = (cell + timedelta(seconds=0.5)).replace(microsecond=0)
        return f"{moment:%Y-%m-%d}" if moment.time() == time() else _clocked(moment)
    if isinstance(cell, time):
        return cell.isoformat(timespec="minutes")
    if isinstance(cell, float):
        return f"{cell:.15g}"
    return str(cell)


def _clocked(moment: datetime) -> str:
    return moment.isoformat(timespec="seconds" if moment.second else "minutes")
