"""Which day of the season is today: the day of the last measured hour, never the clock's."""

import numpy as np
import xarray as xr


def today_index(season: xr.Dataset) -> int:
    """
    Return today's place among the days.

    Parameters
    ----------
    season : xarray.Dataset
        With ``hour_day`` and ``is_forecast``.

    Returns
    -------
    int
        Index of the local day of the last measured hour.
    """
    measured = season.hour_day.values[season.is_forecast.values == 0]
    return int(measured[-1])


def today_of(season: xr.Dataset) -> int:
    """
    Return today's distance from the first day, also where it lies beyond the last one known.

    Parameters
    ----------
    season : xarray.Dataset
        With ``today`` among its attributes: a date as text. A season without it, as one made by
        hand, takes the day of the last measured hour.

    Returns
    -------
    int
        Days. Ages count from here, so that a look yesterday is a day old without a forecast too.
    """
    if "today" not in season.attrs:
        return today_index(season)
    first = season["day"].values[0].astype("datetime64[D]")
    return int((np.datetime64(season.attrs["today"]) - first).astype(int))
