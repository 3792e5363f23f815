"""What was measured, and what is forecast? Hour by hour, in house units."""

import re
from collections.abc import Callable
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE, at_column, at_row
from geo.inputs.days import utc_hours
from geo.inputs.rain import by_the_hour, without_traces
from geo.inputs.reading import Reading
from geo.inputs.sensors import (
    CODES,
    note_clock,
    note_stuck,
    refuse_units,
    say_codes,
    within,
    without_damp_beyond_full,
    without_spikes,
)
from geo.inputs.steps import as_hours
from geo.inputs.tables import numbers, read_table
from geo.texts import mark, phrase, phrases

# Our name, the column's name and the range outside which a value is a fault of the sensor or of
# the unit (our choice, wider than any orchard).
COLUMNS = {
    "air_temperature": ("air_temperature_degC", -40.0, 60.0),
    "relative_humidity": ("relative_humidity_percent", 0.0, 105.0),
    "wind_speed": ("wind_speed_m_s", 0.0, 80.0),
    "precipitation": ("precipitation_mm", 0.0, 300.0),
    "cloud_cover": ("cloud_cover_fraction", 0.0, 1.0),
    "wind_from_direction": ("wind_from_direction_degree", 0.0, 360.0),
}
SHOWN = 3
_ENSEMBLE = re.compile(r"member|ensemble|(?:^|_)ens(?:_|\d|$)|perc|(?:^|_)p\d\d|prob|spread", re.I)
DEW_POINT = "dew_point_degC"
OPTIONAL = ("cloud_cover", "wind_from_direction")
NEEDED = ("air_temperature", "relative_humidity", "wind_speed", "precipitation")
FULL_HUMIDITY = 100.0
REFERENCE_HEIGHT_M = 2.0


def wind_at_two_metres(wind_speed: FloatArray, *, height: float) -> FloatArray:
    r"""
    Return the wind at 2 m above ground from the wind at another height.

    Parameters
    ----------
    wind_speed : [m s-1]
        At the sensor.
    height : [m]
        Of the sensor above ground.

    Returns
    -------
    [m s-1]
        At 2 m. A sensor at 2 m is left as it is.

    Notes
    -----
    Eq. 47 of [1]_, for wind over short grass:

    .. math:: u_2 = u_z \frac{4.87}{\ln(67.8\,z - 5.42)}

    References
    ----------
    .. [1] R. G. Allen, L. S. Pereira, D. Raes and M. Smith, "Crop evapotranspiration", FAO
       Irrigation and Drainage Paper 56, Rome, 1998, ch. 3.

    Examples
    --------
    >>> wind_at_two_metres(np.array([3.2]), height=10.0).round(1)
    array([2.4])
    """
    if height == REFERENCE_HEIGHT_M:
        return wind_speed
    at_two: FloatArray = wind_speed * 4.87 / np.log(67.8 * height - 5.42)
    return at_two


def read_weather(
    reading: Reading,
    *,
    zone: ZoneInfo,
    wind_height: float,
    read: Callable[..., pd.DataFrame] = read_table,
) -> pd.DataFrame:
    """
    Return the hours of a weather or forecast file.

    Parameters
    ----------
    reading : Reading
        The file.
    zone : zoneinfo.ZoneInfo
        The farm's zone.
    wind_height : [m]
        Of the wind above ground.
    read : callable
        Gives the file as `geo.inputs.tables.read_table` does, for files that are no tables.

    Returns
    -------
    pandas.DataFrame
        Index the hour's start in UTC, in order, perhaps with gaps; a column for each of our
        names, NaN where not measured, wind at 2 m; and the file's row. Empty for an empty file.

    Raises
    ------
    InputError
        With every faulty cell.
    """
    columns = {name: column for name, (column, _, _) in COLUMNS.items()}
    needed = ["time", *(columns[name] for name in NEEDED)]
    # Only tables have a dew point beside the humidity; files of other kinds make humidity of it.
    beside = [DEW_POINT] if read is read_table else []
    table = read(
        reading, required=needed, optional=[*(columns[name] for name in OPTIONAL), *beside]
    )
    hours = utc_hours(reading, table["time"], zone=zone)
    table[columns["precipitation"]] = without_traces(reading, table[columns["precipitation"]])
    for column in columns.values():
        say_codes(reading, table[column])
    values = pd.DataFrame(
        {name: numbers(reading, table[column], gaps=CODES) for name, column in columns.items()}
    )
    reading.check()
    refuse_units(reading, values, columns)
    _note_others(reading)
    values["precipitation"] = by_the_hour(
        reading, values["precipitation"], hours, column=columns["precipitation"]
    )
    for name, (column, low, high) in COLUMNS.items():
        values[name] = within(reading, values[name], table[column], low=low, high=high)
    reading.check()
    cells = table[columns["air_temperature"]]
    values["air_temperature"] = without_spikes(reading, values["air_temperature"], hours, cells)
    for name in beside:
        dew_point = numbers(reading, table[name], gaps=CODES)
        values = without_damp_beyond_full(reading, values, dew_point, table[name])
    kept = _without_rivals(reading, values.assign(hour=hours), table["time"])
    by_hour = as_hours(reading, kept, zone=zone, cells=table["time"])
    note_stuck(
        reading,
        by_hour["relative_humidity"],
        by_hour["hour"],
        column=columns["relative_humidity"],
    )
    note_clock(reading, by_hour["air_temperature"], by_hour["hour"], zone)
    _refuse_odd_minutes(reading, by_hour["hour"], table["time"].reindex(by_hour.index))
    reading.check()
    by_hour["relative_humidity"] = _capped(reading, by_hour["relative_humidity"])
    by_hour["wind_speed"] = wind_at_two_metres(by_hour["wind_speed"].to_numpy(), height=wind_height)
    reading.used = len(values)
    return by_hour.assign(row=by_hour.index).set_index("hour").sort_index()


def _note_others(reading: Reading) -> None:
    """Note columns of an ensemble, which nothing here can use."""
    others = [
        heading.written
        for heading in reading.headings
        if not heading.means and _ENSEMBLE.search(heading.written)
    ]
    if others:
        found = phrase(
            "columns of several forecasts or of chances are not used: {columns}",
            columns=", ".join(map(quoted, others[:SHOWN])),
        )
        fix = phrase("Nothing, or name the one that is meant in a column map")
        reading.add(Outcome.NOTE, "E-COLUMN-UNUSED", at_row(1), found=found, fix=fix)


def _refuse_odd_minutes(reading: Reading, hours: pd.Series, cells: pd.Series) -> None:
    # Half-hour zones make any minute possible, but all rows must share it.
    past = hours - hours.dt.floor("h")
    reading.add_rows(
        Outcome.STOP,
        "E-TIME-MINUTE",
        cells[past != past.mode().min()] if len(past) else cells,
        found=mark("{value} is not a whole number of hours from the other rows"),
        fix=phrase("Give hourly rows: means of temperature, humidity and wind, sums of rain"),
    )


def _capped(reading: Reading, humidity: pd.Series) -> pd.Series:
    above = int((humidity > FULL_HUMIDITY).sum())
    if above:
        found = phrases(
            "{count} value above 100 % taken as 100 %",
            "{count} values above 100 % taken as 100 %",
            above,
        )
        at = at_column(COLUMNS["relative_humidity"][0])
        fix = phrase("Have the sensor checked if they are many")
        reading.add(Outcome.NOTE, "E-HUMIDITY", at, found=found, fix=fix)
    return humidity.clip(upper=FULL_HUMIDITY)


def _without_rivals(reading: Reading, values: pd.DataFrame, cells: pd.Series) -> pd.DataFrame:
    """Return rows of which no two are of the same time; neither of two that differ is kept."""
    is_again = values.duplicated()
    if is_again.any():
        found = phrases(
            "{count} row stands there twice, the first at row {row}",
            "{count} rows stand there twice, the first at row {row}",
            int(is_again.sum()),
            row=cells.index[is_again][0],
        )
        fix = phrase("Nothing: they count once")
        reading.add(Outcome.FIX, "E-ROW-TWICE", WHOLE_FILE, found=found, fix=fix)
        values = values[~is_again]
    is_rival = values["hour"].duplicated(keep=False)
    later = values.index[values["hour"].duplicated()]
    reading.add_rows(
        Outcome.HOLD,
        "E-HOUR-TWICE",
        cells[later],
        found=mark("{value} is given twice with different values: both are set aside"),
        fix=phrase("Keep the right row"),
    )
    values = values[~is_rival]
    if not values["hour"].is_monotonic_increasing:
        found, fix = phrase("rows out of order"), phrase("Nothing: they are sorted")
        reading.add(Outcome.FIX, "E-ROW-ORDER", WHOLE_FILE, found=found, fix=fix)
        values = values.sort_values("hour", kind="stable")
    return values
