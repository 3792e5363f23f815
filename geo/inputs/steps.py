"""How far apart are the rows of a weather file, and how do they become hours?"""

from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.errors import Outcome, quoted
from geo.inputs.at import at_column
from geo.inputs.reading import Reading
from geo.texts import phrase

_HOUR = pd.Timedelta(hours=1)
COARSEST_HOURS = 6  # beyond it the day's course is lost (our choice)
ENOUGH_OF_AN_HOUR = 0.75  # of the rows an hour should have, by the catalogue of faults (our choice)
SUMMED, TURNED = "precipitation", "wind_from_direction"
_TURN = 360.0  # degrees


def as_hours(
    reading: Reading, values: pd.DataFrame, *, zone: ZoneInfo, cells: pd.Series
) -> pd.DataFrame:
    """
    Return a row for each hour.

    Parameters
    ----------
    reading : Reading
        The file.
    values : pandas.DataFrame
        Our weather columns and ``hour``, the time of each row in UTC; the index is the file's
        row.
    zone : zoneinfo.ZoneInfo
        The farm's: its hours are counted by its own clock.
    cells : pandas.Series
        Times as written.

    Returns
    -------
    pandas.DataFrame
        As given where rows are an hour apart; means, and sums of rain, where they are closer; in
        between where they are a few hours apart.

    Raises
    ------
    InputError
        If they are further apart than the day's course allows.
    """
    steps = values["hour"].drop_duplicates().sort_values().diff().dropna()
    if steps.empty:
        return values
    usual = steps.mode().max()
    if usual == _HOUR:
        return values
    if usual < _HOUR:
        return _gathered(reading, values, usual, zone)
    if usual % _HOUR or usual > COARSEST_HOURS * _HOUR:
        found = phrase(
            "rows are {hours:g} h apart, the first {first}",
            hours=usual / _HOUR,
            first=quoted(cells.iloc[0]),
        )
        fix = phrase("Give hourly rows, or at least every {most} h", most=COARSEST_HOURS)
        raise reading.refused("E-STEP", at_column("time"), found=found, fix=fix)
    return _spread(reading, values, usual)


def _gathered(
    reading: Reading, values: pd.DataFrame, step: pd.Timedelta, zone: ZoneInfo
) -> pd.DataFrame:
    moment = values["hour"]
    local = moment.dt.tz_localize("UTC").dt.tz_convert(zone).dt.tz_localize(None)
    past = (local - moment) % _HOUR
    start = (moment + past).dt.floor("h") - past
    rows = values.drop(columns="hour")
    by_hour = rows.groupby(start)
    means = by_hour.mean()
    means[SUMMED] = by_hour[SUMMED].sum()
    turns = np.deg2rad(rows[TURNED])
    east, north = (part.groupby(start).mean() for part in (np.sin(turns), np.cos(turns)))
    means[TURNED] = np.rad2deg(np.arctan2(east, north)) % _TURN
    counts = by_hour.count()
    hours = means.where(counts >= ENOUGH_OF_AN_HOUR * (_HOUR / step))
    first = pd.Series(values.index, index=values.index).groupby(start).first()
    found = phrase(
        "rows are {minutes:g} min apart: taken together by the hour, means of {percent:.0f} % of "
        "its rows or more, and sums of rain",
        minutes=step / pd.Timedelta(minutes=1),
        percent=100 * ENOUGH_OF_AN_HOUR,
    )
    reading.add(Outcome.FIX, "E-STEP-FINE", at_column("time"), found=found, fix=phrase("Nothing"))
    hours["hour"] = hours.index
    return hours.set_axis(first[hours.index].to_numpy())


def _spread(reading: Reading, values: pd.DataFrame, step: pd.Timedelta) -> pd.DataFrame:
    count = int(step / _HOUR)
    known = values.drop_duplicates("hour").set_index("hour").sort_index()
    known["row"] = (
        values.drop_duplicates("hour")
        .set_index("hour")
        .sort_index()
        .index.map(dict(zip(values["hour"], values.index, strict=True)))
    )
    every = pd.date_range(known.index[0], known.index[-1] + step - _HOUR, freq="h")
    hours = known.reindex(every)
    smooth = [name for name in hours.columns if name not in (SUMMED, TURNED, "row")]
    hours[smooth] = hours[smooth].interpolate(limit=count - 1)
    hours[[TURNED, "row"]] = hours[[TURNED, "row"]].ffill(limit=count - 1)
    hours[SUMMED] = (known[SUMMED] / count).reindex(every).ffill(limit=count - 1)
    found = phrase(
        "rows are {hours} h apart: values in between lie on straight lines, and rain is spread "
        "evenly over the {hours} h from its row; hours of wetness may be off by as much",
        hours=count,
    )
    fix = phrase("Give hourly rows if there are any")
    reading.add(Outcome.NOTE, "E-STEP-COARSE", at_column("time"), found=found, fix=fix)
    numbers = hours.pop("row").ffill().astype(int)
    hours["hour"] = hours.index
    return hours.set_axis(numbers.to_numpy())
