"""How much of the day fits on the printed sheet beside the drawing?"""

import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import ceil

from geo.exports.sheet_words import shown
from geo.rounds.order import SprayEntry

# Our own choices, tried in wide letters on A4 and US Letter. Lines of the spray order and of the
# day's notes where there is no drawing, and however high the drawing is, and of the order however
# much is noted; pixels of each; letters of a line of the order, by how many columns it has, and of
# a note; letters of each list of names.
MOST_LINES, FEWEST_LINES, LEAST_LINES, LINE = 24, 13, 4, 18.5
LETTERS_OF_COLUMNS = {3: 17, 2: 33, 1: 80}
LETTERS_OF_A_NOTE, LETTERS_OF_A_LIST = 90, 150


@dataclass(frozen=True, slots=True)
class Row:
    """
    A block of the spray order as it is printed.

    Attributes
    ----------
    rank : int
        Its place.
    is_beyond : bool
        Whether the sprayer's hours of today end before it.
    id, name : str
        As they may be printed; the name is empty where it is the id.
    loss : float
        What is lost behind it, for each hour or hectare.
    """

    rank: int
    is_beyond: bool
    id: str
    name: str
    loss: float


@dataclass(frozen=True, slots=True)
class Rows:
    """
    What of the spray order is printed.

    Attributes
    ----------
    rows : tuple of Row
        From the first on.
    rest : int
        How many more there are.
    columns : int
        Beside each other.
    """

    rows: tuple[Row, ...]
    rest: int
    columns: int


@dataclass(frozen=True, slots=True)
class Blocks:
    """
    What of a list of blocks is printed.

    Attributes
    ----------
    ids : tuple of str
        From the first on.
    rest : int
        How many more there are.
    """

    ids: tuple[str, ...]
    rest: int


def brief_lines(height: float, notes: Iterable[str]) -> int:
    """
    Return how many lines the spray order may take.

    Parameters
    ----------
    height : float
        [px] Of the drawing; 0 without one.
    notes : iterable of str
        Sentences that are printed below it.

    Returns
    -------
    int
        Lines of each column: the higher the drawing and the more is noted, the fewer.
    """
    noted = sum(ceil(_width(note) / LETTERS_OF_A_NOTE) for note in notes)
    return max(LEAST_LINES, max(FEWEST_LINES, MOST_LINES - ceil(height / LINE)) - noted)


def brief_rows(entries: Sequence[SprayEntry], names: Mapping[str, str], lines: int) -> Rows:
    """
    Return as many blocks of the spray order as there is room for.

    Parameters
    ----------
    entries : sequence of SprayEntry
        From the first on.
    names : mapping of str to str
        By id.
    lines : int
        Of each column.

    Returns
    -------
    Rows
        In as many columns as show most of them, the fewer the better among equals: a long name
        takes several lines.
    """
    rows = [_row(entry, names) for entry in entries[: max(LETTERS_OF_COLUMNS) * lines]]
    widths = [_width(f"{row.id} · {row.name}" if row.name else row.id) for row in rows]
    fitting = {
        columns: _count(widths, columns=columns, lines=lines, letters=letters)
        for columns, letters in sorted(LETTERS_OF_COLUMNS.items())
    }
    columns = max(fitting, key=lambda columns: fitting[columns])
    kept = rows[: fitting[columns]]
    return Rows(tuple(kept), len(entries) - len(kept), columns)


def brief_blocks(blocks: Sequence[str]) -> Blocks:
    """
    Return as many blocks of a list as there is room for.

    Parameters
    ----------
    blocks : sequence of str
        Ids.

    Returns
    -------
    Blocks
        At least one of them, if there is any.
    """
    ids = [shown(block) for block in blocks[:LETTERS_OF_A_LIST]]
    ends = accumulate(_width(text) + len(", ") for text in ids)
    count = max(1, sum(end <= LETTERS_OF_A_LIST for end in ends))
    return Blocks(tuple(ids[:count]), max(0, len(blocks) - count))


def _row(entry: SprayEntry, names: Mapping[str, str]) -> Row:
    name = names[entry.block]
    return Row(
        rank=entry.rank,
        is_beyond=entry.is_within is False,
        id=shown(entry.block),
        name="" if name == entry.block else shown(name),
        loss=entry.per_hour,
    )


def _count(widths: Sequence[int], *, columns: int, lines: int, letters: int) -> int:
    """Return how many rows of these widths surely fit, none of them broken between columns."""
    taken = [-(-width // letters) for width in widths]
    ends, longest = accumulate(taken), accumulate(taken, max)
    # Each column but the last may end early, by all but one line of the longest row.
    return sum(
        end <= columns * lines - (columns - 1) * (most - 1)
        for end, most in zip(ends, longest, strict=True)
    )


def _width(text: str) -> int:
    """Return how many letters wide a text is; those of East Asia are two (Unicode annex 11)."""
    return sum(2 if unicodedata.east_asian_width(letter) in "WF" else 1 for letter in text)
