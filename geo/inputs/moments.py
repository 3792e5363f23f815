"""When was that? A date and a time of day, both as the farm's clock showed them."""

from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.errors import Outcome
from geo.inputs.reading import Reading
from geo.texts import mark, phrase

_SECONDS = r"^(\d{1,2}:\d{2}):\d{2}$"


def local_moments(
    reading: Reading, midnights: pd.Series, times: pd.Series, *, zone: ZoneInfo
) -> pd.Series:
    """
    Return moments in UTC.

    Parameters
    ----------
    reading : Reading
        The file, for faults.
    midnights : pandas.Series
        Of the local days, as `geo.inputs.calendar_dates.dates` gives them.
    times : pandas.Series
        Such as 06:30, as written.
    zone : zoneinfo.ZoneInfo
        The farm's zone.

    Returns
    -------
    pandas.Series
        Without a zone, NaT where a day or a time is faulty.
    """
    # Spreadsheets like to add seconds.
    minutes = times.str.replace(_SECONDS, r"\1", regex=True)
    clock = pd.to_datetime(minutes, format="%H:%M", errors="coerce")
    reading.add_rows(
        Outcome.STOP,
        "E-TIME",
        times[clock.isna()],
        found=mark("{value} is not a time of day"),
        fix=phrase("Write it as 06:30, or leave the cell empty"),
    )
    moments = midnights + (clock - clock.dt.normalize())
    # Clocks change at night: which of two like hours was meant never matters to a spray.
    local = moments.dt.tz_localize(
        zone, ambiguous=np.ones(len(moments), dtype=bool), nonexistent="shift_forward"
    )
    return local.dt.tz_convert("UTC").dt.tz_localize(None)
