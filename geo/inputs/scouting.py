"""What did people find in the blocks? Counts and stages, sorted from one table."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE, at_column, at_rows, at_span
from geo.inputs.calendar_dates import dates
from geo.inputs.names import explained, matched
from geo.inputs.notes import known_blocks, read_notes
from geo.inputs.reading import GROUP_FROM, Reading
from geo.inputs.saved_again import LOOK, TREES, saved_again
from geo.inputs.scouting_notes import SHARE, note_lone_shares, note_no_zeros
from geo.inputs.scouting_stages import stages_of
from geo.inputs.tables import numbers
from geo.reference.diseases import DISEASES
from geo.season.disease import FIRST
from geo.texts import mark, phrase, phrases

MOST_PANICLES = 100_000  # nobody counts more in a day: a slip of the pen (our choice)
COLUMNS = (
    ("date", "block_id"),
    ("disease", "inspected", "infected", "stage", SHARE, LOOK, TREES),
)


@dataclass(frozen=True, slots=True)
class Looks:
    """
    Scouting notes, sorted by what they tell, then by place and day: the file's order is lost.

    Days are counted from the season's first; a look names its disease by key. A look of today
    counts as made today, though the season ends with yesterday where no forecast completes the
    day.

    Attributes
    ----------
    visits : pandas.DataFrame
        Counts, one a disease, source and day: ``disease`` (key), ``source`` (index), ``day``,
        ``inspected``, ``infected``.
    portions : pandas.DataFrame
        Stages: ``block`` (index), ``day``, ``stage`` (text), ``share``.
    """

    visits: pd.DataFrame
    portions: pd.DataFrame


def read_scouting(
    reading: Reading,
    *,
    sources: Sequence[str],
    block_count: int,
    held: Collection[str],
    stages: Collection[str],
    days: pd.DatetimeIndex,
    today: pd.Timestamp,
) -> Looks:
    """
    Return the looks at known blocks and neighbours within the season.

    Parameters
    ----------
    reading : Reading
        The scouting file.
    sources : sequence of str
        Ids of blocks, then of neighbours.
    block_count : int
        How many of them are blocks.
    held : collection of str
        Ids whose outlines are set aside.
    stages : collection of str
        BBCH codes we know, as text.
    days : pandas.DatetimeIndex
        The season's days.
    today : pandas.Timestamp
        The farm's date.

    Returns
    -------
    Looks
        Only rows without a fault.

    Raises
    ------
    InputError
        If a date or number cannot be read.
    """
    taken = phrase("no looks, so stages and disease are unknown in every block")
    table = read_notes(reading, columns=COLUMNS, code="E-SCOUTING-MISSING", taken=taken)
    date = dates(reading, table["date"])
    inspected = numbers(reading, table["inspected"])
    infected = numbers(reading, table["infected"])
    reading.check()
    source = known_blocks(reading, table["block_id"], known=sources, held=held)
    stage = stages_of(reading, table["stage"], stages)
    disease = _diseases(reading, table["disease"])
    is_held = source.isna() | stage.isna() | disease.isna() | date.isna()
    is_held |= _miscounted(reading, table, inspected, infected)
    is_held |= _untimely(reading, table["date"], date, days=days, today=today)
    _note_idle(reading, table, source, block_count=block_count)
    rows = pd.DataFrame(
        {
            "disease": disease,
            "source": source,
            "day": (date - days[0]).dt.days,
            "inspected": inspected,
            "infected": infected,
            "parts": stage,
        }
    )[~is_held].astype({"source": np.int64, "day": np.int64})
    rows = rows[~saved_again(reading, table, rows)]
    reading.used, reading.held = len(rows), len(table) - len(rows)
    counts = rows[rows["inspected"].notna()]
    written = table.reindex(counts.index)  # an empty table would take all rows of a longer column
    counts = counts.assign(date=written["date"], name=written["block_id"])
    _note_added(reading, counts)
    note_lone_shares(reading, table)
    note_no_zeros(reading, counts)
    return Looks(_visits(counts), _portions(rows[rows["source"] < block_count]))


def _visits(counts: pd.DataFrame) -> pd.DataFrame:
    whole = counts.astype({"inspected": np.int64, "infected": np.int64})
    by_day = whole.groupby(["disease", "source", "day"], as_index=False)
    return by_day[["inspected", "infected"]].sum()


def _note_added(reading: Reading, counts: pd.DataFrame) -> None:
    again = counts[counts.duplicated(["disease", "source", "day"], keep=False)]
    added = list(again.groupby(["disease", "source", "day"]))
    fix = phrase("Nothing, unless one row stands there twice")
    if len(added) >= GROUP_FROM:
        at = at_span(again.index)
        found = phrase(
            "{count} blocks and days were counted more than once: counts are added up",
            count=len(added),
        )
        reading.add(Outcome.NOTE, "E-COUNT-AGAIN", at, found=found, fix=fix)
        return
    for _, rows in added:
        at = at_rows(rows.index)
        found = phrase(
            "{block} was counted {count} times on {day}: the counts are added up",
            block=quoted(rows["name"].iloc[0]),
            count=len(rows),
            day=quoted(rows["date"].iloc[0]),
        )
        reading.add(Outcome.NOTE, "E-COUNT-AGAIN", at, found=found, fix=fix)


def _portions(rows: pd.DataFrame) -> pd.DataFrame:
    portions = rows[["source", "day", "parts"]].explode("parts").dropna()
    pairs = portions["parts"].tolist()
    unsorted = pd.DataFrame(
        {
            "block": portions["source"],
            "day": portions["day"],
            "stage": [code for code, _ in pairs],
            "share": np.array([share for _, share in pairs], dtype=float),
        }
    )
    return unsorted.sort_values(["block", "day", "stage", "share"], ignore_index=True)


def _miscounted(
    reading: Reading, table: pd.DataFrame, inspected: pd.Series, infected: pd.Series
) -> pd.Series:
    is_half = inspected.isna() != infected.isna()
    is_whole = (inspected % 1 == 0) & (infected % 1 == 0) & (inspected >= 1) & (infected >= 0)
    is_odd = inspected.notna() & infected.notna() & ~is_whole
    is_many = is_whole & (infected > inspected)
    is_huge = is_whole & ~is_many & (inspected > MOST_PANICLES)
    for is_wrong, column, found in (
        (
            is_half,
            "infected",
            mark("{value} with only one of inspected and infected given: the row is set aside"),
        ),
        (
            is_odd,
            "infected",
            mark(
                "{value} is no count of panicles: whole numbers, at least 1 inspected: the row is "
                "set aside"
            ),
        ),
        (
            is_many,
            "infected",
            mark("{value} infected is more than was inspected: the row is set aside"),
        ),
        (
            is_huge,
            "inspected",
            mark(
                "{value} is more than the {most} panicles anybody counts in a day: the row is set "
                "aside"
            ),
        ),
    ):
        reading.add_rows(
            Outcome.HOLD,
            "E-COUNT",
            table[column][is_wrong],
            found=found,
            fix=phrase("Mend the counts, or leave both empty"),
            most=MOST_PANICLES,
        )
    return is_half | is_odd | is_many | is_huge


def _untimely(
    reading: Reading,
    cells: pd.Series,
    date: pd.Series,
    *,
    days: pd.DatetimeIndex,
    today: pd.Timestamp,
) -> pd.Series:
    is_late, is_early = date > today, date < days[0]
    reading.add_rows(
        Outcome.HOLD,
        "E-LOOK-FUTURE",
        cells[is_late],
        found=mark("{value} is after today, {today}: the row is set aside"),
        fix=phrase("Mend the date"),
        today=f"{today:%Y-%m-%d}",
    )
    if is_early.any():
        found = phrases(
            "{count} row from before the weather starts is left out",
            "{count} rows from before the weather starts are left out",
            int(is_early.sum()),
        )
        fix = phrase("Nothing, or give earlier weather")
        reading.add(Outcome.NOTE, "E-LOOK-EARLY", at_column("date"), found=found, fix=fix)
    return is_late | is_early


def _note_idle(
    reading: Reading, table: pd.DataFrame, source: pd.Series, *, block_count: int
) -> None:
    is_idle = (table["inspected"] == "") & (table["infected"] == "") & (table["stage"] == "")
    is_idle &= table[SHARE] == ""
    idle = table.index[is_idle]
    if len(idle):
        found = phrases(
            "{count} row without count and stage, the first at row {row}",
            "{count} rows without count and stage, the first at row {row}",
            len(idle),
            row=idle[0],
        )
        fix = phrase("Write what was seen")
        reading.add(Outcome.NOTE, "E-LOOK-EMPTY", WHOLE_FILE, found=found, fix=fix)
    is_beside = (source >= block_count) & (table["stage"] != "")
    if is_beside.any():
        found = phrases(
            "{count} stage of a neighbour is not used",
            "{count} stages of neighbours are not used",
            int(is_beside.sum()),
        )
        fix = phrase("Nothing: only their counts matter")
        reading.add(Outcome.NOTE, "E-STAGE-NEIGHBOUR", WHOLE_FILE, found=found, fix=fix)


def _diseases(reading: Reading, cells: pd.Series) -> pd.Series:
    """Return the key of the disease that each row is about, NaN where it names none we know."""
    keys = {disease.name: disease.key for disease in DISEASES}
    # A row that names none is about mildew on panicles, as all were before there were others.
    written = cells.where(cells.str.strip() != "", FIRST)
    known = [*keys, *keys.values()]
    found = matched(written, known).replace(keys)
    reading.add_rows(
        Outcome.HOLD,
        "E-DISEASE",
        cells[found.isna()],
        found=mark("{value} is no disease that is computed here: the row is set aside"),
        fix=phrase("Write one of: {known}", known=explained(keys)),
    )
    return found
