"""Where in a file does a fault stand? In words, with row and column kept beside them as data."""

from collections.abc import Iterable
from dataclasses import dataclass

from geo.errors import quoted
from geo.texts import phrase


@dataclass(frozen=True, slots=True)
class At:
    """
    A place within a file.

    Attributes
    ----------
    words : str
        As it is said; empty for the whole file.
    row : str
        Number of the row, as the spreadsheet shows it, or of the drawing's feature. Several are
        ``3 to 9`` or ``3, 5`` in every language: tables take them apart.
    column : str
        As the file names it.
    """

    words: str = ""
    row: str = ""
    column: str = ""


WHOLE_FILE = At()


def at_row(row: object, column: object = "") -> At:
    """
    Return a row of a table, or a cell of it.

    Parameters
    ----------
    row : object
        Its number.
    column : object
        Name of its column; empty for the whole row.

    Returns
    -------
    At
        Such as ``row 7 column time``.
    """
    if not column:
        return At(phrase("row {row}", row=row), str(row))
    return At(phrase("row {row} column {column}", row=row, column=column), str(row), str(column))


def at_span(rows: Iterable[int], column: object = "", *, count: int = 0) -> At:
    """
    Return rows of a table from the first to the last of them.

    Parameters
    ----------
    rows : iterable of int
        Their numbers.
    column : object
        Name of their column; empty for whole rows.
    count : int
        How many of the rows between are meant; 0 if that is not said.

    Returns
    -------
    At
        Such as ``rows 3 to 9 (5 of them) column time``.
    """
    numbers = list(rows)
    first, last = min(numbers), max(numbers)
    if not count:
        words = phrase("rows {first} to {last}", first=first, last=last)
    elif column:
        words = phrase(
            "rows {first} to {last} ({count} of them) column {column}",
            first=first,
            last=last,
            count=count,
            column=column,
        )
    else:
        words = phrase(
            "rows {first} to {last} ({count} of them)", first=first, last=last, count=count
        )
    return At(words, f"{first} to {last}", str(column))


def at_rows(rows: Iterable[object]) -> At:
    """
    Return rows of a table, each by its number.

    Parameters
    ----------
    rows : iterable of object
        Their numbers.

    Returns
    -------
    At
        Such as ``rows 3, 5``.
    """
    listed = ", ".join(map(str, rows))
    return At(phrase("rows {rows}", rows=listed), listed)


def at_column(column: object, *, of: Iterable[object] = ()) -> At:
    """
    Return a column of a table.

    Parameters
    ----------
    column : object
        Its name.
    of : iterable of object
        Ids of the blocks or neighbours whose cells are meant; none for the whole column.

    Returns
    -------
    At
        Such as ``"B07" column cultivar``.
    """
    names = ", ".join(map(quoted, of))
    words = phrase("column {column}", column=column)
    if names:
        words = phrase("{names} column {column}", names=names, column=column)
    return At(words, column=str(column))


def at_feature(number: object, name: str | None = None, column: str = "") -> At:
    """
    Return a feature of a drawing, or what is written of it.

    Parameters
    ----------
    number : object
        Its place in the file, from 1.
    name : str, optional
        Its id or name, which may be empty.
    column : str
        Name of an attribute; empty for the feature itself.

    Returns
    -------
    At
        Such as ``feature 3 "B07"``.
    """
    said = "" if name is None else quoted(name)
    if column:
        words = phrase(
            "feature {number} {name} column {column}", number=number, name=said, column=column
        )
    elif name is None:
        words = phrase("feature {number}", number=number)
    else:
        words = phrase("feature {number} {name}", number=number, name=said)
    return At(words, str(number), column)


def at_key(key: str) -> At:
    """
    Return a key of the settings.

    Parameters
    ----------
    key : str
        With its table, as the user would look for it.

    Returns
    -------
    At
        Such as ``key "plan.material"``.
    """
    return At(phrase("key {key}", key=quoted(key)))


def at_entry(name: str) -> At:
    """
    Return an entry of a packed file.

    Parameters
    ----------
    name : str
        Its path; empty for the packed file itself.

    Returns
    -------
    At
        Such as ``entry "doc.kml"``.
    """
    return At(phrase("entry {name}", name=quoted(name))) if name else WHOLE_FILE
