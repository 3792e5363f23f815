"""Which sprays stand in the diary twice, from paper and from the phone? Each counts once."""

from collections.abc import Sequence

import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_row, at_span
from geo.inputs.reading import GROUP_FROM, Reading
from geo.texts import phrase

SAME_RATE = 0.1  # rounding and spilling: rates closer than that are one spray (our choice)
_SPRAY = ["block", "material", "day"]


def hold_twins(reading: Reading, sprays: pd.DataFrame, blocks: Sequence[str]) -> pd.Series:
    """
    Return which sprays stand there already, and say so.

    Parameters
    ----------
    reading : Reading
        The diary.
    sprays : pandas.DataFrame
        A row a block and material: ``block``, ``material``, ``day``, ``clock`` (as written, empty
        where no start is told), ``rate`` and ``rate_unit``. The index is the file's row.
    blocks : sequence of str
        Ids in order.

    Returns
    -------
    pandas.Series
        True for a spray of the same block, material, day and start as an earlier one, and for one
        without a start beside another that has one, unless both tell rates that differ by more
        than 10 %. Two real sprays of one day need different starts.
    """
    rows = sprays[[*_SPRAY, "clock", "rate_unit"]].assign(
        row=sprays.index,
        rate=pd.to_numeric(sprays["rate"].str.replace(",", "."), errors="coerce"),
    )
    rows = rows.reset_index(drop=True)
    rows["first"] = rows.groupby([*_SPRAY, "clock"])["row"].transform("first")
    is_again = rows.duplicated([*_SPRAY, "clock"])
    timed = rows[(rows["clock"] != "") & ~is_again].drop_duplicates(_SPRAY)
    beside = rows[_SPRAY].merge(timed[[*_SPRAY, "row", "rate", "rate_unit"]], on=_SPRAY, how="left")
    is_other = (rows["rate"] - beside["rate"]).abs() > SAME_RATE * beside["rate"]
    is_other &= rows["rate_unit"] == beside["rate_unit"]
    is_untimed = (rows["clock"] == "") & beside["row"].notna() & ~is_other
    rows["first"] = rows["first"].mask(is_untimed, beside["row"]).astype("int64")
    is_again |= is_untimed
    _say(reading, rows[is_again], blocks)
    return pd.Series(is_again.to_numpy(), index=sprays.index)


def _say(reading: Reading, twins: pd.DataFrame, blocks: Sequence[str]) -> None:
    pairs = twins.groupby(["row", "first"], sort=False)["block"]
    fix = phrase("Take one of them out, or give each its own date or start time")
    if len(pairs) >= GROUP_FROM:
        at = at_span(twins["row"], "block_id", count=len(pairs))
        a, b = next(iter(pairs.groups))
        found = phrase(
            "sprays that stand there twice, first of all in row {row} and row {again}, count once",
            row=b,
            again=a,
        )
        reading.add(Outcome.HOLD, "E-ROW-TWICE", at, found=found, fix=fix)
        return
    for (again, first), which in pairs:
        named = ", ".join(quoted(blocks[block]) for block in which.unique())
        found = (
            phrase(
                "{blocks} with the same material and day as in row {row}, and no other start: "
                "counted once",
                blocks=named,
                row=first,
            )
            if first != again
            else phrase(
                "{blocks} with the same material and day as in the same row {row}, and no other "
                "start: counted once",
                blocks=named,
                row=again,
            )
        )
        at = at_row(again, "block_id")
        reading.add(Outcome.HOLD, "E-ROW-TWICE", at, found=found, fix=fix)
