"""How high does the sun stand? By the solar position algorithm."""

from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
from pvlib import spa

from geo.arrays import FloatArray

# TT minus UT1, about its value in the 2020s (from memory); a second moves the sun by 0.00001 of
# a degree or so in height.
DELTA_T_SECONDS = 69.2
HALF_HOUR_SECONDS, HOUR_SECONDS, DAY_SECONDS = 1800.0, 3600.0, 86400.0
NOON = pd.Timedelta(hours=12)
REFRACTION_AT_HORIZON_DEGREES = 0.5667  # Reda and Andreas 2004, default of the algorithm


def solar_elevation(
    unix_seconds: FloatArray,
    *,
    longitude: float,
    latitude: float,
    elevation: float,
    pressure: float = 1013.25,
    air_temperature: float = 12.0,
    delta_t_seconds: float = DELTA_T_SECONDS,
) -> FloatArray:
    """
    Return how high the sun stands above the horizon, as seen through the air.

    Parameters
    ----------
    unix_seconds : [s]
        Instants, in seconds since 1970 UTC.
    longitude, latitude : [degree]
        Where.
    elevation : [m]
        Ground above sea level.
    pressure : [hPa]
        Of the air, for its refraction.
    air_temperature : [degC]
        Of the air, for its refraction.
    delta_t_seconds : [s]
        Terrestrial time minus universal time.

    Returns
    -------
    [degree]
        Topocentric elevation with refraction, negative at night.

    References
    ----------
    .. [1] I. Reda and A. Andreas, "Solar position algorithm for solar radiation applications",
       NREL/TP-560-34302, 2004. doi:10.2172/15003974
    """
    position = spa.solar_position(
        unix_seconds,
        latitude,
        longitude,
        elevation,
        pressure,
        air_temperature,
        delta_t_seconds,
        REFRACTION_AT_HORIZON_DEGREES,
    )
    _, _, apparent_elevation, *_ = position
    return np.asarray(apparent_elevation, dtype=float)


def mid_hour_elevation(
    hours: pd.DatetimeIndex, *, longitude: float, latitude: float, elevation: float
) -> FloatArray:
    """
    Return how high the sun stands in the middle of each hour.

    Parameters
    ----------
    hours : pandas.DatetimeIndex
        Their starts, UTC.
    longitude, latitude : [degree]
        Where.
    elevation : [m]
        Ground above sea level.

    Returns
    -------
    [degree]
        As `solar_elevation`.
    """
    return solar_elevation(
        unix_seconds(hours) + HALF_HOUR_SECONDS,
        longitude=longitude,
        latitude=latitude,
        elevation=elevation,
    )


def sunrises(
    days: pd.DatetimeIndex,
    *,
    zone: ZoneInfo,
    longitude: float,
    latitude: float,
    delta_t_seconds: float = DELTA_T_SECONDS,
) -> FloatArray:
    """
    Return when the sun rises on each local day.

    Parameters
    ----------
    days : pandas.DatetimeIndex
        Midnights of local dates on end, without a zone.
    zone : zoneinfo.ZoneInfo
        The farm's.
    longitude, latitude : [degree]
        Where.
    delta_t_seconds : [s]
        Terrestrial time minus universal time.

    Returns
    -------
    [s]
        Since 1970 UTC; NaN where the sun stays up or down.

    Notes
    -----
    The algorithm tells the sunrise within a day of universal time, which far from Greenwich is
    part of the local day before or after: so the last sunrise before each local noon is taken.
    """
    noons, around = _noons_and_days(days, zone)
    _, rise, _ = spa.transit_sunrise_sunset(around, latitude, longitude, delta_t_seconds, 1)
    known = rise[np.isfinite(rise)]
    before = np.searchsorted(known, noons) - 1
    found = np.where(before >= 0, known[before] if known.size else np.nan, np.nan)
    return np.where(noons - found < DAY_SECONDS, found, np.nan)


def sunsets(
    days: pd.DatetimeIndex, *, zone: ZoneInfo, longitude: float, latitude: float
) -> FloatArray:
    """
    Return when the sun sets on each local day.

    Parameters
    ----------
    days : pandas.DatetimeIndex
        Midnights of local dates on end, without a zone.
    zone : zoneinfo.ZoneInfo
        The farm's.
    longitude, latitude : [degree]
        Where.

    Returns
    -------
    [s]
        The first sunset after each local noon, since 1970 UTC; NaN where the sun stays up or down.
    """
    noons, around = _noons_and_days(days, zone)
    _, _, sinks = spa.transit_sunrise_sunset(around, latitude, longitude, DELTA_T_SECONDS, 1)
    known = np.append(sinks[np.isfinite(sinks)], np.inf)
    found = known[np.searchsorted(known, noons)]
    return np.where(found - noons < DAY_SECONDS, found, np.nan)


def _noons_and_days(days: pd.DatetimeIndex, zone: ZoneInfo) -> tuple[FloatArray, FloatArray]:
    noon = (days + NOON).tz_localize(zone).tz_convert("UTC").tz_localize(None)
    first, last = noon[0].normalize(), noon[-1].normalize()
    around = pd.date_range(first - 2 * NOON, last + 2 * NOON, freq="D")
    return unix_seconds(noon), unix_seconds(around)


def unix_seconds(moments: pd.DatetimeIndex) -> FloatArray:
    """
    Return moments as seconds.

    Parameters
    ----------
    moments : pandas.DatetimeIndex
        UTC, without a zone.

    Returns
    -------
    [s]
        Since 1970 UTC.
    """
    seconds = moments.to_numpy().astype("datetime64[s]").astype(np.int64)
    return np.asarray(seconds, dtype=float)
