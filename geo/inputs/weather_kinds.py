"""Which kind of weather file is it? Hours in a table, extremes of days, EPW or netCDF."""

from functools import partial
from pathlib import Path
from zoneinfo import ZoneInfo

import pandas as pd

from geo.inputs.daily_weather import Spot, is_daily, read_daily_weather
from geo.inputs.epw import read_epw_hours
from geo.inputs.netcdf import is_netcdf, read_netcdf_hours
from geo.inputs.reading import Reading
from geo.inputs.weather import read_weather

EPW = ".epw"
__all__ = ["Spot", "read_any_weather"]


def read_any_weather(
    reading: Reading, *, zone: ZoneInfo, wind_height: float, spot: Spot | None
) -> pd.DataFrame:
    """
    Return the hours of a weather or forecast file of any kind.

    Parameters
    ----------
    reading : Reading
        The file.
    zone : zoneinfo.ZoneInfo
        The farm's.
    wind_height : [m]
        Of the wind above ground.
    spot : Spot or None
        Of the station; None while the settings are faulty.

    Returns
    -------
    pandas.DataFrame
        As `geo.inputs.weather.read_weather` gives them; hours that were made from extremes of the
        day have 1 in a further column, ``is_made``.

    Raises
    ------
    InputError
        With every faulty cell.
    """
    if Path(reading.path).suffix.lower() == EPW:
        return read_weather(reading, zone=zone, wind_height=wind_height, read=read_epw_hours)
    if is_netcdf(reading):
        read = partial(read_netcdf_hours, spot=spot)
        return read_weather(reading, zone=zone, wind_height=wind_height, read=read)
    if is_daily(reading):
        return read_daily_weather(reading, zone=zone, wind_height=wind_height, spot=spot)
    return read_weather(reading, zone=zone, wind_height=wind_height)
