"""Read the hours of a CF netCDF file: what each variable is, its standard name tells."""

import warnings
from collections.abc import Sequence
from contextlib import suppress
from importlib.util import find_spec
from math import prod

import numpy as np
import pandas as pd
import xarray as xr

from geo.arrays import FloatArray
from geo.errors import InputError, Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.cf_names import FOUND_BY, MOST_AWAY_DEGREES, rain_of, scaled
from geo.inputs.daily_weather import Spot
from geo.inputs.headings import BY_STANDARD
from geo.inputs.reading import LARGEST_BYTES, Reading
from geo.inputs.sheets import MOST_ROWS
from geo.inputs.spellings import Heading
from geo.texts import phrase
from geo.weather.humidity import saturation_vapour_pressure

CLASSIC, HDF5 = b"CDF", b"\x89HDF\r\n\x1a\n"  # how the two kinds of file begin
_BROKEN = (
    ValueError, OSError, KeyError, TypeError, IndexError, AttributeError, RuntimeError,
    OverflowError, AssertionError,
    ImportError,  # of a calendar's library, which xarray asks for where times are beyond its own
)  # fmt: skip
_TURN = 360.0  # degrees
_Series = dict[str, FloatArray]


def is_netcdf(reading: Reading) -> bool:
    """
    Return whether a file is netCDF.

    Parameters
    ----------
    reading : Reading
        The file.

    Returns
    -------
    bool
        By its first bytes.
    """
    with suppress(InputError):
        return reading.content().startswith((CLASSIC, HDF5))
    return False


def read_netcdf_hours(
    reading: Reading,
    *,
    required: Sequence[str],
    optional: Sequence[str] = (),
    spot: Spot | None = None,
) -> pd.DataFrame:
    """
    Return the weather of a netCDF file as a table of text.

    Parameters
    ----------
    reading : Reading
        The file, with CF standard names and units.
    required, optional : sequence of str
        Columns to take.
    spot : Spot or None
        Of a grid the nearest point to it counts.

    Returns
    -------
    pandas.DataFrame
        As `geo.inputs.tables.read_table` gives it; a row is a step of time, counted from 1.

    Raises
    ------
    InputError
        If it cannot be read, or a variable is missing, twice there or in an unknown unit.
    """
    engine = "scipy" if reading.content().startswith(CLASSIC) else "h5netcdf"
    if engine == "h5netcdf" and find_spec(engine) is None:
        found = phrase("is netCDF 4")
        fix = phrase('Install its reader: pip install "mangoblock-risk[netcdf]"')
        raise reading.refused("E-NETCDF-READER", WHOLE_FILE, found=found, fix=fix)
    try:
        if engine == "h5netcdf":
            _refuse_spoilt(reading)
        with warnings.catch_warnings():
            # Of times beyond its calendar xarray warns, and gives them in another kind: refused.
            warnings.simplefilter("ignore")
            with xr.open_dataset(reading.path, engine=engine, cache=False) as opened:
                times, series = _series(reading, opened, spot)
    except InputError:
        raise
    except _BROKEN as error:
        found = phrase("is no netCDF file that can be read: {error}", error=quoted(error))
        fix = phrase("Fetch it again, or save it as CSV")
        raise reading.refused("E-NETCDF", WHOLE_FILE, found=found, fix=fix) from error
    return _table(reading, times, series, required=required, optional=optional)


def _table(
    reading: Reading,
    times: pd.DatetimeIndex,
    series: _Series,
    *,
    required: Sequence[str],
    optional: Sequence[str],
) -> pd.DataFrame:
    table = {"time": times.strftime("%Y-%m-%dT%H:%M:%SZ").to_numpy()}
    for column in (*required, *optional):
        if column in series:
            table[column] = pd.Series(series[column]).map("{:.6g}".format).to_numpy()
        elif column in optional:
            table[column] = np.full(len(times), "")
        elif column != "time":
            names = ", ".join(_names_for(column))
            found = phrase("no variable for {column}", column=column)
            fix = phrase("Give one with the standard name {names}", names=names)
            reading.add(Outcome.STOP, "E-COLUMN-MISSING", WHOLE_FILE, found=found, fix=fix)
    reading.check()
    return pd.DataFrame(table, index=range(1, len(times) + 1), dtype=object)


def _refuse_spoilt(reading: Reading) -> None:
    """Open the container by itself first: of a spoilt one the reader above it leaves a half."""
    import h5py

    with h5py.File(reading.path, "r") as opened:
        opened.attrs.get("_nc3_strict")  # the first thing asked there


def _names_for(column: str) -> list[str]:
    return [name for name, (means, _) in FOUND_BY.items() if means == column]


def _series(
    reading: Reading, opened: xr.Dataset, spot: Spot | None
) -> tuple[pd.DatetimeIndex, _Series]:
    """Return the steps of time, UTC, and the series of each of our columns."""
    found_by: dict[str, str] = {}
    for name, variable in opened.data_vars.items():
        standard = str(variable.attrs.get("standard_name", ""))
        if standard in FOUND_BY and standard in found_by:
            found = phrase(
                "{variable} and {other} are both {standard}",
                variable=quoted(found_by[standard]),
                other=quoted(name),
                standard=standard,
            )
            fix = phrase("Keep the one near the ground")
            reading.add(Outcome.STOP, "E-COLUMN-AMBIGUOUS", WHOLE_FILE, found=found, fix=fix)
        elif standard in FOUND_BY:
            found_by[standard] = str(name)
    reading.check()
    times = _times(reading, opened)
    known: _Series = {}
    for standard, name in found_by.items():
        column, quantity = FOUND_BY[standard]
        values = _at_spot(reading, opened[name], spot)
        unit = str(opened[name].attrs.get("units", ""))
        if quantity == "rain":
            known[column] = rain_of(reading, values, unit, name=name, times=times)
        else:
            known[column] = scaled(reading, values, unit, name=name, quantity=quantity)
        reading.headings.append(Heading(name, column, "", BY_STANDARD))
    reading.check()
    return times, _completed(known)


def _times(reading: Reading, opened: xr.Dataset) -> pd.DatetimeIndex:
    clock = opened["time"]
    bounds = str(clock.attrs.get("bounds", clock.encoding.get("bounds", "")))
    if clock.ndim != 1 or clock.size > MOST_ROWS or not np.issubdtype(clock.dtype, np.datetime64):
        found = phrase(
            "its time has {dimensions} dimensions and {steps} steps of {kind}",
            dimensions=clock.ndim,
            steps=clock.size,
            kind=clock.dtype,
        )
        fix = phrase("Give one series of times of the usual calendar")
        raise reading.refused("E-NETCDF-TIME", WHOLE_FILE, found=found, fix=fix)
    if bounds in opened.variables:
        return pd.DatetimeIndex(opened[bounds].to_numpy()[:, 0])
    found = phrase("each value is taken to hold from its time on: no bounds say otherwise")
    fix = phrase("Check it if rain is a sum: some files write the end of its hours")
    reading.add(Outcome.NOTE, "E-NETCDF-TIME", WHOLE_FILE, found=found, fix=fix)
    return pd.DatetimeIndex(clock.to_numpy())


def _at_spot(reading: Reading, variable: xr.DataArray, spot: Spot | None) -> FloatArray:
    chunk = variable.encoding.get("chunksizes") or variable.shape
    if prod(chunk) * variable.dtype.itemsize > LARGEST_BYTES:
        found = phrase(
            "{variable} is stored in pieces of more than {most:.0f} MB, the most that is unpacked",
            variable=quoted(variable.name),
            most=LARGEST_BYTES / 1e6,
        )
        fix = phrase("Cut the file to the farm and its season")
        raise reading.refused("E-FILE-LARGE", WHOLE_FILE, found=found, fix=fix)
    for dimension in variable.dims:
        if dimension == "time":
            continue
        if variable.sizes[dimension] == 1:
            variable = variable.isel({dimension: 0})
            continue
        kind = str(variable.coords[dimension].attrs.get("standard_name", dimension))
        wanted = {"longitude": "longitude", "latitude": "latitude"}.get(kind)
        if wanted is None or spot is None:
            found = phrase(
                "{variable} has {count} values along {dimension} at each time",
                variable=quoted(variable.name),
                count=variable.sizes[dimension],
                dimension=quoted(dimension),
            )
            fix = phrase("Keep one, the nearest to the ground and to the farm")
            raise reading.refused("E-NETCDF-SHAPE", WHOLE_FILE, found=found, fix=fix)
        variable = _nearest(reading, variable, str(dimension), getattr(spot, wanted))
    return np.asarray(variable.transpose("time").to_numpy(), dtype=float)


def _nearest(
    reading: Reading, variable: xr.DataArray, dimension: str, wanted: float
) -> xr.DataArray:
    away = np.abs((variable[dimension].to_numpy() - wanted + 0.5 * _TURN) % _TURN - 0.5 * _TURN)
    place = int(np.nanargmin(away))
    if away[place] > MOST_AWAY_DEGREES:
        found = phrase(
            "its nearest point lies {away:.2f} degrees of {dimension} from the station",
            away=away[place],
            dimension=dimension,
        )
        fix = phrase("Give a file of the farm's own place")
        raise reading.refused("E-NETCDF-ELSEWHERE", WHOLE_FILE, found=found, fix=fix)
    return variable.isel({dimension: place})


def _completed(known: _Series) -> _Series:
    """Return series with humidity from the dew point and wind from its two parts, where missing."""
    temperature, dew_point = known.get("air_temperature_degC"), known.pop("dew_point", None)
    if dew_point is not None and temperature is not None:
        # allen1998, Eq. 10 and 14.
        full = saturation_vapour_pressure(temperature)
        humidity = 100.0 * saturation_vapour_pressure(dew_point) / full
        known.setdefault("relative_humidity_percent", np.minimum(humidity, 100.0))
    east, north = known.pop("eastward", None), known.pop("northward", None)
    if east is not None and north is not None:
        known.setdefault("wind_speed_m_s", np.hypot(east, north))
        turned = np.rad2deg(np.arctan2(-east, -north)) % _TURN
        known.setdefault("wind_from_direction_degree", turned)
    return known
