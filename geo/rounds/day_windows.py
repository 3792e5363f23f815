"""In which minutes of the day may each block be sprayed, and from where does the wind blow?"""

from datetime import datetime

import numpy as np
import xarray as xr

from geo.arrays import BoolArray
from geo.windows.open_hours import Windows

MINUTES_AN_HOUR = 60.0


def open_stretches(windows: Windows, block: int) -> tuple[tuple[float, float], ...]:
    """
    Return when a block is open on the day of the round.

    Parameters
    ----------
    windows : Windows
        The rules' verdict.
    block : int
        Its place.

    Returns
    -------
    tuple of tuple of float
        Minutes since midnight: start and end of each run of open hours.
    """
    is_open: BoolArray = ~windows.is_closed[block, : windows.hours_of_day]
    edges = np.flatnonzero(np.diff(np.r_[False, is_open, False].astype(np.int8)))
    minutes = [minute_of_day(hour) for hour in windows.start[: windows.hours_of_day]]
    return tuple(
        (minutes[first], minutes[last - 1] + MINUTES_AN_HOUR)
        for first, last in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)
    )


def minute_of_day(hour: datetime) -> float:
    """
    Return a local time as minutes since midnight.

    Parameters
    ----------
    hour : datetime.datetime
        Local.

    Returns
    -------
    float
        As the clock on the wall shows it.
    """
    return hour.hour * MINUTES_AN_HOUR + hour.minute


def cautions_between(
    windows: Windows, block: int, starts: datetime, finishes: datetime
) -> tuple[str, ...]:
    """
    Return what warns while a block is sprayed.

    Parameters
    ----------
    windows : Windows
        The rules' verdict.
    block : int
        Its place.
    starts, finishes : datetime.datetime
        Local.

    Returns
    -------
    tuple of str
        Titles of the rules.
    """
    hours = windows.start[: windows.hours_of_day]
    first = sum(minute_of_day(hour) + MINUTES_AN_HOUR <= minute_of_day(starts) for hour in hours)
    last = sum(minute_of_day(hour) < minute_of_day(finishes) for hour in hours)
    return tuple(
        gate.rule.title
        for gate in windows.gates
        if gate.rule.is_caution and gate.of_block(gate.is_closed, block)[first:last].any()
    )


def wind_of_day(season: xr.Dataset, windows: Windows) -> float:
    """
    Return where the wind comes from in the open hours of the day.

    Parameters
    ----------
    season : xarray.Dataset
        With the wind's direction.
    windows : Windows
        For those hours.

    Returns
    -------
    [degree]
        The mean direction; NaN where it is not known or there are no such hours.
    """
    day = windows.hours_of_day
    is_open = ~windows.is_closed[:, :day].all(axis=0)
    hours = windows.hour[:day][is_open].astype(np.int64)
    turn = np.radians(season.wind_from_direction.values[hours])
    turn = turn[~np.isnan(turn)]
    if not turn.size:
        return float("nan")
    return float(np.degrees(np.arctan2(np.sin(turn).mean(), np.cos(turn).mean())) % 360.0)
