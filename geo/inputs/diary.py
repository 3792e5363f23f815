"""What was sprayed, where and when? A row for each block and spray."""

from collections.abc import Collection, Sequence
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.amounts import COLUMNS as AMOUNTS
from geo.inputs.at import at_column
from geo.inputs.calendar_dates import dates
from geo.inputs.moments import local_moments
from geo.inputs.names import explained
from geo.inputs.notes import hold_unknown, known_blocks, read_notes
from geo.inputs.reading import Reading
from geo.inputs.several import named_blocks, named_materials
from geo.inputs.spray_twins import hold_twins
from geo.reference.number import values
from geo.season.acts import UNKNOWN_SPRAY
from geo.texts import mark, phrase, phrases

USUAL_TIME = "08:00"  # where the diary gives only the day (our choice: most spray early)
OLDEST_DAYS = 400  # no deposit and no count of a season reaches back so far (our choice)
SULFUR, OIL = "sulfur", "mineral oil"
COLUMNS = (("date", "block_id", "material"), ("time", *AMOUNTS))
_HOUR = pd.Timedelta(hours=1)


def read_diary(
    reading: Reading,
    *,
    blocks: Sequence[str],
    held: Collection[str],
    materials: Collection[str],
    zone: ZoneInfo,
) -> pd.DataFrame:
    """
    Return the sprays of known blocks, each once; what is not known as one of its own name.

    Parameters
    ----------
    reading : Reading
        The diary.
    blocks : sequence of str
        Ids in order.
    held : collection of str
        Ids whose outlines are set aside.
    materials : collection of str
        Active ingredients we know.
    zone : zoneinfo.ZoneInfo
        The farm's zone.

    Returns
    -------
    pandas.DataFrame
        A row a block and spray: ``block`` (index), ``material``, ``time`` (UTC), and ``date`` and
        what is told of amounts as written. The index is the file's row.

    Raises
    ------
    InputError
        If a date or time cannot be read.
    """
    taken = phrase("no sprays, so every block counts as unprotected")
    table = read_notes(reading, columns=COLUMNS, code="E-DIARY-MISSING", taken=taken)
    days = dates(reading, table["date"])
    moments = local_moments(reading, days, table["time"].replace("", USUAL_TIME), zone=zone)
    reading.check()
    material = named_materials(reading, table["material"], materials)
    lost = material.index[material.isna()]
    hold_unknown(
        reading,
        table["material"][lost],
        what="material",
        known=materials,
        so=phrase(
            "it protects nothing here, and with a label file its block counts as closed to people"
        ),
        fix=phrase(
            "Known are {materials}; write one row for each of a mixture",
            materials=explained(sorted(materials)),
        ),
    )
    material = material.fillna(UNKNOWN_SPRAY)
    lost = moments.index[moments.isna()]
    names = named_blocks(reading, table["block_id"], [*blocks, *held])
    block = known_blocks(reading, names, known=blocks, held=held, lost=lost)
    sprayed = pd.DataFrame({"block": block[block.notna() & ~block.index.isin(lost)]})
    # A row for each block and each material of a mixture.
    sprays = sprayed.astype({"block": np.int64}).join(material.rename("material"))
    sprays["time"] = moments.reindex(sprays.index)
    for column in ("date", *AMOUNTS):
        sprays[column] = table[column].reindex(sprays.index)
    told = sprays.assign(
        day=days.reindex(sprays.index), clock=_starts(table["time"], moments).reindex(sprays.index)
    )
    sprays = sprays[~hold_twins(reading, told, blocks)]
    reading.used = _known(sprays)
    reading.held = len(table) - reading.used
    return sprays


def done_sprays(
    reading: Reading,
    sprays: pd.DataFrame,
    *,
    first_hour: pd.Timestamp,
    last_measured: pd.Timestamp,
    is_recorded: bool = False,
) -> pd.DataFrame:
    """
    Return the sprays that were done and still matter, and note what is said of the others.

    Parameters
    ----------
    reading : Reading
        The diary.
    sprays : pandas.DataFrame
        As from ``read_diary``.
    first_hour, last_measured : pandas.Timestamp
        Starts of the season's first hour and of the last measured one, UTC.
    is_recorded : bool
        Whether they come from the record: then a spray after that hour was done.

    Returns
    -------
    pandas.DataFrame
        Without sprays after the last measured hour or more than 400 days before it.
    """
    now = last_measured + _HOUR
    is_planned = sprays["time"] >= now
    is_old = sprays["time"] < now - pd.Timedelta(days=OLDEST_DAYS)
    is_early = (sprays["time"] < first_hour) & ~is_old
    written = sprays["date"][~sprays.index.duplicated()]
    reading.add_rows(
        Outcome.NOTE,
        "E-SPRAY-PLANNED",
        written[written.index.isin(sprays.index[is_planned])],
        found=mark(
            "{value} is after the last measured hour: it counts as soon as weather is measured "
            "beyond it"
        )
        if is_recorded
        else mark("{value} is after the last measured hour: planned, not counted as protection"),
        fix=phrase("Nothing, unless the date is wrong"),
    )
    old, early = (sprays.index[which].nunique() for which in (is_old, is_early))
    if old:
        found = phrases(
            "{count} row from more than {days} days ago is not used",
            "{count} rows from more than {days} days ago are not used",
            old,
            days=OLDEST_DAYS,
        )
        fix = phrase("Nothing, unless the year is wrong")
        reading.add(Outcome.NOTE, "E-SPRAY-OLD", at_column("date"), found=found, fix=fix)
    if early:
        found = phrases(
            "{count} row from before the weather starts: rain before its first hour is not known "
            "and taken as none",
            "{count} rows from before the weather starts: rain before its first hour is not known "
            "and taken as none",
            early,
        )
        fix = phrase("Nothing, or give earlier weather")
        reading.add(Outcome.NOTE, "E-SPRAY-EARLY", at_column("date"), found=found, fix=fix)
    done = sprays[~is_planned & ~is_old]
    left_out = _known(sprays) - _known(done)
    reading.used -= left_out
    reading.held += left_out
    _note_oil(reading, done)
    return done


def _known(sprays: pd.DataFrame) -> int:
    """Return how many rows tell of something that counts."""
    return int(sprays.index[sprays["material"] != UNKNOWN_SPRAY].nunique())


def _note_oil(reading: Reading, done: pd.DataFrame) -> None:
    """Note sulfur and oil in one block so soon after each other that they may burn."""
    days = values("spray_rules", SULFUR)["oil_interval"]
    pairs = done[done["material"] == SULFUR].merge(
        done[done["material"] == OIL], on="block", suffixes=("", "_oil")
    )
    close = pairs[(pairs["time"] - pairs["time_oil"]).abs() <= pd.Timedelta(days=days)]
    for (date, other), which in close.groupby(["date", "date_oil"], sort=False):
        found = phrases(
            "sulfur on {date} and mineral oil on {other} in {count} block: within {days:.0f} days "
            "they may burn leaves",
            "sulfur on {date} and mineral oil on {other} in {count} blocks: within {days:.0f} "
            "days they may burn leaves",
            which["block"].nunique(),
            date=quoted(date),
            other=quoted(other),
            days=days,
        )
        fix = phrase("Check both labels, and look at the leaves")
        reading.add(Outcome.NOTE, "E-OIL-SULFUR", at_column("material"), found=found, fix=fix)


def _starts(written: pd.Series, moments: pd.Series) -> pd.Series:
    """Return starts of which two ways of writing one are the same; empty where none is told."""
    return moments.astype(str).where(written != "", "")
