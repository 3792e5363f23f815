"""When will people work or pick in a block? A row for each crew, day and block."""

from collections.abc import Collection, Sequence
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.errors import Outcome
from geo.inputs.calendar_dates import dates
from geo.inputs.notes import known_blocks, read_notes
from geo.inputs.reading import Reading
from geo.inputs.several import named_blocks
from geo.season.crews import Crews
from geo.texts import mark, phrase

COLUMNS = (("date", "block_id"), ("start", "end", "task"))
# Without times a crew is there all day: unknown is closed.
WHOLE_DAY = {"start": pd.Timedelta(0), "end": pd.Timedelta(days=1)}
# In English, Spanish and Portuguese, as people write it (common practice, no source).
PICKING = r"pick|harvest|cosech|recolec|pizca|colhe"
_HOUR = pd.Timedelta(hours=1)


def read_crews(
    reading: Reading,
    *,
    blocks: Sequence[str],
    held: Collection[str],
    zone: ZoneInfo,
    first_hour: pd.Timestamp,
    first_day: pd.Timestamp,
) -> Crews:
    """
    Return who is planned to be where.

    Parameters
    ----------
    reading : Reading
        The file of planned crews.
    blocks : sequence of str
        Ids in order.
    held : collection of str
        Ids whose outlines are set aside.
    zone : zoneinfo.ZoneInfo
        The farm's zone.
    first_hour : pandas.Timestamp
        Start of the season's first hour, UTC.
    first_day : pandas.Timestamp
        The season's first local day.

    Returns
    -------
    Crews
        A task that names picking or harvest counts for the days before harvest too.

    Raises
    ------
    InputError
        If a date or time cannot be read, or a crew ends before it starts.
    """
    table = read_notes(
        reading,
        columns=COLUMNS,
        code="E-CREWS-EMPTY",
        taken=phrase("no crew is planned in any block"),
    )
    day = dates(reading, table["date"], outcome=Outcome.STOP)
    times = {name: _clock(reading, table[name], whole) for name, whole in WHOLE_DAY.items()}
    is_turned = times["end"] <= times["start"]
    reading.add_rows(
        Outcome.STOP,
        "E-CREW-ENDS",
        table["end"][is_turned],
        found=mark("{value} is not after the start of the crew's work"),
        fix=phrase("Write the end of the same day, or a row for each day"),
    )
    reading.check()
    names = named_blocks(reading, table["block_id"], [*blocks, *held])
    found = known_blocks(reading, names[names != ""], known=blocks, held=held)
    found = found[found.notna()].astype(np.int64)
    hours = {name: _hours(day + time, zone, first_hour) for name, time in times.items()}
    rows = found.index
    is_picking = table["task"].astype(str).str.contains(PICKING, case=False)
    reading.used = rows.nunique()
    reading.held = len(table) - reading.used
    return Crews(
        block=found.to_numpy(),
        start=hours["start"][rows].to_numpy(dtype=float),
        end=hours["end"][rows].to_numpy(dtype=float),
        day=(day - first_day).dt.days[rows].to_numpy(dtype=np.int64),
        is_picking=is_picking[rows].to_numpy(dtype=bool),
    )


def _clock(reading: Reading, cells: pd.Series, whole: pd.Timedelta) -> pd.Series:
    """Return each time of day from midnight, that of a whole day where none is written."""
    clock = pd.to_datetime(cells.replace("", "00:00"), format="%H:%M", errors="coerce")
    reading.add_rows(
        Outcome.STOP,
        "E-TIME",
        cells[clock.isna()],
        found=mark("{value} is not a time of day"),
        fix=phrase("Write it as 06:30, or leave the cell empty"),
    )
    return (clock - clock.dt.normalize()).mask(cells == "", whole)


def _hours(local: pd.Series, zone: ZoneInfo, first_hour: pd.Timestamp) -> pd.Series:
    moments = local.dt.tz_localize(
        zone, ambiguous=np.ones(len(local), dtype=bool), nonexistent="shift_forward"
    )
    return (moments.dt.tz_convert("UTC").dt.tz_localize(None) - first_hour) / _HOUR
