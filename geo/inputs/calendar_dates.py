"""Which day does a cell of a date column mean? The whole column decides, never a single row."""

import re

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_column
from geo.inputs.reading import Reading
from geo.texts import mark, phrase, phrases

ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]00:00(?::00)?)?")
_PARTED = re.compile(r"(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{2}|\d{4})")
_WORDS = ("%d %b %Y", "%d %B %Y", "%b %d %Y", "%B %d %Y")
_SERIAL = re.compile(r"\d{5}")
# Day numbers of spreadsheets for 1990 to 2100, and the days they count from.
_FIRST_SERIAL, _LAST_SERIAL = 32_874, 73_415
_EPOCH, _EPOCH_1904 = pd.Timestamp("1899-12-30"), pd.Timestamp("1904-01-01")
_FIRST_YEAR, _LAST_YEAR = 1900, 2200  # beyond these a year is a slip of the pen (our choice)
_BUDDHIST, _THAI_FIRST, _THAI_LAST = 543, 2400, 2600  # how far the Thai calendar is ahead
_SHORT_YEAR, _MONTHS = 2, 12
DAY_FIRST, MONTH_FIRST = "day first", "month first"
_NO_DATE, _TWO_DIGITS, _THAI = "no date", "two digits", "Thai"
# Where the row is set aside, and where it stops the run.
_SAID = {
    _NO_DATE: (
        mark("{value} is not a date: the row is set aside"),
        mark("{value} is not a date"),
    ),
    _TWO_DIGITS: (
        mark("{value} has a year of two digits: the row is set aside"),
        mark("{value} has a year of two digits"),
    ),
    _THAI: (
        mark("{value} looks like the Thai calendar ({year} there is {ours}): the row is set aside"),
        mark("{value} looks like the Thai calendar ({year} there is {ours})"),
    ),
}
_Read = tuple[pd.Timestamp, tuple[str, int]]  # the day, or NaT, why and of which year


def dates(reading: Reading, cells: pd.Series, *, outcome: Outcome = Outcome.HOLD) -> pd.Series:
    """
    Return a column of calendar dates.

    Parameters
    ----------
    reading : Reading
        The file, for faults, and for what the user's column map says of the order of day and
        month.
    cells : pandas.Series
        Text, best with the year first. Whether day or month comes first in the others is decided
        by the whole column: by rows that can be read in one way only.
    outcome : Outcome
        What becomes of a row without a date. Where leaving it out could open what it closes, as
        with people in a block, it stops the run.

    Returns
    -------
    pandas.Series
        Midnights without a zone, NaT where the cell is faulty: such a row is set aside.

    Raises
    ------
    InputError
        If no row tells whether the day or the month comes first.
    """
    written = pd.Series(cells.unique(), dtype=object)
    order = _order(reading, cells, written)
    reading.check()
    read = {cell: _day(cell, order, in_1904=reading.counts_from_1904) for cell in written}
    days = cells.map({cell: day for cell, (day, _) in read.items()})
    days = pd.to_datetime(days, errors="coerce").astype("datetime64[ns]")
    reasons = cells.map({cell: reason for cell, (_, reason) in read.items()})
    for (reason, year), which in cells[days.isna()].groupby(reasons[days.isna()], sort=False):
        reading.add_rows(
            outcome,
            "E-DATE",
            which,
            found=_SAID[reason][outcome is not Outcome.HOLD],
            fix=phrase("Write it as 2026-02-18: year, month, day"),
            year=year,
            ours=year - _BUDDHIST,
        )
    _say(reading, cells, days, order)
    return days


def _order(reading: Reading, cells: pd.Series, written: pd.Series) -> str:
    """Return in which order the column writes day and month; empty where no cell asks for it."""
    units = {heading.means: heading.unit for heading in reading.headings}
    if units.get(str(cells.name)) in (DAY_FIRST, MONTH_FIRST):
        return units[str(cells.name)]
    parts = [part for cell in written if (part := _PARTED.fullmatch(cell))]
    if not parts:
        return ""
    has_day_first = any(int(part[1]) > _MONTHS for part in parts)
    has_month_first = any(int(part[2]) > _MONTHS for part in parts)
    if has_day_first != has_month_first:
        return DAY_FIRST if has_day_first else MONTH_FIRST
    if all(part[1] == part[2] for part in parts):
        return DAY_FIRST
    asked = cells[cells.map(lambda cell: _PARTED.fullmatch(cell) is not None)]
    found = mark("{value} can be read with the day first or with the month first")
    if has_day_first:
        found = mark(
            "{value} stands in a column in which some rows have the day first and some the month"
        )
    fix = phrase(
        "Write dates as 2026-02-18, or write {day_first} or {month_first} as the unit of this "
        "column in a column map",
        day_first=quoted(DAY_FIRST),
        month_first=quoted(MONTH_FIRST),
    )
    reading.add_rows(Outcome.STOP, "E-DATE-ORDER", asked[:1], found=found, fix=fix)
    return ""


def _day(cell: str, order: str, *, in_1904: bool) -> _Read:
    """Return the day of a cell, or NaT and why."""
    iso, parted = ISO.fullmatch(cell), _PARTED.fullmatch(cell)
    if iso:
        return _of_parts(int(iso[1]), int(iso[2]), int(iso[3]))
    if parted:
        if len(parted[3]) == _SHORT_YEAR:
            return pd.NaT, (_TWO_DIGITS, 0)
        day, month = (1, 2) if order == DAY_FIRST else (2, 1)
        return _of_parts(int(parted[3]), int(parted[month]), int(parted[day]))
    if _SERIAL.fullmatch(cell) and _FIRST_SERIAL <= int(cell) <= _LAST_SERIAL:
        epoch = _EPOCH_1904 if in_1904 else _EPOCH
        return epoch + pd.Timedelta(days=int(cell)), ("", 0)
    words = " ".join(cell.replace(",", " ").replace("-", " ").split())
    for form in _WORDS:
        day = pd.to_datetime(words, format=form, errors="coerce")
        if not pd.isna(day):
            return _of_parts(day.year, day.month, day.day)
    return pd.NaT, (_NO_DATE, 0)


def _of_parts(year: int, month: int, day: int) -> _Read:
    if _THAI_FIRST <= year <= _THAI_LAST:
        return pd.NaT, (_THAI, year)
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        return pd.NaT, (_NO_DATE, 0)
    read = pd.to_datetime(f"{year:04d}-{month:02d}-{day:02d}", format="%Y-%m-%d", errors="coerce")
    return read, ("" if not pd.isna(read) else _NO_DATE, 0)


def _say(reading: Reading, cells: pd.Series, days: pd.Series, order: str) -> None:
    """Say how what is not written with the year first was read."""
    at = at_column(cells.name)
    epoch = _EPOCH_1904.year if reading.counts_from_1904 else _EPOCH.year + 1
    fix = phrase("Nothing if these are the right days")
    kinds = (_PARTED, _SERIAL, re.compile(r".*[^\W\d_].*"))
    known = cells[days.notna()]
    for pattern in kinds:
        which = known[known.map(lambda cell, form=pattern: form.fullmatch(cell) is not None)]
        which = which[~which.map(lambda cell: ISO.fullmatch(cell) is not None)]
        if len(which):
            example, day = quoted(which.iloc[0]), f"{days[which.index[0]]:%Y-%m-%d}"
            if pattern is _SERIAL:
                found = _read_as_numbers(len(which), example, day, epoch)
            elif pattern is _PARTED:
                found = _read_in_order(len(which), example, day, order)
            else:
                found = phrases(
                    "{count} date such as {example} read by the name of the month: {day}",
                    "{count} dates such as {example} read by the name of the month: {day}",
                    len(which),
                    example=example,
                    day=day,
                )
            reading.add(Outcome.FIX, "E-DATE-FORM", at, found=found, fix=fix)


def _read_in_order(count: int, example: str, day: str, order: str) -> str:
    if order == DAY_FIRST:
        return phrases(
            "{count} date such as {example} read with the day first: {day}",
            "{count} dates such as {example} read with the day first: {day}",
            count,
            example=example,
            day=day,
        )
    return phrases(
        "{count} date such as {example} read with the month first: {day}",
        "{count} dates such as {example} read with the month first: {day}",
        count,
        example=example,
        day=day,
    )


def _read_as_numbers(count: int, example: str, day: str, epoch: int) -> str:
    return phrases(
        "{count} date such as {example} read as the day number of a spreadsheet that counts from "
        "{epoch}: {day}",
        "{count} dates such as {example} read as day numbers of a spreadsheet that counts from "
        "{epoch}: {day}",
        count,
        example=example,
        day=day,
        epoch=epoch,
    )
