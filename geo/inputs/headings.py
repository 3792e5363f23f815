"""Where in a table do its headings stand, and which column is which?"""

from collections.abc import Sequence
from dataclasses import dataclass

from geo.errors import Outcome, quoted
from geo.inputs.at import at_row
from geo.inputs.names import nearest, plain
from geo.inputs.reading import Reading
from geo.inputs.sheets import Rows
from geo.inputs.spellings import QUANTITIES, SPELLINGS, Heading, flat, meant
from geo.inputs.units import UNITS, unit_named
from geo.texts import mark, phrase
from geo.texts.lists import listed

LONGEST_TITLE = 15  # rows above the headings: more is no title (our choice)
# Keys, and what is said where a person reads them.
NAMED, SPELT = mark("as named"), mark("by its spelling")
MAPPED, UNUSED = mark("by the column map"), mark("not used")
BY_STANDARD = mark("by its standard name")


@dataclass(frozen=True, slots=True)
class Header:
    """
    The headings of a table.

    Attributes
    ----------
    row : int
        Where they stand, from 0.
    first : int
        The first row below them that holds data.
    places : dict of str to int
        Place of each of our columns that is there.
    units : dict of str to str
        Our name of the unit of each of them that measures something.
    """

    row: int
    first: int
    places: dict[str, int]
    units: dict[str, str]


def find_header(
    reading: Reading, rows: Rows, *, required: Sequence[str], optional: Sequence[str]
) -> Header:
    """
    Return where the headings stand and what they mean.

    Parameters
    ----------
    reading : Reading
        The file; how each heading is understood is written down in it.
    rows : list of list of str
        The table.
    required, optional : sequence of str
        Our columns.

    Returns
    -------
    Header
        Perhaps without required columns: that is said by whoever asked for them.

    Raises
    ------
    InputError
        If two headings mean the same column, or a unit is missing or unknown.
    """
    wanted = (*required, *optional)
    understood = [_understood(reading, row, wanted) for row in rows[: LONGEST_TITLE + 1]]
    counts = [len({heading.means for heading in row if heading.means}) for row in understood]
    at = counts.index(max(counts))
    if at:
        found = phrase("headings stand in row {row}: what is above them is left out", row=at + 1)
        reading.add(Outcome.FIX, "E-TITLE-ROWS", at_row(at + 1), found=found, fix=phrase("Nothing"))
    headings = understood[at]
    first, beneath = at + 1, rows[at + 1] if at + 1 < len(rows) else []
    if _are_units(beneath):
        first += 1
        headings = [
            Heading(
                heading.written,
                heading.means,
                heading.unit or unit_named(beneath[place] if place < len(beneath) else ""),
                heading.how,
            )
            for place, heading in enumerate(headings)
        ]
        found = phrase("units stand below the headings: taken from there")
        reading.add(Outcome.FIX, "E-UNITS-ROW", at_row(first), found=found, fix=phrase("Nothing"))
    reading.headings = [heading for heading in headings if heading.written]
    _refuse_ambiguous(reading, headings, row=at + 1)
    _refuse_units(reading, headings, row=at + 1)
    reading.check()
    _say_spellings(reading, headings, row=at + 1)
    places = {heading.means: place for place, heading in enumerate(headings) if heading.means}
    units = {heading.means: heading.unit for heading in headings if heading.means}
    return Header(at, first, places, units)


def refuse_missing(
    reading: Reading, header: Header, written: list[str], required: Sequence[str]
) -> None:
    """
    Write down which required columns are not there.

    Parameters
    ----------
    reading : Reading
        The file.
    header : Header
        Its headings.
    written : list of str
        As they stand there.
    required : sequence of str
        Our columns.
    """
    for column in required:
        if column in header.places:
            continue
        fix = phrase(
            "Write {column} over that column, or save the table as CSV with commas",
            column=quoted(column),
        )
        if any(map(plain, written)):
            fix = phrase(
                "Write {column} over that column, or save the table as CSV with commas; nearest "
                "is {nearest}",
                column=quoted(column),
                nearest=nearest(column, written),
            )
        at, found = at_row(header.row + 1), phrase("no column {column}", column=quoted(column))
        reading.add(Outcome.STOP, "E-COLUMN-MISSING", at, found=found, fix=fix)


def _understood(reading: Reading, row: list[str], wanted: tuple[str, ...]) -> list[Heading]:
    own = {plain(column): column for column in wanted}
    taken = {own[plain(cell)] for cell in row if plain(cell) in own}
    taken |= {
        means
        for cell in row
        if plain(cell) not in own
        for means, _ in [reading.column_map.get(flat(cell), ("", ""))]
    }
    open_columns = tuple(column for column in wanted if column not in taken)
    return [_heading(reading, cell, own, open_columns) for cell in row]


def _heading(
    reading: Reading, cell: str, own: dict[str, str], open_columns: tuple[str, ...]
) -> Heading:
    written = cell.strip()
    if flat(cell) in reading.column_map:
        means, unit = reading.column_map[flat(cell)]
        known = means if means in own.values() else ""
        return Heading(written, known, unit_named(unit) or unit, MAPPED if known else UNUSED)
    if plain(cell) in own:
        column = own[plain(cell)]
        return Heading(written, column, QUANTITIES.get(column, ("", ""))[1], NAMED)
    means, unit = meant(cell, open_columns)
    return Heading(written, means, unit, SPELT if means else UNUSED)


def _are_units(row: list[str]) -> bool:
    cells = [cell.strip() for cell in row if cell.strip()]
    named = [cell for cell in cells if unit_named(cell)]
    is_mostly = 2 * len(named) >= len(cells) > 0
    return is_mostly and not any(any(map(str.isdigit, cell)) for cell in cells)


def _refuse_ambiguous(reading: Reading, headings: list[Heading], *, row: int) -> None:
    for column in dict.fromkeys(heading.means for heading in headings if heading.means):
        named = [heading.written for heading in headings if heading.means == column]
        if len(named) > 1:
            found = phrase(
                "{headings} may both be {column}",
                headings=listed(map(quoted, named)),
                column=quoted(column),
            )
            fix = phrase("Say in a column map which one is meant, or rename the other")
            at = at_row(row, column)
            reading.add(Outcome.STOP, "E-COLUMN-AMBIGUOUS", at, found=found, fix=fix)


def _refuse_units(reading: Reading, headings: list[Heading], *, row: int) -> None:
    for heading in headings:
        if heading.means not in QUANTITIES:
            continue
        known = UNITS[QUANTITIES[heading.means][0]]
        if heading.unit in known:
            continue
        found = phrase("{heading} names no unit", heading=quoted(heading.written))
        if heading.unit:
            found = phrase(
                "{unit} is no unit for {heading}",
                unit=quoted(heading.unit),
                heading=quoted(heading.written),
            )
        fix = phrase(
            "Write it behind the heading in brackets, one of: {units}", units=", ".join(known)
        )
        at = at_row(row, heading.means)
        reading.add(Outcome.STOP, "E-UNIT-MISSING", at, found=found, fix=fix)


def _say_spellings(reading: Reading, headings: list[Heading], *, row: int) -> None:
    said = []
    for heading in headings:
        own = QUANTITIES.get(heading.means, ("", ""))[1]
        if heading.how == SPELT:
            written, column = quoted(heading.written), heading.means
            said.append(
                phrase("{heading} as {column}", heading=written, column=column)
                if heading.unit == own
                else phrase(
                    "{heading} as {column} from {unit}",
                    heading=written,
                    column=column,
                    unit=heading.unit,
                )
            )
    if said:
        found = phrase("headings read by their meaning: {headings}", headings="; ".join(said))
        fix = phrase("Nothing if this is right; else say in a column map what is meant")
        reading.add(Outcome.FIX, "E-COLUMN-SPELLING", at_row(row), found=found, fix=fix)


def is_known_column(name: str) -> bool:
    """
    Return whether a column map may name a column.

    Parameters
    ----------
    name : str
        As the user wrote it.

    Returns
    -------
    bool
        True for a column that some reader takes.
    """
    return name in SPELLINGS or name in QUANTITIES
