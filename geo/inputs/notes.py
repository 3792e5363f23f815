"""What do notes of the farm's people speak of? Rows, and the blocks and materials they name."""

from collections.abc import Collection, Sequence

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.names import EVERY, matched, nearest, plain
from geo.inputs.reading import GROUP_FROM, Reading
from geo.inputs.tables import read_table


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
        reason, table = "the file is empty", pd.DataFrame(columns=[*required, *optional])
    else:
        reason, table = "no rows", read_table(reading, required=required, optional=optional)
    if table.empty:
        found, fix = f"{reason}: {taken}", "Nothing, unless there is something to write down"
        reading.add(Outcome.NOTE, code, "", found=found, fix=fix)
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
            f"column {cells.name}",
            found=f"{len(rows)} rows about {quoted(name)} are left out with its outline",
            fix="Mend the outline",
        )
    unknown = cells[found.isna() & ~is_held]
    kept = set(found.index[found.notna()]) - set(lost)
    has_others = unknown.index.isin(list(kept))
    others = "it is set aside, the other blocks of the row are kept"
    hold_unknown(reading, unknown[has_others], what="block", known=known, so=others)
    hold_unknown(reading, unknown[~has_others], what="block", known=known)
    return found


def hold_unknown(
    reading: Reading,
    cells: pd.Series,
    *,
    what: str,
    known: Collection[str],
    so: str = "the row is set aside",
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
        What they should have named.
    known : collection of str
        What there is.
    so : str
        What becomes of it.
    fix : str
        What else to do, in the imperative.
    """
    if cells.nunique() >= GROUP_FROM:
        # To find the nearest of a long list for each of many would take minutes.
        found = f"is no known {what}, like {cells.nunique() - 1} other names: {so}"
        advice = f"Check that the notes are this farm's. {fix}" if fix else "Check the file"
        reading.add_rows(Outcome.HOLD, f"E-{what.upper()}-UNKNOWN", cells, found=found, fix=advice)
        return
    for name, rows in cells.groupby(cells, sort=False):
        found, advice = f"names no {what}", f"Write which {what} is meant"
        if plain(str(name)):
            found = f"is no known {what}"
            advice = f"Mend the name; nearest: {nearest(str(name), known)}"
        if plain(str(name)) in EVERY:
            advice = "Name the blocks, or write all_means_every_block = true under [diary] in "
            advice += "farm.toml"
        reading.add_rows(
            Outcome.HOLD,
            f"E-{what.upper()}-UNKNOWN",
            rows,
            found=f"{found}: {so}",
            fix=f"{advice}. {fix}" if fix else advice,
        )
