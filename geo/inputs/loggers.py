"""What did the loggers in the blocks measure, and on which cell does each hang?"""

from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd

from geo.arrays import FloatArray, IntArray
from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.cover import cell_at
from geo.inputs.days import utc_hours
from geo.inputs.folder import Folder
from geo.inputs.land import Land
from geo.inputs.names import matched
from geo.inputs.reading import Reading
from geo.inputs.tables import numbers, read_table
from geo.texts import mark, phrase, phrases
from geo.weather.pool_fit import FEWEST_LOGGERS

KIND = "logger"
COLUMN = "air_temperature_degC"
LOWEST_DEGC, HIGHEST_DEGC = -40.0, 60.0  # as for the station: beyond is a fault of the sensor


@dataclass(frozen=True, slots=True)
class Loggers:
    """
    Loggers that can be used.

    Attributes
    ----------
    names : tuple of str
        Their ids, sorted.
    cell : numpy.ndarray
        Flat index of each one's elevation cell.
    air_temperature : numpy.ndarray
        degC, shape (logger, hour): the mean of the readings within each hour of the season, NaN
        where there is none.
    """

    names: tuple[str, ...]
    cell: IntArray
    air_temperature: FloatArray


def read_loggers(folder: Folder, land: Land, hours: pd.DatetimeIndex) -> Loggers:
    """
    Return the farm's loggers.

    Parameters
    ----------
    folder : Folder
        The farm folder. A farm may have none.
    land : Land
        For the places of kind ``logger`` and the ground below them.
    hours : pandas.DatetimeIndex
        Of the season, UTC.

    Returns
    -------
    Loggers
        Those with a place on known ground; the others are set aside and said.

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    reading = folder.readings.get("loggers")
    if reading is None:
        return Loggers((), np.zeros(0, dtype=np.int64), np.zeros((0, len(hours))))
    rows = read_rows(reading, zone=folder.farm.zone)
    cells = _cells(reading, land, list(rows["logger_id"].unique()))
    is_kept = rows["logger_id"].isin(cells)
    reading.used, reading.held = int(is_kept.sum()), int((~is_kept).sum())
    if len(cells) < FEWEST_LOGGERS:
        found = phrases(
            "{count} logger to fit the cool pools with: they stay as published",
            "{count} logger to fit the cool pools with: they stay as published",
            len(cells),
        )
        fix = phrase("Hang {fewest} or more, at different depths", fewest=FEWEST_LOGGERS)
        reading.add(Outcome.NOTE, "E-LOGGER-FEW", WHOLE_FILE, found=found, fix=fix)
    place = ((rows["time"] - hours[0]) // pd.Timedelta(hours=1)).astype(np.int64)
    of_season = is_kept & (place >= 0) & (place < len(hours))
    mean = rows[of_season].groupby(["logger_id", place[of_season]])["value"].mean()
    air_temperature = np.full((len(cells), len(hours)), np.nan)
    row_of = {name: row for row, name in enumerate(cells)}
    who, when = (mean.index.get_level_values(level) for level in (0, 1))
    air_temperature[[row_of[name] for name in who], np.asarray(when, dtype=np.int64)] = mean
    return Loggers(tuple(cells), np.array(list(cells.values()), dtype=np.int64), air_temperature)


def read_rows(reading: Reading, *, zone: ZoneInfo) -> pd.DataFrame:
    """
    Return the readings of all loggers.

    Parameters
    ----------
    reading : Reading
        The file.
    zone : zoneinfo.ZoneInfo
        The farm's zone.

    Returns
    -------
    pandas.DataFrame
        Columns ``logger_id``, ``time`` (UTC) and ``value`` (degC).

    Raises
    ------
    InputError
        If the file cannot be used.
    """
    table = read_table(reading, required=["time", "logger_id", COLUMN])
    value = numbers(reading, table[COLUMN])
    # Each by itself: the hour that a clock gives twice is told apart by the order of rows.
    times = [
        utc_hours(reading, cells, zone=zone) for _, cells in table.groupby("logger_id")["time"]
    ]
    reading.add_rows(
        Outcome.STOP,
        "E-RANGE",
        table[COLUMN][(value < LOWEST_DEGC) | (value > HIGHEST_DEGC)],
        found=mark("{value} is not within {low:g} to {high:g}"),
        fix=phrase("Mend the value or its unit, or leave the cell empty"),
        low=LOWEST_DEGC,
        high=HIGHEST_DEGC,
    )
    reading.check()
    if not times:
        return pd.DataFrame({"logger_id": [], "time": pd.DatetimeIndex([]), "value": []})
    time = pd.concat(times).reindex(table.index)
    rows = pd.DataFrame({"logger_id": table["logger_id"], "time": time, "value": value})
    return rows.dropna()


def _cells(reading: Reading, land: Land, names: list[str]) -> dict[str, int]:
    """Return the cell of each logger that has a place, by name; the others are held."""
    places = land.places[land.places["kind"] == KIND].drop_duplicates("name")
    place_of = matched(pd.Series(names, dtype=object), pd.Index(places["name"]))
    points = places.set_index("name").geometry.representative_point()
    ground = land.ground.grid.ravel()
    cells: dict[str, int] = {}
    for name, place in sorted(zip(names, place_of, strict=True)):
        if pd.isna(place):
            found = phrase(
                "{logger} has no place of kind {kind} with that name",
                logger=quoted(name),
                kind=KIND,
            )
            fix = phrase("Draw it in the places file, or mend the id")
            reading.add(Outcome.HOLD, "E-LOGGER-PLACE", WHOLE_FILE, found=found, fix=fix)
            continue
        cell = cell_at(land.ground, x=points[place].x, y=points[place].y)
        if cell < 0 or np.isnan(ground[cell]):
            found = phrase("{logger} hangs on unknown ground", logger=quoted(name))
            fix = phrase("Check where it is drawn")
            reading.add(Outcome.HOLD, "E-LOGGER-GROUND", WHOLE_FILE, found=found, fix=fix)
            continue
        cells[name] = cell
    return cells
