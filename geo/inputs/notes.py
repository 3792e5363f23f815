"""What do notes of the farm's people speak of? Rows, and the blocks and materials they name."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE, at_column
from geo.inputs.names import EVERY, matched, nearest, plain
from geo.inputs.reading import GROUP_FROM, Reading
from geo.inputs.tables import read_table
from geo.texts import mark, phrase, phrase_of, phrases


@dataclass(frozen=True, slots=True)
class _Names:
    """What is said of a name: of none, of one nobody knows, of many of those; and what to do."""

    none: str
    which: str
    strange: str
    many: str


_NAMES = {
    "block": _Names(
        mark("{value} names no block: {so}"),
        mark("Write which block is meant"),
        mark("{value} is no known block: {so}"),
        mark("{value} is no known block, like {others} other names: {so}"),
    ),
    "material": _Names(
        mark("{value} names no material: {so}"),
        mark("Write which material is meant"),
        mark("{value} is no known material: {so}"),
        mark("{value} is no known material, like {others} other names: {so}"),
    ),
}


def read_notes(
    reading: Reading, *, columns: tuple[Sequence[str], Sequence[str]], code: str, taken: str
) -> pd.DataFrame:
    """
    Return the rows of a file that people may leave empty.

    Parameters
    ----------
    reading : Reading
        The file.
    columns : tuple of two sequences of str
        Those that must be there and those that may be, as for ``read_table``.
    code : str
        Of the note on a file without rows: that of a farm that names no such file.
    taken : str
        What is then taken to be so.

    Returns
    -------
    pandas.DataFrame
        As from ``read_table``.

    Raises
    ------
    InputError
        If the file is no CSV text or lacks a column.
    """
    required, optional = columns
    if reading.is_blank():
        found = phrase("the file is empty: {taken}", taken=taken)
        table = pd.DataFrame(columns=[*required, *optional])
    else:
        found = phrase("no rows: {taken}", taken=taken)
        table = read_table(reading, required=required, optional=optional)
    if table.empty:
        fix = phrase("Nothing, unless there is something to write down")
        reading.add(Outcome.NOTE, code, WHOLE_FILE, found=found, fix=fix)
    return table.astype(object)


def known_blocks(
    reading: Reading,
    cells: pd.Series,
    *,
    known: Sequence[str],
    held: Collection[str],
    lost: Collection[object] = (),
) -> pd.Series:
    """
    Return the index of the block that each cell means.

    Parameters
    ----------
    reading : Reading
        The file, for faults: an unknown block is held.
    cells : pandas.Series
        Ids as written. A row that names several blocks stands there several times.
    known : sequence of str
        Ids in order.
    held : collection of str
        Ids whose outlines are set aside: what is said of them is left out with one note.
    lost : collection
        Rows that are set aside for another reason.

    Returns
    -------
    pandas.Series
        Floats, NaN where there is no such block.
    """
    places = {name: place for place, name in enumerate(known)}
    found = matched(cells, known).map(places).astype(float)
    is_held = matched(cells, held).notna() & found.isna()
    for name, rows in cells[is_held].groupby(cells[is_held]):
        reading.add(
            Outcome.NOTE,
            "E-BLOCK-HELD",
            at_column(cells.name),
            found=phrases(
                "{count} row about {block} is left out with its outline",
                "{count} rows about {block} are left out with its outline",
                len(rows),
                block=quoted(name),
            ),
            fix=phrase("Mend the outline"),
        )
    unknown = cells[found.isna() & ~is_held]
    kept = set(found.index[found.notna()]) - set(lost)
    has_others = unknown.index.isin(list(kept))
    others = phrase("it is set aside, the other blocks of the row are kept")
    hold_unknown(reading, unknown[has_others], what="block", known=known, so=others)
    hold_unknown(reading, unknown[~has_others], what="block", known=known)
    return found


def hold_unknown(
    reading: Reading,
    cells: pd.Series,
    *,
    what: str,
    known: Collection[str],
    so: str = "",
    fix: str = "",
) -> None:
    """
    Set aside what names nothing known, and suggest the nearest.

    Parameters
    ----------
    reading : Reading
        The file.
    cells : pandas.Series
        The unknown names, by row.
    what : str
        What they should have named: ``block`` or ``material``.
    known : collection of str
        What there is.
    so : str
        What becomes of it; empty where the row is set aside.
    fix : str
        What else to do, in the imperative.
    """
    names, code = _NAMES[what], f"E-{what.upper()}-UNKNOWN"
    so = so or phrase("the row is set aside")
    if cells.nunique() >= GROUP_FROM:
        # To find the nearest of a long list for each of many would take minutes.
        others = cells.nunique() - 1
        advice = phrase("Check the file")
        if fix:
            advice = phrase("Check that the notes are this farm's. {more}", more=fix)
        reading.add_rows(
            Outcome.HOLD, code, cells, found=names.many, fix=advice, so=so, others=others
        )
        return
    for name, rows in cells.groupby(cells, sort=False):
        found, advice = names.none, phrase_of(names.which)
        if plain(str(name)):
            found = names.strange
            advice = phrase("Mend the name; nearest: {nearest}", nearest=nearest(str(name), known))
        if plain(str(name)) in EVERY:
            advice = phrase(
                "Name the blocks, or write all_means_every_block = true under [diary] in farm.toml"
            )
        advice = f"{advice}. {fix}" if fix else advice
        reading.add_rows(Outcome.HOLD, code, rows, found=found, fix=advice, so=so)
