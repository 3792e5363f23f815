"""Which block do notes speak of? Unknown ones are set aside with the nearest ids."""

from collections.abc import Collection, Sequence

import pandas as pd

from geo.errors import Outcome
from geo.inputs.names import matched, nearest
from geo.inputs.reading import Reading


def known_blocks(
    reading: Reading, cells: pd.Series, *, known: Sequence[str], held: Collection[str]
) -> pd.Series:
    """
    Return the index of the block that each cell means.

    Parameters
    ----------
    reading : Reading
        The file, for faults: an unknown block is a held row.
    cells : pandas.Series
        Ids as written.
    known : sequence of str
        Ids in order.
    held : collection of str
        Ids whose outlines are set aside: their rows are left out with one note.

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
            found=f"{len(rows)} rows about {name} are left out with its outline",
            fix="Mend the outline",
        )
    hold_unknown(reading, cells[found.isna() & ~is_held], what="block", known=known)
    return found


def hold_unknown(
    reading: Reading, cells: pd.Series, *, what: str, known: Collection[str], fix: str = ""
) -> None:
    """
    Set rows aside whose name is unknown, and suggest the nearest.

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
    fix : str
        What else to do, in the imperative.
    """
    for name, rows in cells.groupby(cells, sort=False):
        advice = f"Mend the name; nearest: {nearest(str(name), known)}"
        reading.add_rows(
            Outcome.HOLD,
            f"E-{what.upper()}-UNKNOWN",
            rows,
            found=f"is no known {what}: the row is set aside",
            fix=f"{advice}. {fix}" if fix else advice,
        )
