"""Which hours and days does the season have? Whole local days with their weather."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

import pandas as pd

from geo.arrays import FloatArray, IntArray
from geo.errors import Outcome
from geo.inputs.at import WHOLE_FILE, at_column
from geo.inputs.days import complete_days, local_dates
from geo.inputs.folder import Folder
from geo.inputs.gaps import Sources, hourly, last_measured
from geo.inputs.reading import Reading, tried
from geo.inputs.station_hours import read_measured
from geo.inputs.stations import Site
from geo.inputs.sun import HOUR_SECONDS, mid_hour_elevation, sunrises
from geo.inputs.weather import COLUMNS, REFERENCE_HEIGHT_M
from geo.inputs.weather_kinds import Spot, read_any_weather
from geo.texts import phrase

# Our own choices: forecasts are made anew within a day, and miss the station by less on the mean.
OLD_FORECAST_H, ENOUGH_SHARED_H, FAR_OFF_K = 24, 24, 2.0


@dataclass(frozen=True, slots=True)
class Timeline:
    """
    The season's hours and days.

    Attributes
    ----------
    weather : pandas.DataFrame
        Index the hours' starts in UTC; our weather columns, is_forecast and is_filled.
    hour_day : numpy.ndarray
        Index of the day of each hour.
    days : pandas.DatetimeIndex
        The farm's dates.
    solar_elevation : numpy.ndarray
        In the middle of each hour, degrees.
    sunrise : numpy.ndarray
        Of each day, in hours since the first one's start.
    today : pandas.Timestamp
        The farm's date at the last measured hour.
    last_measured : pandas.Timestamp
        That hour's start, UTC.
    station_share : numpy.ndarray
        Of each station in the measured temperatures, 1 in all.
    """

    weather: pd.DataFrame
    hour_day: IntArray
    days: pd.DatetimeIndex
    solar_elevation: FloatArray
    sunrise: FloatArray
    today: pd.Timestamp
    last_measured: pd.Timestamp
    station_share: FloatArray


def read_hours(folder: Folder) -> dict[str, pd.DataFrame]:
    """
    Return the hours of each weather file, and of the forecast if there is one that is not empty.

    Parameters
    ----------
    folder : Folder
        The farm folder.

    Returns
    -------
    dict of str to pandas.DataFrame
        By role, as `geo.inputs.weather_kinds.read_any_weather` gives them; without the files that
        cannot be used, whose faults stand in their readings.
    """
    farm = folder.farm
    heights = {"forecast": farm.forecast_wind_height, "weather": REFERENCE_HEIGHT_M}
    heights |= {station.role: station.wind_height for station in farm.stations}
    spots = {station.role: Spot(station.longitude, station.latitude) for station in farm.stations}
    first = next(iter(spots.values()), None)
    read = {
        role: tried(
            partial(
                read_any_weather,
                reading,
                zone=farm.zone,
                wind_height=heights[role],
                spot=spots.get(role, first),
            )
        )
        for role, reading in folder.readings.items()
        if role in heights and not (role == "forecast" and _is_blank(reading))
    }
    return {role: hours for role, hours in read.items() if hours is not None}


def read_timeline(folder: Folder, site: Site, hours: Mapping[str, pd.DataFrame]) -> Timeline:
    """
    Return the season's hours, from the first complete local day to the last.

    Parameters
    ----------
    folder : Folder
        The farm folder.
    site : Site
        Where the weather shall hold.
    hours : mapping of str to pandas.DataFrame
        As from ``read_hours``, with every weather file.

    Returns
    -------
    Timeline
        Without a gap.

    Raises
    ------
    InputError
        If weather or forecast cannot be used, or there is no complete day.
    """
    farm = folder.farm
    reading = folder.readings[site.stations[int(site.weight.argmax())].role]
    station_hours = read_measured(folder, site, hours)
    measured = station_hours.hours
    forecast = _forecast(folder, hours.get("forecast"), last_measured(measured))
    if "forecast" in folder.readings:
        _compare(folder.readings["forecast"], measured, forecast)
    sources = Sources(reading, folder.readings.get("forecast"), measured, forecast, farm.zone)
    weather = hourly(sources)
    days = complete_days(weather.index, farm.zone)
    if days.days.empty:
        found = phrase("{hours} h make no complete day", hours=len(weather))
        fix = phrase("Give whole local days, from 00:00 to 23:00")
        raise reading.refused("E-WEATHER-SHORT", WHOLE_FILE, found=found, fix=fix)
    last = last_measured(measured)
    today = local_dates(pd.DatetimeIndex([last]), farm.zone)[0]
    if len(forecast):
        _say_horizon(folder, ahead=int((days.days >= today).sum()))
    weather = weather[days.is_inside]
    sun = mid_hour_elevation(
        pd.DatetimeIndex(weather.index),
        longitude=site.longitude,
        latitude=site.latitude,
        elevation=site.elevation,
    )
    rise = sunrises(days.days, zone=farm.zone, longitude=site.longitude, latitude=site.latitude)
    return Timeline(
        weather=weather,
        hour_day=days.hour_day,
        days=days.days,
        solar_elevation=sun,
        sunrise=(rise - weather.index[0].timestamp()) / HOUR_SECONDS,
        today=today,
        last_measured=last,
        station_share=station_hours.share,
    )


def _is_blank(reading: Reading) -> bool:
    if reading.is_blank():
        found = phrase(
            "forecast missing (the file is empty): sulfur and the days ahead unknown = closed"
        )
        _hold_forecast(reading, found=found)
        return True
    return False


def _forecast(folder: Folder, forecast: pd.DataFrame | None, last: pd.Timestamp) -> pd.DataFrame:
    nothing = pd.DataFrame(columns=[*COLUMNS, "row"], dtype=float)
    if forecast is None:
        return nothing
    reading = folder.readings["forecast"]
    if forecast.empty:
        found = phrase("forecast missing (no rows): sulfur and the days ahead unknown = closed")
        _hold_forecast(reading, found=found)
        return nothing
    if pd.notna(last) and forecast.index[-1] <= last:
        found = phrase(
            "forecast missing (it ends before the last measured hour): sulfur and the days ahead "
            "unknown = closed"
        )
        _hold_forecast(reading, found=found)
        reading.used, reading.held = 0, len(forecast)
        return nothing
    return forecast


def _compare(reading: Reading, measured: pd.DataFrame, forecast: pd.DataFrame) -> None:
    """Note a forecast that begins long ago, or is far off where both speak. It is not shifted."""
    last = last_measured(measured)
    if forecast.empty or pd.isna(last):
        return
    before = (last - forecast.index[0]) / pd.Timedelta(hours=1)
    if before > OLD_FORECAST_H:
        found = phrase(
            "begins {hours:.0f} h before the last measured hour: is it an old one?", hours=before
        )
        fix = phrase("Fetch today's forecast and run again")
        reading.add(Outcome.NOTE, "E-FORECAST-OLD", at_column("time"), found=found, fix=fix)
    both = forecast["air_temperature"] - measured["air_temperature"].reindex(forecast.index)
    if both.notna().sum() >= ENOUGH_SHARED_H and abs(both.mean()) > FAR_OFF_K:
        found = phrase(
            "is {bias:+.1f} K off the station over {hours} h in common: it is used as it is",
            bias=both.mean(),
            hours=both.notna().sum(),
        )
        fix = phrase("Check height and place of the forecast")
        at = at_column(COLUMNS["air_temperature"][0])
        reading.add(Outcome.NOTE, "E-FORECAST-BIAS", at, found=found, fix=fix)


def _hold_forecast(reading: Reading, *, found: str) -> None:
    fix = phrase("Fetch today's forecast and run again")
    reading.add(Outcome.HOLD, "E-FORECAST-MISSING", WHOLE_FILE, found=found, fix=fix)


def _say_horizon(folder: Folder, *, ahead: int) -> None:
    wanted = folder.farm.settings.horizon_days
    if ahead < wanted:
        found = phrase(
            "reaches over {ahead} of the {wanted} whole days asked for, today included",
            ahead=ahead,
            wanted=wanted,
        )
        fix = phrase("Give a longer forecast, or lower plan.horizon_days")
        outcome = Outcome.NOTE if ahead else Outcome.HOLD
        folder.readings["forecast"].add(
            outcome, "E-FORECAST-SHORT", WHOLE_FILE, found=found, fix=fix
        )
