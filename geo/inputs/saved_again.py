"""Which rows of the scouting table are one and the same tally, saved more than once?"""

import pandas as pd

from geo.errors import Outcome
from geo.inputs.reading import Reading
from geo.texts import mark, phrase

# What the tally page writes: a mark drawn for each entry, and the finds tree by tree.
LOOK, TREES = "look_id", "tree_counts"
_SAME = ["disease", "source", "day", LOOK, TREES]
_FULLEST = ["inspected", "infected", "stage"]


def saved_again(reading: Reading, table: pd.DataFrame, rows: pd.DataFrame) -> pd.Series:
    """
    Return which rows tell again what another row tells, and set them aside.

    Parameters
    ----------
    reading : Reading
        The scouting file, for faults.
    table : pandas.DataFrame
        As read.
    rows : pandas.DataFrame
        Rows without another fault: ``disease``, ``source``, ``day``, ``inspected``, ``infected``.

    Returns
    -------
    pandas.Series
        True where a row is set aside. Of rows with one mark for one block, disease and day the
        fullest counts, since an entry only grows while it is tallied. Rows without a mark are one
        tally if they agree tree by tree too. Rows typed by hand, and two people's tallies, are
        never taken for one.
    """
    written = table.reindex(rows.index)
    look, trees = written[LOOK].str.strip(), written[TREES].str.strip()
    # A mark alone says which entry a row is of: its trees may have grown since.
    marked = rows.assign(**{LOOK: look, TREES: trees.where(look == "", "")})
    marked["stage"] = written["stage"]
    marked = marked[((look != "") | (trees != "")) & rows["inspected"].notna()]
    fullest = marked.sort_values(_FULLEST, ascending=False, kind="stable")
    again = fullest.index[fullest.duplicated(_SAME)].sort_values()
    reading.add_rows(
        Outcome.HOLD,
        "E-TALLY-AGAIN",
        written["block_id"].reindex(again),
        found=mark(
            "{value} was tallied once and saved more than once: its fullest row counts, this one "
            "is set aside"
        ),
        fix=phrase("Take this row out"),
    )
    return pd.Series(rows.index.isin(again), index=rows.index)
