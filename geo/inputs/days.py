"""How do hours in UTC go together with the farm's days? By its own zone and its clock changes."""

from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.arrays import BoolArray, IntArray
from geo.errors import Outcome
from geo.inputs.reading import Reading
from geo.texts import mark, phrase

# Text that says how far its clock is from UTC.
_OFFSET = r"[T ].*(?:[Zz]|[+-]\d{2}(?::?\d{2})?)$"


@dataclass(frozen=True, slots=True)
class Days:
    """
    Complete local days among hours.

    Attributes
    ----------
    is_inside : numpy.ndarray
        For each hour whether it lies in a complete day.
    hour_day : numpy.ndarray
        For each hour inside, the index of its day.
    days : pandas.DatetimeIndex
        The local dates.
    """

    is_inside: BoolArray
    hour_day: IntArray
    days: pd.DatetimeIndex


def utc_hours(reading: Reading, cells: pd.Series, *, zone: ZoneInfo) -> pd.Series:
    """
    Return a column of hours in UTC.

    Parameters
    ----------
    reading : Reading
        The file, for faults.
    cells : pandas.Series
        ISO 8601 text, with an offset or in local time. Where the clock is put back, the first of
        two like hours is taken as the earlier.
    zone : zoneinfo.ZoneInfo
        The farm's zone.

    Returns
    -------
    pandas.Series
        Without a zone, NaT where the cell is faulty.
    """
    has_offset = cells.str.contains(_OFFSET)
    told = pd.to_datetime(cells[has_offset], format="ISO8601", errors="coerce", utc=True)
    clock = pd.to_datetime(cells[~has_offset], format="ISO8601", errors="coerce")
    clock = clock.where(clock.dt.year.between(1900, 2200))
    local = clock.dt.tz_localize(
        zone, ambiguous=(~clock.duplicated()).to_numpy(), nonexistent="NaT"
    ).dt.tz_convert("UTC")
    # Same clock in both, so the two halves fit together again.
    halves = [half.dt.tz_localize(None).astype("datetime64[ns]") for half in (told, local)]
    hours = pd.concat(halves).reindex(cells.index)
    is_skipped = local.isna() & clock.notna()
    is_bad = hours.isna() & ~is_skipped.reindex(cells.index, fill_value=False)
    reading.add_rows(
        Outcome.STOP,
        "E-TIME",
        cells[is_bad],
        found=mark("{value} is not a time"),
        fix=phrase("Write it as 2026-02-18T05:00, in local time or with its offset"),
    )
    reading.add_rows(
        Outcome.STOP,
        "E-TIME-SKIPPED",
        cells[is_skipped[is_skipped].index],
        found=mark("{value} does not exist in {zone}: the clock is put forward over it"),
        fix=phrase("Check the zone in farm.toml, or write the offset behind the time"),
        zone=zone.key,
    )
    return hours


def local_dates(hours: pd.DatetimeIndex, zone: ZoneInfo) -> pd.DatetimeIndex:
    """
    Return the farm's date at each hour.

    Parameters
    ----------
    hours : pandas.DatetimeIndex
        UTC, without a zone.
    zone : zoneinfo.ZoneInfo
        The farm's zone.

    Returns
    -------
    pandas.DatetimeIndex
        Midnights without a zone.
    """
    return hours.tz_localize("UTC").tz_convert(zone).tz_localize(None).normalize()


def complete_days(hours: pd.DatetimeIndex, zone: ZoneInfo) -> Days:
    """
    Return the local days that hours cover from midnight to midnight.

    Parameters
    ----------
    hours : pandas.DatetimeIndex
        UTC, an hour apart, without a gap.
    zone : zoneinfo.ZoneInfo
        The farm's zone. Days on which its clock changes have 23 or 25 hours.

    Returns
    -------
    Days
        Perhaps none.
    """
    hour = pd.Timedelta(hours=1)
    dates = local_dates(hours, zone)
    before, after = local_dates(pd.DatetimeIndex([hours[0] - hour, hours[-1] + hour]), zone)
    is_inside = np.ones(len(hours), dtype=bool)
    if before == dates[0]:
        is_inside &= dates != dates[0]
    if after == dates[-1]:
        is_inside &= dates != dates[-1]
    days = dates[is_inside].unique()
    return Days(is_inside, days.get_indexer(dates[is_inside]).astype(np.int64), days)
