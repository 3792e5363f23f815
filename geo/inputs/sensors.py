"""What do sensors write that cannot be? Codes for nothing, spikes, stuck values, a wrong clock."""

from collections.abc import Mapping
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_column
from geo.inputs.reading import Reading
from geo.texts import mark, phrase, phrases

# Numbers that loggers write for nothing, and that no weather in an orchard reaches.
CODES = ("32767", "-32768", "9999", "99999", "999.9", "-99.9", "-99", "-9999", "-999", "-9999.0")
ENOUGH_ROWS = 24  # to judge a unit by
# All below are our own choices, beyond what weather does.
HOTTEST_MEDIAN_DEGC = 45.0  # no orchard is so hot half of the time: degrees Fahrenheit
COLDEST_KELVIN = 200.0
STRONGEST_USUAL_M_S = 40.0
FEW = 0.02  # of a column: more values out of range are no slips of the sensor
SPIKE_K = 15.0  # up and down again from one hour to the next
MOST_BEYOND_K = 0.5  # what two good sensors may differ by in saturated air (our choice)
FULL, LONGEST_FULL_H = 99.9, 72
CLOCK_DAYS, LEAST_SWING_K = 3, 3.0
WARM_FROM, WARM_TO = 9, 20  # local hours within which the warmest hour of a mean day lies


def say_codes(reading: Reading, cells: pd.Series) -> None:
    """
    Say how often a column has a number that stands for nothing.

    Parameters
    ----------
    reading : Reading
        The file.
    cells : pandas.Series
        Text.
    """
    which = cells[cells.isin(CODES)]
    if len(which):
        found = phrases(
            "{value} stands {count} time, first in row {row}: taken as nothing measured",
            "{value} stands {count} times, first in row {row}: taken as nothing measured",
            len(which),
            value=quoted(which.iloc[0]),
            row=which.index[0],
        )
        fix = phrase("Nothing: leave such cells empty if you can")
        reading.add(Outcome.FIX, "E-MISSING-CODE", at_column(cells.name), found=found, fix=fix)


def refuse_units(reading: Reading, values: pd.DataFrame, columns: Mapping[str, str]) -> None:
    """
    Refuse columns whose values tell of another unit than the heading's. None is changed.

    Parameters
    ----------
    reading : Reading
        The file.
    values : pandas.DataFrame
        In house units.
    columns : mapping of str to str
        The file's column of each of our names.

    Raises
    ------
    InputError
        With what the values look like.
    """
    humidity, temperature = values["relative_humidity"].dropna(), values["air_temperature"].dropna()
    wind = values["wind_speed"].dropna()
    if len(humidity) >= ENOUGH_ROWS and humidity.max() <= 1.0:
        found = phrase(
            "values up to {highest} look like a fraction of 1", highest=quoted(humidity.max())
        )
        fix = phrase('Give percent, or write "fraction" as its unit')
        _refuse(reading, columns["relative_humidity"], found, fix)
    if len(temperature) >= ENOUGH_ROWS and temperature.median() > COLDEST_KELVIN:
        median = quoted(f"{temperature.median():g}")
        found = phrase("values around {median} look like kelvin", median=median)
        fix = phrase('Give degrees Celsius, or write "K" as its unit')
        _refuse(reading, columns["air_temperature"], found, fix)
    elif len(temperature) >= ENOUGH_ROWS and temperature.median() > HOTTEST_MEDIAN_DEGC:
        median = quoted(f"{temperature.median():g}")
        found = phrase("values around {median} look like degrees Fahrenheit", median=median)
        fix = phrase('Give degrees Celsius, or write "degF" as its unit')
        _refuse(reading, columns["air_temperature"], found, fix)
    if len(wind) >= ENOUGH_ROWS and wind.quantile(1.0 - FEW) > STRONGEST_USUAL_M_S:
        highest = quoted(f"{wind.max():g}")
        found = phrase("values up to {highest} m/s are no wind: another unit?", highest=highest)
        fix = phrase("Write its unit, such as km/h or mph")
        _refuse(reading, columns["wind_speed"], found, fix)
    reading.check()


def _refuse(reading: Reading, column: str, found: str, fix: str) -> None:
    reading.add(Outcome.STOP, "E-UNIT", at_column(column), found=found, fix=fix)


def within(
    reading: Reading, values: pd.Series, cells: pd.Series, *, low: float, high: float
) -> pd.Series:
    """
    Return values without those that no sensor should give.

    Parameters
    ----------
    reading : Reading
        The file.
    values : pandas.Series
        In house units.
    cells : pandas.Series
        As written.
    low, high : float
        What may be.

    Returns
    -------
    pandas.Series
        NaN where a value was set aside. Where they are many the column is refused: that is no
        slip of the sensor.
    """
    is_out = (values < low) | (values > high)
    known = int(values.notna().sum())
    is_few = int(is_out.sum()) <= max(1.0, FEW * known)
    reading.add_rows(
        Outcome.HOLD if is_few else Outcome.STOP,
        "E-RANGE",
        cells[is_out],
        found=mark(
            "{value} is not within {low:g} to {high:g}: set aside, as if nothing was measured"
        )
        if is_few
        else mark("{value} is not within {low:g} to {high:g}"),
        fix=phrase("Mend the value or its unit, or leave the cell empty"),
        low=low,
        high=high,
    )
    return values.mask(is_out)


def without_spikes(
    reading: Reading, temperature: pd.Series, hours: pd.Series, cells: pd.Series
) -> pd.Series:
    """
    Return temperatures without single values far from those on both sides.

    Parameters
    ----------
    reading : Reading
        The file.
    temperature : pandas.Series
        In degC.
    hours : pandas.Series
        Of each row.
    cells : pandas.Series
        As written.

    Returns
    -------
    pandas.Series
        NaN where a value was set aside.
    """
    known = temperature[hours.sort_values(kind="stable").index].dropna()
    before, after = known - known.shift(), known - known.shift(-1)
    is_spike = (before.abs() > SPIKE_K) & (after.abs() > SPIKE_K) & (before * after > 0.0)
    spikes = known.index[is_spike]
    reading.add_rows(
        Outcome.HOLD,
        "E-SPIKE",
        cells[spikes].sort_index(),
        found=mark("{value} lies more than {step:g} K from the hours on both sides: set aside"),
        fix=phrase("Mend the value, or leave the cell empty"),
        step=SPIKE_K,
    )
    return temperature.drop(spikes).reindex(temperature.index)


def without_damp_beyond_full(
    reading: Reading, values: pd.DataFrame, dew_point: pd.Series, cells: pd.Series
) -> pd.DataFrame:
    """
    Return values without hours whose dew point lies above the air's temperature.

    Parameters
    ----------
    reading : Reading
        The file.
    values : pandas.DataFrame
        In house units.
    dew_point : pandas.Series
        In degC, NaN where it is not written.
    cells : pandas.Series
        Dew points as written.

    Returns
    -------
    pandas.DataFrame
        Temperature and humidity NaN in such hours: one of the two sensors is wrong, and nobody
        can tell which.
    """
    is_beyond = dew_point > values["air_temperature"] + MOST_BEYOND_K
    reading.add_rows(
        Outcome.HOLD,
        "E-DEW-POINT",
        cells[is_beyond],
        found=mark(
            "{value} is a dew point above the air temperature, which cannot be: temperature and "
            "humidity of the hour are set aside"
        ),
        fix=phrase("Have the sensors checked, or leave the cells of the hour empty"),
    )
    damp = ["air_temperature", "relative_humidity"]
    return values.assign(**{name: values[name].mask(is_beyond) for name in damp})


def note_stuck(reading: Reading, humidity: pd.Series, hours: pd.Series, *, column: str) -> None:
    """
    Note a humidity sensor that says 100 % for days.

    Parameters
    ----------
    reading : Reading
        The file.
    humidity : pandas.Series
        Percent.
    hours : pandas.Series
        Of each row.
    column : str
        For what is said.
    """
    in_order = humidity[hours.sort_values(kind="stable").index].dropna() >= FULL
    runs = in_order.groupby((in_order != in_order.shift()).cumsum()).agg(["sum", "first"])
    longest = int(runs.loc[runs["first"], "sum"].max()) if in_order.any() else 0
    if longest > LONGEST_FULL_H:
        found = phrase(
            "{hours} h without a break at {full} %: the sensor may be stuck or wet, and hours of "
            "wetness too many",
            hours=longest,
            full=quoted("100"),
        )
        fix = phrase("Have the sensor checked")
        reading.add(Outcome.NOTE, "E-HUMIDITY-STUCK", at_column(column), found=found, fix=fix)


def note_clock(reading: Reading, temperature: pd.Series, hours: pd.Series, zone: ZoneInfo) -> None:
    """
    Note a clock by which it is warmest at night.

    Parameters
    ----------
    reading : Reading
        The file.
    temperature : pandas.Series
        In degC.
    hours : pandas.Series
        Of each row, UTC.
    zone : zoneinfo.ZoneInfo
        The farm's.
    """
    known = hours.notna() & temperature.notna()
    local = pd.DatetimeIndex(hours[known]).tz_localize("UTC").tz_convert(zone)
    if local.tz_localize(None).normalize().nunique() < CLOCK_DAYS:
        return
    course = temperature[known].groupby(np.asarray(local.hour)).mean()
    warmest = int(course.idxmax())
    if course.max() - course.min() < LEAST_SWING_K or WARM_FROM <= warmest <= WARM_TO:
        return
    usual = 14  # two hours after noon, as on most days with sun (common practice, no source)
    found = phrase(
        "it is warmest at {hour}:00 on the mean day: the clock looks shifted by {shift:+d} h",
        hour=warmest,
        shift=(warmest - usual + 12) % 24 - 12,
    )
    fix = phrase("Check the zone ({zone}), or write the offset behind each time", zone=zone.key)
    reading.add(Outcome.NOTE, "E-CLOCK", at_column("time"), found=found, fix=fix)
