"""Which blocks, and which materials, does one cell name? Several are written out, none guessed."""

import re
from collections.abc import Collection, Mapping, Sequence

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.names import EVERY, plain
from geo.inputs.reading import GROUP_FROM, Reading
from geo.texts import mark, phrase
from geo.texts.lists import listed

_BETWEEN = re.compile(r"\s*(?:[;,&+\n]|\b(?:and|y|e|et)\b)\s*", re.IGNORECASE)
_TOGETHER = re.compile(r"\s*(?:[+/&;,]|\b(?:and|with|y|con)\b)\s*", re.IGNORECASE)
_SAID_BESIDE = re.compile(r"\(?\btank[ -]?(?:mix|mixture)\b\)?", re.IGNORECASE)
_RANGE = re.compile(r"(?P<word>\D*)(?P<first>\d+)\s*(?:-|–|to)\s*(?P<again>\D*)(?P<last>\d+)")
LONGEST_RANGE = 200  # more blocks than that are not meant by two numbers (our choice)


def named_blocks(reading: Reading, cells: pd.Series, known: Sequence[str]) -> pd.Series:
    """
    Return the blocks that cells name, each on a row of its own.

    Parameters
    ----------
    reading : Reading
        The file: what was written out is said, but for the list with ``;`` that we ask for.
    cells : pandas.Series
        As written, by row.
    known : sequence of str
        Ids there are.

    Returns
    -------
    pandas.Series
        Names, the row several times for several blocks. What cannot be told apart stays as it was
        written, so that it is held as an unknown block.
    """
    places = {plain(name): name for name in known}
    every = list(known) if reading.all_is_every_block else []
    read = {
        cell: every if every and plain(cell) in EVERY else _parts(cell, places)
        for cell in cells.unique()
    }
    _say(reading, cells, read, known)
    names = pd.Series(
        [read[cell] for cell in cells], index=cells.index, name=cells.name, dtype=object
    )
    return names.explode().map(str.strip).astype(object)


def _parts(cell: str, places: Mapping[str, str]) -> list[str]:
    listed = [part.strip() for part in cell.split(";") if part.strip()]
    if plain(cell) in places or not listed:
        return [cell.strip(" ;")]
    parts: list[str] = []
    for part in listed:
        span = _span(part, places)
        if plain(part) in places:
            parts.append(part)
        elif span:
            parts += span
        else:
            pieces = [piece for piece in _BETWEEN.split(part) if piece]
            spans = [_span(piece, places) or [piece] for piece in pieces]
            # One list that names nothing we know is left whole, to be told as it is written.
            some = any(plain(name) in places for names in spans for name in names)
            parts += [name for names in spans for name in names] if some else [part]
    return parts


def _span(part: str, places: Mapping[str, str]) -> list[str]:
    """Return the blocks from one number to another; empty unless all of them are there."""
    found = _RANGE.fullmatch(part.strip())
    if not found or plain(part) in places:
        return []
    word, again = plain(found["word"]), plain(found["again"])
    first, last = int(found["first"]), int(found["last"])
    if again not in ("", word) or not first < last < first + LONGEST_RANGE:
        return []
    width = len(found["first"])
    names = [f"{word}{number:0{width}d}" for number in range(first, last + 1)]
    names = [name if name in places else f"{word}{int(name[len(word) :])}" for name in names]
    return [places[name] for name in names] if all(name in places for name in names) else []


def _say(
    reading: Reading, cells: pd.Series, read: Mapping[str, list[str]], known: Sequence[str]
) -> None:
    plain_known = {plain(name) for name in known}
    said = {}
    for cell, parts in read.items():
        asked = [part.strip() for part in cell.split(";") if part.strip()]
        if len(parts) > 1 and parts != asked and any(plain(part) in plain_known for part in parts):
            said[cell] = ", ".join(map(quoted, parts))
    found = mark("{value} read as {parts}")
    many = mark("{value} read as {parts}, and {others} other cells in their own way")
    fix = phrase('Nothing if this is right; else write the blocks with ";" between')
    _say_each(reading, "E-BLOCKS-EXPANDED", cells, said, found=found, many=many, fix=fix)


def _say_each(
    reading: Reading,
    code: str,
    cells: pd.Series,
    said: Mapping[str, str],
    *,
    found: str,
    many: str,
    fix: str,
) -> None:
    """Say how cells were read; where there are many ways of writing, the first stands for all."""
    written = cells[cells.isin(list(said))]
    if len(said) >= GROUP_FROM:
        first, others = said[written.iloc[0]], len(said) - 1
        reading.add_rows(
            Outcome.FIX, code, written, found=many, fix=fix, parts=first, others=others
        )
        return
    for cell, rows in written.groupby(written, sort=False):
        reading.add_rows(Outcome.FIX, code, rows, found=found, fix=fix, parts=said[cell])


def named_materials(reading: Reading, cells: pd.Series, known: Collection[str]) -> pd.Series:
    """
    Return the materials that cells name, each on a row of its own.

    Parameters
    ----------
    reading : Reading
        The file: mixtures that were split are said.
    cells : pandas.Series
        As written, by row.
    known : collection of str
        Materials there are.

    Returns
    -------
    pandas.Series
        Names in our spelling, NaN where no part of a cell is known. A cell of which one part is
        not known counts as unknown as a whole: half a mixture is another spray.
    """
    spelling = {plain(name): name for name in known}
    read = {cell: _mixture(cell, spelling) for cell in cells.unique()}
    said = {cell: listed(map(quoted, parts)) for cell, parts in read.items() if len(parts) > 1}
    found = mark("{value} read as a mixture of {parts}")
    many = mark("{value} read as a mixture of {parts}, and {others} other cells in their own way")
    fix = phrase("Nothing if this is right; else write a row for each material")
    _say_each(reading, "E-MIXTURE-SPLIT", cells, said, found=found, many=many, fix=fix)
    names = pd.Series(
        [read[cell] for cell in cells], index=cells.index, name=cells.name, dtype=object
    )
    return names.explode().astype(object)


def _mixture(cell: str, spelling: Mapping[str, str]) -> list[str]:
    if plain(cell) in spelling:
        return [spelling[plain(cell)]]
    parts = [part for part in _TOGETHER.split(_SAID_BESIDE.sub("", cell)) if part.strip()]
    if parts and all(plain(part) in spelling for part in parts):
        return list(dict.fromkeys(spelling[plain(part)] for part in parts))
    return []
