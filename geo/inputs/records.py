"""What does the record of sprays say was done? Only what has a start and a finish."""

import numpy as np
import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_column
from geo.inputs.calendar_dates import dates
from geo.inputs.moments import local_moments
from geo.inputs.named import Named
from geo.inputs.names import matched
from geo.inputs.notes import hold_unknown, known_blocks, read_notes
from geo.inputs.reading import Reading
from geo.season.spray_record import COLUMNS, NEEDED, broken, in_force, is_completed
from geo.texts import mark, phrase

LONGEST_HOURS = 12.0  # our own choice: a stop that takes longer is a slip of the pen
_HOUR, _DAY = pd.Timedelta(hours=1), pd.Timedelta(days=1)


def read_record(reading: Reading) -> pd.DataFrame:
    """
    Return every row of a record as text, and note which were changed after they were put down.

    Parameters
    ----------
    reading : Reading
        The record, or rows that are completed and not yet in it.

    Returns
    -------
    pandas.DataFrame
        All columns of the record; the index is the file's row.

    Raises
    ------
    InputError
        If the file is no CSV text or lacks a column that is needed.
    """
    others = tuple(column for column in COLUMNS if column not in NEEDED)
    taken = phrase("nothing of it counts as done")
    table = read_notes(reading, columns=(NEEDED, others), code="E-RECORD-EMPTY", taken=taken)
    places = broken(table.to_dict("records"))
    reading.add_rows(
        Outcome.NOTE,
        "E-RECORD-CHANGED",
        table["record_id"].iloc[places],
        found=mark(
            "{value} was changed after it was put down, or the row before it: it is used as it "
            "stands"
        ),
        fix=phrase("Look at a copy from before; mend a row by a new one that names it in corrects"),
    )
    return table[list(COLUMNS)]


def completed_rows(reading: Reading, table: pd.DataFrame, names: Named) -> pd.DataFrame:
    """
    Return what completed rows say was sprayed.

    Parameters
    ----------
    reading : Reading
        The file, for faults.
    table : pandas.DataFrame
        Rows as from ``read_record``.
    names : Named
        What rows may name.

    Returns
    -------
    pandas.DataFrame
        A row each: ``block`` (index), ``material``, ``starts`` and ``finishes`` (UTC), ``date``.

    Raises
    ------
    InputError
        If a date or time of one cannot be read.
    """
    is_done = np.array([is_completed(row) for row in table.to_dict("records")], dtype=bool)
    half = table[~is_done & ((table["start_time"] != "") | (table["finish_time"] != ""))]
    reading.add_rows(
        Outcome.HOLD,
        "E-RECORD-HALF",
        half["block_id"],
        found=mark("{value} has a start or a finish, not both: the row is set aside"),
        fix=phrase("Write down both times"),
    )
    rows = table[is_done]
    midnights = dates(reading, rows["date"], outcome=Outcome.STOP)
    starts, finishes = (
        local_moments(reading, midnights, rows[column], zone=names.zone)
        for column in ("start_time", "finish_time")
    )
    reading.check()
    # Work that began before midnight may end after it.
    finishes = finishes.where(finishes >= starts, finishes + _DAY)
    is_long = (finishes - starts) > LONGEST_HOURS * _HOUR
    reading.add_rows(
        Outcome.HOLD,
        "E-RECORD-LONG",
        rows["finish_time"][is_long],
        found=mark("{value} is more than {hours:.0f} h after the start: the row is set aside"),
        fix=phrase("Mend the start or the finish"),
        hours=LONGEST_HOURS,
    )
    material = matched(rows["material"], names.materials)
    unknown = rows["material"][material.isna()]
    hold_unknown(reading, unknown, what="material", known=names.materials)
    lost = rows.index[material.isna() | is_long]
    block = known_blocks(reading, rows["block_id"], known=names.blocks, held=names.held, lost=lost)
    done = pd.DataFrame(
        {
            "block": block,
            "material": material,
            "starts": starts,
            "finishes": finishes,
            "date": rows["date"],
        }
    )
    return done[block.notna() & ~done.index.isin(lost)].astype({"block": np.int64})


def recorded_sprays(reading: Reading, names: Named) -> pd.DataFrame:
    """
    Return the record as the diary tells of sprays.

    Parameters
    ----------
    reading : Reading
        The record.
    names : Named
        What rows may name.

    Returns
    -------
    pandas.DataFrame
        A row for each block, material and day, at the finish of the last of its rows: ``block``,
        ``material``, ``time`` (UTC), ``date``. A block of which only some rows are recorded counts
        as sprayed, since people must stay out of it; that its protection is overstated is noted.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    table = read_record(reading)
    _hold_strange_ids(reading, table)
    rows = table.iloc[in_force(table.to_dict("records"))]
    done = completed_rows(reading, rows[~rows.index.isin(_again(table))], names)
    reading.used, reading.held = len(done), len(table) - len(done)
    _note_parts(reading, table, done, names)
    last = done.sort_values("finishes", kind="stable").drop_duplicates(
        ["block", "material", "date"], keep="last"
    )
    return last.sort_index().rename(columns={"finishes": "time"})[
        ["block", "material", "time", "date"]
    ]


def _again(table: pd.DataFrame) -> pd.Index:
    ids = table["record_id"]
    return table.index[(ids != "") & ids.duplicated()]


def _hold_strange_ids(reading: Reading, table: pd.DataFrame) -> None:
    reading.add_rows(
        Outcome.HOLD,
        "E-ROW-TWICE",
        table["record_id"][table.index.isin(_again(table))],
        found=mark("{value} stands there already: the row is set aside"),
        fix=phrase(
            "Correct a row by a new one: its own record_id left empty, this one in corrects"
        ),
    )
    corrects = table["corrects"]
    is_unknown = (corrects != "") & ~corrects.isin(set(table["record_id"]))
    reading.add_rows(
        Outcome.NOTE,
        "E-RECORD-ID",
        corrects[is_unknown],
        found=mark("{value} is no record_id of this file: the row counts by itself"),
        fix=phrase("Write the record_id of the row that it corrects"),
    )


def _note_parts(reading: Reading, table: pd.DataFrame, done: pd.DataFrame, names: Named) -> None:
    """Note blocks of which fewer rows are recorded than they have."""
    told = table.loc[done.index, ["first_row", "last_row", "rows_of_block"]]
    told = told.apply(pd.to_numeric, errors="coerce")
    rows = (told["last_row"] - told["first_row"] + 1).rename("rows")
    parts = done.assign(rows=rows, whole=told["rows_of_block"])
    of_day = parts.groupby(["block", "material", "date"], sort=False)[["rows", "whole"]]
    for (block, material, day), part in of_day:
        sprayed, whole = part["rows"].sum(skipna=False), part["whole"].max()
        if sprayed < whole:
            found = phrase(
                "{block} has {sprayed:.0f} of {whole:.0f} rows recorded on {day}, {material}: it "
                "counts as sprayed, so its protection is overstated",
                block=quoted(names.blocks[block]),
                sprayed=sprayed,
                whole=whole,
                day=day,
                material=material,
            )
            fix = phrase("Record the other rows, or spray them")
            reading.add(Outcome.NOTE, "E-RECORD-PART", at_column("last_row"), found=found, fix=fix)
