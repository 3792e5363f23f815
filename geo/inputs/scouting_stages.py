"""In which stages was a block? Codes and their shares out of a cell of text."""

from collections.abc import Collection

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_row
from geo.inputs.names import nearest
from geo.inputs.reading import Reading
from geo.texts import phrase

# Shares that add up to about 1 are rounded ones; further off, something else was meant
# (our choice).
LOWEST_SUM, HIGHEST_SUM = 0.95, 1.05


def stages_of(reading: Reading, cells: pd.Series, known: Collection[str]) -> pd.Series:
    """
    Return the stages that cells name.

    Parameters
    ----------
    reading : Reading
        The scouting file, for faults.
    cells : pandas.Series
        Such as ``613`` or ``613:0.4;615:0.6``, by row.
    known : collection of str
        BBCH codes we know, as text.

    Returns
    -------
    pandas.Series
        A list of code and share for each row, empty where the cell is; NaN where it is faulty.
    """
    read = {}
    for row, cell in cells.items():
        parts, fault, fix = _parts(cell, known)
        if fault:
            reading.add(Outcome.HOLD, "E-STAGE", at_row(row, "stage"), found=fault, fix=fix)
        read[row] = None if fault else parts
    return pd.Series(read, index=cells.index, dtype=object)


def _parts(cell: str, known: Collection[str]) -> tuple[list[tuple[str, float]], str, str]:
    parts = [part.partition(":") for part in cell.split(";") if part.strip()]
    if not parts:
        return [], "", ""
    codes = [code.strip() for code, _, _ in parts]
    for code in codes:
        if code not in known:
            likest = nearest(code, known)
            fix = (
                phrase("Nearest: {nearest}", nearest=likest)
                if likest
                else phrase("Write a stage before its share")
            )
            fault = phrase(
                "{value} names no known stage {stage}: the row is set aside",
                value=quoted(cell),
                stage=quoted(code),
            )
            return [], fault, fix
    advice = phrase('Write shares that add up to 1, such as "613:0.4;615:0.6"')
    if len(parts) == 1 and not parts[0][1]:
        return [(codes[0], 1.0)], "", ""
    try:
        shares = [float(share) for _, _, share in parts]
    except ValueError:
        fault = phrase(
            "{value} has a stage without a share: the row is set aside", value=quoted(cell)
        )
        return [], fault, advice
    total = sum(shares)
    if min(shares) < 0.0 or not LOWEST_SUM <= total <= HIGHEST_SUM:
        fault = phrase(
            "{value} has shares that add up to {total:g}: the row is set aside",
            value=quoted(cell),
            total=total,
        )
        return [], fault, advice
    return [(code, share / total) for code, share in zip(codes, shares, strict=True)], "", ""
