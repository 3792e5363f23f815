"""Between the clock on the farm's wall and the hours of its season."""

import re
from datetime import datetime
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import xarray as xr

from geo.arrays import IntArray
from geo.inputs.diary import OLDEST_DAYS, USUAL_TIME
from geo.season.today import today_of
from geo.texts.days import long_day_words

WHEN = re.compile(r"(?P<day>today|tomorrow|\d{4}-\d{2}-\d{2})(?:[T ](?P<time>\d{1,2}:\d{2}))?")
HOUR = pd.Timedelta(hours=1)
HOURS_A_DAY = 24


def hours_between(
    season: xr.Dataset, zone: str, *, day: str | None, first: int, end: int
) -> IntArray:
    """
    Return the next forecast hours between two times of day.

    Parameters
    ----------
    season : xarray.Dataset
        With the coordinate ``hour`` in UTC.
    zone : str
        The farm's.
    day : str or None
        Local day of the first of them; None for the next time.
    first, end : int
        From which full hour to which, over midnight if the second is not the larger.

    Returns
    -------
    numpy.ndarray
        Indices on end; none where the forecast does not reach.
    """
    local = _local(season, zone)
    ahead = np.flatnonzero(season["is_forecast"].to_numpy() == 1)
    length = (end - first - 1) % HOURS_A_DAY + 1
    is_within = (local.hour.to_numpy()[ahead] - first) % HOURS_A_DAY < length
    if day is not None:
        began = (local[ahead] - pd.to_timedelta(first, unit="h")).strftime("%Y-%m-%d")
        is_within &= began == day
    within = ahead[is_within]
    gaps = np.flatnonzero(np.diff(within) > 1)
    found: IntArray = within[: gaps[0] + 1] if gaps.size else within
    return found


def hour_of(season: xr.Dataset, zone: str, when: str) -> float | None:
    """
    Return a time as hours since the season's first hour.

    Parameters
    ----------
    season : xarray.Dataset
        With the coordinate ``hour`` in UTC.
    zone : str
        The farm's.
    when : str
        ``now`` (the end of the last measured hour), or ``today``, ``tomorrow`` or a date, with a
        time of day or without.

    Returns
    -------
    float or None
        None if it is no such time, lies beyond the forecast, or so far back that no diary counts.
    """
    now = float(np.flatnonzero(season["is_forecast"].to_numpy() == 0)[-1] + 1)
    if when == "now":
        return now
    form = WHEN.fullmatch(when)
    if form is None:
        return None
    today = pd.Timestamp(season["day"].to_numpy()[0]) + pd.Timedelta(days=today_of(season))
    named = {"today": today, "tomorrow": today + pd.Timedelta(days=1)}
    day = f"{named[form['day']]:%Y-%m-%d}" if form["day"] in named else form["day"]
    try:
        moment = datetime.strptime(  # noqa: DTZ007 - the zone is the next thing it gets
            f"{day} {form['time'] or USUAL_TIME}", "%Y-%m-%d %H:%M"
        )
    except ValueError:
        return None
    utc = pd.Timestamp(moment.replace(tzinfo=ZoneInfo(zone))).tz_convert("UTC").tz_localize(None)
    hour = float((utc - pd.Timestamp(season["hour"].to_numpy()[0])) / HOUR)
    return hour if now - OLDEST_DAYS * HOURS_A_DAY <= hour < season.sizes["hour"] else None


def clock(season: xr.Dataset, zone: str, hour: float) -> str:
    """
    Return an hour as the farm's clocks show it.

    Parameters
    ----------
    season : xarray.Dataset
        With the coordinate ``hour`` in UTC.
    zone : str
        The farm's.
    hour : float
        Since the season's first, or the one after its last.

    Returns
    -------
    str
        Such as "18 February 19:00".
    """
    first = pd.Timestamp(season["hour"].to_numpy()[0]).tz_localize("UTC")
    local = (first + hour * HOUR).tz_convert(zone)
    return f"{long_day_words(local.date())} {local:%H:%M}"


def _local(season: xr.Dataset, zone: str) -> pd.DatetimeIndex:
    return pd.DatetimeIndex(season["hour"].to_numpy()).tz_localize("UTC").tz_convert(zone)
