"""Read the hours of an EPW file, as weather services and building engineers pass them on."""

import io
from collections.abc import Sequence

import pandas as pd
from pvlib.iotools import read_epw

from geo.errors import quoted
from geo.inputs.archives import refuse_bomb
from geo.inputs.at import WHOLE_FILE
from geo.inputs.reading import Reading
from geo.texts import phrase

FIRST_ROW = 9  # eight lines of head
HOURS_OF_A_YEAR, LONGEST_YEAR_DAYS = 8784, 370
# Column of the reader, and from which number on it stands for nothing (EPW data dictionary, from
# memory). Sky cover is in tenths.
_FIELDS = {
    "air_temperature_degC": ("temp_air", 99.9),
    "relative_humidity_percent": ("relative_humidity", 999.0),
    "wind_speed_m_s": ("wind_speed", 999.0),
    "precipitation_mm": ("liquid_precipitation_depth", 999.0),
    "cloud_cover_fraction": ("total_sky_cover", 99.0),
    "wind_from_direction_degree": ("wind_direction", 999.0),
}
_TENTHS = "cloud_cover_fraction"
_BROKEN = (ValueError, IndexError, KeyError, TypeError, AttributeError, OverflowError)


def read_epw_hours(
    reading: Reading, *, required: Sequence[str], optional: Sequence[str] = ()
) -> pd.DataFrame:
    """
    Return an EPW file as a table of text.

    Parameters
    ----------
    reading : Reading
        The file.
    required, optional : sequence of str
        Columns to take.

    Returns
    -------
    pandas.DataFrame
        As `geo.inputs.tables.read_table` gives it; the time is that of the hour's start, with the
        offset the file states.

    Raises
    ------
    InputError
        If it is no EPW file, or one of a typical year.
    """
    refuse_bomb(reading)
    try:
        text = reading.content().decode("latin-1")
        hours, _ = read_epw(io.StringIO(text))
        times = pd.DatetimeIndex(hours.index)
        columns = {
            column: pd.to_numeric(hours[field], errors="raise").where(lambda one, m=most: one < m)
            for column, (field, most) in _FIELDS.items()
        }
    except _BROKEN as error:
        found = phrase("is no EPW file that can be read: {error}", error=quoted(error))
        fix = phrase("Save it anew, or as CSV")
        raise reading.refused("E-EPW", WHOLE_FILE, found=found, fix=fix) from error
    _refuse_typical(reading, times)
    columns[_TENTHS] = columns[_TENTHS] / 10.0
    table = {"time": times.strftime("%Y-%m-%dT%H:%M%z").to_numpy()}
    table |= {column: values.map("{:.6g}".format).to_numpy() for column, values in columns.items()}
    rows = range(FIRST_ROW, FIRST_ROW + len(times))
    return pd.DataFrame(table, index=rows, dtype=object)[[*required, *optional]]


def _refuse_typical(reading: Reading, times: pd.DatetimeIndex) -> None:
    span = times.max() - times.min()
    if len(times) <= HOURS_OF_A_YEAR and span > pd.Timedelta(days=LONGEST_YEAR_DAYS):
        found = phrase(
            "is a typical year, put together from {count} years between {first} and {last}: it "
            "tells nothing of this season",
            count=times.year.nunique(),
            first=times.year.min(),
            last=times.year.max(),
        )
        fix = phrase("Give what was measured this season")
        raise reading.refused("E-EPW-TYPICAL", WHOLE_FILE, found=found, fix=fix)
