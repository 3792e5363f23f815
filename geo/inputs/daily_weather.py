"""What does a file of daily weather say of the hours? They are made, and flagged as made."""

from contextlib import suppress
from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.arrays import FloatArray
from geo.errors import InputError, Outcome
from geo.inputs.at import WHOLE_FILE, at_column, at_row
from geo.inputs.calendar_dates import dates
from geo.inputs.days import local_dates
from geo.inputs.headings import LONGEST_TITLE
from geo.inputs.names import plain
from geo.inputs.reading import Reading
from geo.inputs.sensors import CODES, refuse_units, within
from geo.inputs.sheets import rows_of
from geo.inputs.spellings import flat, meant
from geo.inputs.sun import HALF_HOUR_SECONDS, HOUR_SECONDS, sunrises, sunsets, unix_seconds
from geo.inputs.tables import numbers, read_table
from geo.inputs.weather import COLUMNS, FULL_HUMIDITY, wind_at_two_metres
from geo.texts import mark, phrase
from geo.weather.diurnal import air_temperature_cesaraccio2001, daily_vapour_pressure
from geo.weather.humidity import saturation_vapour_pressure

# Column and the range outside which a value is a fault (our choice, wider than any orchard).
_LOWEST, _HIGHEST, _MOST_RAIN_MM = -40.0, 60.0, 1000.0
OF_DAYS = {
    "minimum": ("air_temperature_min_degC", _LOWEST, _HIGHEST),
    "maximum": ("air_temperature_max_degC", _LOWEST, _HIGHEST),
    "wind_speed": COLUMNS["wind_speed"],
    "precipitation": (COLUMNS["precipitation"][0], 0.0, _MOST_RAIN_MM),
    "mean_humidity": COLUMNS["relative_humidity"],
    "lowest_humidity": ("relative_humidity_min_percent", 0.0, 105.0),
    "highest_humidity": ("relative_humidity_max_percent", 0.0, 105.0),
    "mean_dew_point": ("dew_point_degC", _LOWEST, _HIGHEST),
    "cloud_cover": COLUMNS["cloud_cover"],
    "wind_from_direction": COLUMNS["wind_from_direction"],
}
NEEDED = ("minimum", "maximum", "wind_speed", "precipitation")
_EXTREMES = tuple(OF_DAYS[name][0] for name in ("minimum", "maximum"))
_HUMID = ("mean_humidity", "lowest_humidity", "highest_humidity", "mean_dew_point")
_HEAD_BYTES = 65_536
_DAY, _HOUR = pd.Timedelta(days=1), pd.Timedelta(hours=1)
_DAY_SECONDS = 86_400.0


@dataclass(frozen=True, slots=True)
class Spot:
    """
    A place on the earth.

    Attributes
    ----------
    longitude, latitude : float
        Degrees, WGS 84.
    """

    longitude: float
    latitude: float


def is_daily(reading: Reading) -> bool:
    """
    Return whether a table gives minimum and maximum of days instead of hours.

    Parameters
    ----------
    reading : Reading
        The file. Nothing is written down in it.

    Returns
    -------
    bool
        By its headings.
    """
    with suppress(InputError):
        head = reading.content()[:_HEAD_BYTES].replace(b"\0", b"").lower()
        is_packed = head.startswith(b"pk")
        mapped = {means for means, _ in reading.column_map.values()}
        if not is_packed and b"m\xc3\xadn" not in head and b"min" not in head and not mapped:
            return False
        trial = Reading(reading.role, reading.path)
        for row in rows_of(trial)[: LONGEST_TITLE + 1]:
            own = {reading.column_map.get(flat(cell), ("", ""))[0] for cell in row}
            own |= {plain(cell) for cell in row} | {meant(cell, _EXTREMES)[0] for cell in row}
            if all(column in own or plain(column) in own for column in _EXTREMES):
                return True
    return False


def read_daily_weather(
    reading: Reading, *, zone: ZoneInfo, wind_height: float, spot: Spot | None
) -> pd.DataFrame:
    """
    Return hours made from a file of days.

    Parameters
    ----------
    reading : Reading
        The file: date, minimum and maximum of the temperature, rain, mean wind, and of the
        humidity its mean, its extremes or the dew point.
    zone : zoneinfo.ZoneInfo
        The farm's: days are its own, from midnight to midnight.
    wind_height : [m]
        Of the wind above ground.
    spot : Spot or None
        Where sunrise and sunset are taken.

    Returns
    -------
    pandas.DataFrame
        As `geo.inputs.weather.read_weather` gives them, with ``is_made`` 1. The water in the
        air is the day's all day long, wind as well, and rain falls evenly over the day.

    Raises
    ------
    InputError
        With every fault; also where nothing tells the humidity, which no minimum can.
    """
    if spot is None:
        found = phrase("holds days, whose hours depend on where the station stands")
        fix = phrase("Mend [station] in farm.toml")
        raise reading.refused("E-DAILY-PLACE", WHOLE_FILE, found=found, fix=fix)
    days = _days(reading)
    first, last = days.index[0], days.index[-1]
    every = pd.date_range(first, last, freq="D")
    days = days.reindex(every)
    # Midnights that the clock skips or meets twice: the day begins with the first hour it has.
    ends = pd.DatetimeIndex([first, last + _DAY]).tz_localize(
        zone, ambiguous=np.ones(2, dtype=bool), nonexistent="shift_forward"
    )
    start, end = ends.tz_convert("UTC").tz_localize(None)
    hours = pd.date_range(start, end - _HOUR, freq="h")
    place = every.get_indexer(local_dates(hours, zone))
    rise, fall = (
        sun(every, zone=zone, longitude=spot.longitude, latitude=spot.latitude)
        for sun in (sunrises, sunsets)
    )
    if not (np.isfinite(rise).all() and np.isfinite(fall).all()):
        found = phrase("the sun does not rise and set on each of its days")
        fix = phrase("Give hourly rows")
        raise reading.refused("E-DAILY-SUN", at_column("date"), found=found, fix=fix)
    values = _hours(days, hours, place, rise, fall)
    values["wind_speed"] = wind_at_two_metres(values["wind_speed"].to_numpy(), height=wind_height)
    known = int(values["air_temperature"].notna().sum())
    found = phrase(
        "{known} of {hours} hours ({share:.0%}) are made from minimum and maximum of their day by "
        "the course of Cesaraccio and others (2001), with the day's mean water in the air and mean "
        "wind, and rain spread evenly over it: hours of wetness are rough",
        known=known,
        hours=len(hours),
        share=known / len(hours),
    )
    fix = phrase("Give hourly rows if there are any")
    reading.add(Outcome.NOTE, "E-DAILY", WHOLE_FILE, found=found, fix=fix)
    reading.used = int(days["minimum"].notna().sum())
    return values.assign(row=days["row"].ffill().to_numpy()[place], is_made=1.0)


def _days(reading: Reading) -> pd.DataFrame:
    table = read_table(
        reading,
        required=["date", *(OF_DAYS[name][0] for name in NEEDED)],
        optional=[column for name, (column, _, _) in OF_DAYS.items() if name not in NEEDED],
    )
    if not any((table[OF_DAYS[name][0]] != "").any() for name in _HUMID):
        found = phrase(
            "nothing tells the humidity, and the minimum of the temperature is no dew point"
        )
        lacking = ", ".join(OF_DAYS[name][0] for name in _HUMID)
        fix = phrase("Add a column: {columns}", columns=lacking)
        raise reading.refused("E-HUMIDITY-UNKNOWN", at_row(1), found=found, fix=fix)
    day = dates(reading, table["date"])
    values = pd.DataFrame(
        {
            name: numbers(reading, table[column], gaps=CODES)
            for name, (column, _, _) in OF_DAYS.items()
        }
    )
    reading.check()
    columns = {"air_temperature": OF_DAYS["maximum"][0], "wind_speed": OF_DAYS["wind_speed"][0]}
    columns["relative_humidity"] = OF_DAYS["mean_humidity"][0]
    alike = {"maximum": "air_temperature", "mean_humidity": "relative_humidity"}
    refuse_units(reading, values.rename(columns=alike), columns)
    for name, (column, low, high) in OF_DAYS.items():
        values[name] = within(reading, values[name], table[column], low=low, high=high)
    _refuse_rows(reading, values, day, table)
    is_day = day.notna() & ~values.assign(day=day).duplicated()
    if not is_day.any():
        found, fix = phrase("no row with a day"), phrase("Give at least one")
        raise reading.refused("E-WEATHER-EMPTY", WHOLE_FILE, found=found, fix=fix)
    return values[is_day].assign(row=values.index[is_day]).set_index(day[is_day]).sort_index()


def _refuse_rows(
    reading: Reading, values: pd.DataFrame, day: pd.Series, table: pd.DataFrame
) -> None:
    reading.add_rows(
        Outcome.STOP,
        "E-DAILY-TURNED",
        table[OF_DAYS["minimum"][0]][values["minimum"] > values["maximum"]],
        found=mark("{value} is above the day's maximum"),
        fix=phrase("Swap the two, or mend the slip"),
    )
    once = day[~values.assign(day=day).duplicated()].dropna()
    reading.add_rows(
        Outcome.STOP,
        "E-DAY-TWICE",
        table["date"][once.index[once.duplicated()]],
        found=mark("{value} is given twice with different values"),
        fix=phrase("Keep the right row"),
    )
    reading.check()


def _hours(
    days: pd.DataFrame,
    hours: pd.DatetimeIndex,
    place: np.ndarray,
    rise: FloatArray,
    fall: FloatArray,
) -> pd.DataFrame:
    """Return hours in house units; ``place`` is the day of each."""
    moments = unix_seconds(hours) + HALF_HOUR_SECONDS
    # Before the first sunrise and after the last: the day before and after are taken to be alike.
    began = np.concatenate([[rise[0] - _DAY_SECONDS], rise, [rise[-1] + _DAY_SECONDS]])
    length = np.concatenate([[fall[0] - rise[0]], fall - rise])
    which = np.searchsorted(began, moments, side="right") - 1
    low, high = (days[name].to_numpy(float) for name in ("minimum", "maximum"))
    following = np.append(low[1:], low[-1])
    following = np.where(np.isnan(following), low, following)
    temperature = air_temperature_cesaraccio2001(
        (moments - began[which]) / HOUR_SECONDS,
        day_length=length[which] / HOUR_SECONDS,
        sunrise_to_sunrise=np.diff(began)[which] / HOUR_SECONDS,
        minimum=np.append(low[:1], low)[which],
        maximum=np.append(high[:1], high)[which],
        next_minimum=np.append(low[:1], following)[which],
    )
    full = saturation_vapour_pressure(temperature)
    count = np.bincount(place, minlength=len(days))
    water = daily_vapour_pressure(
        minimum=low,
        maximum=high,
        harmonic_saturation=count / np.bincount(place, weights=1.0 / full, minlength=len(days)),
        **{name: days[name].to_numpy(float) for name in _HUMID},
    )
    humidity = FULL_HUMIDITY * water[place] / full
    rain = days["precipitation"].to_numpy(float) / count
    even = {
        name: days[name].to_numpy(float)[place]
        for name in ("wind_speed", "cloud_cover", "wind_from_direction")
    }
    return pd.DataFrame(
        {
            "air_temperature": temperature,
            "relative_humidity": np.minimum(humidity, FULL_HUMIDITY),
            "precipitation": rain[place],
            **even,
        },
        index=pd.DatetimeIndex(hours, name="hour"),
    )[list(COLUMNS)]
