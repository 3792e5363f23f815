"""What was sprayed, where and when? A row for each block and spray."""

from collections.abc import Collection, Sequence
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.errors import Outcome
from geo.inputs.names import matched
from geo.inputs.notes import hold_unknown, known_blocks
from geo.inputs.reading import Reading
from geo.inputs.tables import dates, read_table

USUAL_TIME = "08:00"  # where the diary gives only the day (our choice: most spray early)
_SECONDS = r"^(\d{1,2}:\d{2}):\d{2}$"
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
    Return the sprays of known blocks with known materials.

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
        A row a block and spray: ``block`` (index), ``material``, ``time`` (UTC). The index is
        the file's row.

    Raises
    ------
    InputError
        If a date or time cannot be read.
    """
    table = read_table(reading, required=("date", "block_id", "material"), optional=("time",))
    moments = _moments(reading, table, zone)
    reading.check()
    material = matched(table["material"], materials)
    hold_unknown(
        reading,
        table["material"][material.isna()],
        what="material",
        known=materials,
        fix=f"Known are {', '.join(sorted(materials))}; write one row for each of a mixture",
    )
    names = table["block_id"].str.strip("; ").str.split(";").explode().str.strip()
    block = known_blocks(reading, names, known=blocks, held=held)
    is_held = matched(names, held).notna() & block.isna()
    # A row that names one unknown block is set aside whole: nobody knows what was meant.
    lost = set(names.index[block.isna() & ~is_held]) | set(table.index[material.isna()])
    sprays = pd.DataFrame({"block": block[~is_held]})
    sprays = sprays[~sprays.index.isin(list(lost))].astype({"block": np.int64})
    sprays["material"] = material.reindex(sprays.index)
    sprays["time"] = moments.reindex(sprays.index)
    reading.used = sprays.index.nunique()
    reading.held = len(table) - reading.used
    return sprays


def without_planned(
    reading: Reading, sprays: pd.DataFrame, *, last_measured: pd.Timestamp
) -> pd.DataFrame:
    """
    Return the sprays that were done, and note those that are only planned.

    Parameters
    ----------
    reading : Reading
        The diary.
    sprays : pandas.DataFrame
        As from ``read_diary``.
    last_measured : pandas.Timestamp
        Start of the last measured hour, UTC.

    Returns
    -------
    pandas.DataFrame
        Without sprays after that hour.
    """
    is_planned = sprays["time"] >= last_measured + _HOUR
    rows = sprays[is_planned].index.unique()
    for row in rows:
        found = "planned, not counted as protection"
        fix = "Nothing, unless the date is wrong"
        reading.add(Outcome.NOTE, "E-SPRAY-PLANNED", f"row {row}", found=found, fix=fix)
    reading.used -= len(rows)
    reading.held += len(rows)
    return sprays[~is_planned]


def _moments(reading: Reading, table: pd.DataFrame, zone: ZoneInfo) -> pd.Series:
    cells = table["time"].replace("", USUAL_TIME)
    # Spreadsheets like to add seconds.
    minutes = cells.str.replace(_SECONDS, r"\1", regex=True)
    clock = pd.to_datetime(minutes, format="%H:%M", errors="coerce")
    reading.add_rows(
        Outcome.STOP,
        "E-TIME",
        cells[clock.isna()],
        found="is not a time of day",
        fix="Write it as 06:30, or leave the cell empty",
    )
    moments = dates(reading, table["date"]) + (clock - clock.dt.normalize())
    # Clocks change at night: which of two like hours was meant never matters to a spray.
    local = moments.dt.tz_localize(
        zone, ambiguous=np.ones(len(moments), dtype=bool), nonexistent="shift_forward"
    )
    return local.dt.tz_convert("UTC").dt.tz_localize(None)
