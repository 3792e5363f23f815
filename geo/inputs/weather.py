"""What was measured, and what is forecast? Hour by hour, in house units."""

from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.days import utc_hours
from geo.inputs.reading import Reading
from geo.inputs.tables import numbers, read_table

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
OPTIONAL = ("cloud_cover", "wind_from_direction")
NEEDED = ("air_temperature", "relative_humidity", "wind_speed", "precipitation")
FULL_HUMIDITY = 100.0
ENOUGH_ROWS = 24  # to judge a unit by
HOTTEST_MEDIAN_DEGC = 45.0  # no orchard is so hot half of the time: degrees Fahrenheit
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


def read_weather(reading: Reading, *, zone: ZoneInfo, wind_height: float) -> pd.DataFrame:
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
    table = read_table(reading, required=needed, optional=[columns[name] for name in OPTIONAL])
    hours = utc_hours(reading, table["time"], zone=zone)
    values = pd.DataFrame(
        {name: numbers(reading, table[column]) for name, column in columns.items()}
    )
    reading.check()
    _refuse_units(reading, values)
    for name, (column, low, high) in COLUMNS.items():
        is_out = (values[name] < low) | (values[name] > high)
        reading.add_rows(
            Outcome.STOP,
            "E-RANGE",
            table[column][is_out],
            found=f"is not within {low:g} to {high:g}",
            fix="Mend the value or its unit, or leave the cell empty",
        )
    _refuse_odd_minutes(reading, hours, table["time"])
    reading.check()
    values["relative_humidity"] = _capped(reading, values["relative_humidity"])
    values["wind_speed"] = wind_at_two_metres(values["wind_speed"].to_numpy(), height=wind_height)
    reading.used = len(values)
    return _in_order(reading, values.assign(hour=hours, row=values.index), table["time"])


def _refuse_units(reading: Reading, values: pd.DataFrame) -> None:
    humidity, temperature = values["relative_humidity"].dropna(), values["air_temperature"].dropna()
    if len(humidity) >= ENOUGH_ROWS and humidity.max() <= 1.0:
        found = f"values up to {quoted(humidity.max())} look like a fraction of 1"
        at, fix = f"column {COLUMNS['relative_humidity'][0]}", "Give percent"
        reading.add(Outcome.STOP, "E-UNIT", at, found=found, fix=fix)
    if len(temperature) >= ENOUGH_ROWS and temperature.median() > HOTTEST_MEDIAN_DEGC:
        found = f"values around {quoted(temperature.median())} look like degrees Fahrenheit"
        at, fix = f"column {COLUMNS['air_temperature'][0]}", "Give degrees Celsius"
        reading.add(Outcome.STOP, "E-UNIT", at, found=found, fix=fix)
    reading.check()


def _refuse_odd_minutes(reading: Reading, hours: pd.Series, cells: pd.Series) -> None:
    # Half-hour zones make any minute possible, but all rows must share it.
    past = hours - hours.dt.floor("h")
    reading.add_rows(
        Outcome.STOP,
        "E-TIME-MINUTE",
        cells[past != past.mode().min()] if len(past) else cells,
        found="is not a whole number of hours from the other rows",
        fix="Give hourly rows: means of temperature, humidity and wind, sums of rain",
    )


def _capped(reading: Reading, humidity: pd.Series) -> pd.Series:
    above = int((humidity > FULL_HUMIDITY).sum())
    if above:
        found = f"{above} values above 100 % taken as 100 %"
        at = f"column {COLUMNS['relative_humidity'][0]}"
        fix = "Have the sensor checked if they are many"
        reading.add(Outcome.NOTE, "E-HUMIDITY", at, found=found, fix=fix)
    return humidity.clip(upper=FULL_HUMIDITY)


def _in_order(reading: Reading, values: pd.DataFrame, cells: pd.Series) -> pd.DataFrame:
    is_again = values.drop(columns="row").duplicated()
    if is_again.any():
        found = (
            f"{is_again.sum()} rows stand there twice, the first at row {cells.index[is_again][0]}"
        )
        reading.add(Outcome.FIX, "E-ROW-TWICE", "", found=found, fix="Nothing: they count once")
        values = values[~is_again]
    is_rival = values["hour"].duplicated()
    reading.add_rows(
        Outcome.STOP,
        "E-HOUR-TWICE",
        cells[values.index[is_rival]],
        found="is given twice with different values",
        fix="Keep the right row",
    )
    if not values["hour"].is_monotonic_increasing:
        found, fix = "rows out of order", "Nothing: they are sorted"
        reading.add(Outcome.FIX, "E-ROW-ORDER", "", found=found, fix=fix)
    reading.check()
    return values.set_index("hour").sort_index()
