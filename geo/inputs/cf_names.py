"""What do CF standard names and units of weather mean in the house's words and units?"""

import numpy as np
import pandas as pd

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.reading import Reading
from geo.inputs.units import UNITS, unit_named
from geo.texts import phrase

# Our column (or what it is made from) and the quantity, by CF standard name.
FOUND_BY = {
    "air_temperature": ("air_temperature_degC", "temperature"),
    "dew_point_temperature": ("dew_point", "temperature"),
    "relative_humidity": ("relative_humidity_percent", "humidity"),
    "wind_speed": ("wind_speed_m_s", "speed"),
    "eastward_wind": ("eastward", "speed"),
    "northward_wind": ("northward", "speed"),
    "wind_from_direction": ("wind_from_direction_degree", "angle"),
    "cloud_area_fraction": ("cloud_cover_fraction", "share"),
    "precipitation_amount": ("precipitation_mm", "rain"),
    "rainfall_amount": ("precipitation_mm", "rain"),
    "lwe_thickness_of_precipitation_amount": ("precipitation_mm", "rain"),
    "thickness_of_rainfall_amount": ("precipitation_mm", "rain"),
    "precipitation_flux": ("precipitation_mm", "rain"),
    "rainfall_flux": ("precipitation_mm", "rain"),
    "lwe_precipitation_rate": ("precipitation_mm", "rain"),
}
MOST_AWAY_DEGREES = 0.5  # coarser grids say little of one valley (our choice)
_CF_WORDS = {
    "degree_celsius": "degC", "degrees_celsius": "degC", "degree_c": "degC", "degrees_c": "degC",
    "degrees": "degree", "degree": "degree",
}  # fmt: skip
# Millimetres in one unit of an amount: a kilogram of water on a square metre stands 1 mm deep.
_AMOUNTS = {"kg m-2": 1.0, "kg/m2": 1.0, "kg m**-2": 1.0, "mm": 1.0, "m": 1000.0, "cm": 10.0}
# Millimetres an hour in one unit of a rate.
_HOUR_S = 3600.0
_RATES = {"kg m-2 s-1": _HOUR_S, "kg m**-2 s**-1": _HOUR_S, "mm s-1": _HOUR_S, "mm/s": _HOUR_S}
_RATES |= {"mm h-1": 1.0, "mm/h": 1.0, "mm/hr": 1.0, "mm hr-1": 1.0, "m s-1": 1000.0 * _HOUR_S}


def scaled(
    reading: Reading, values: FloatArray, unit: str, *, name: str, quantity: str
) -> FloatArray:
    """
    Return values in the house's unit.

    Parameters
    ----------
    reading : Reading
        The file, for faults.
    values : numpy.ndarray
        As stored.
    unit : str
        As the file names it.
    name : str
        Of the variable.
    quantity : str
        Key of `geo.inputs.units.UNITS`.

    Returns
    -------
    numpy.ndarray
        As they are where the unit is unknown, which is written down.
    """
    known = UNITS[quantity].get(_CF_WORDS.get(unit.strip().lower(), unit_named(unit)))
    if known is None:
        _unknown(reading, unit, name, ", ".join(UNITS[quantity]))
        return values
    return values * known.scale + known.offset


def rain_of(
    reading: Reading, values: FloatArray, unit: str, *, name: str, times: pd.DatetimeIndex
) -> FloatArray:
    """
    Return rain of each step in mm, from amounts or from rates.

    Parameters
    ----------
    reading : Reading
        The file, for faults.
    values : numpy.ndarray
        As stored.
    unit : str
        As the file names it.
    name : str
        Of the variable.
    times : pandas.DatetimeIndex
        Of the steps: a rate counts for as long as they are usually apart.

    Returns
    -------
    numpy.ndarray
        As they are where the unit is unknown, which is written down.
    """
    written = unit.strip()
    if written in _AMOUNTS:
        return values * _AMOUNTS[written]
    if written in _RATES:
        steps = np.diff(times.to_numpy()) / np.timedelta64(1, "h")
        hours = float(np.median(steps)) if steps.size else 1.0
        return values * _RATES[written] * hours
    _unknown(reading, unit, name, ", ".join([*_AMOUNTS, *_RATES]))
    return values


def _unknown(reading: Reading, unit: str, name: str, known: str) -> None:
    found = phrase("{unit} is no unit for {heading}", unit=quoted(unit), heading=quoted(name))
    fix = phrase("Write one of: {known}", known=known)
    reading.add(Outcome.STOP, "E-UNIT-MISSING", WHOLE_FILE, found=found, fix=fix)
