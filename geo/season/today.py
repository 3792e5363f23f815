"""Which day of the season is today: the day of the last measured hour, never the clock's."""

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
