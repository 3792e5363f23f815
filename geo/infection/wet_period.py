"""How long has each spot been wet, and how warm was it meanwhile?"""

import numpy as np

from geo.arrays import FloatArray
from geo.infection.anthracnose_parameters import Anthracnose
from geo.infection.temperature_response import response_yan1999

SUMS = ("weighted hours", "wet hours", "warmth of wet hours")


def wet_share(
    relative_humidity: FloatArray, precipitation: FloatArray, anthracnose: Anthracnose
) -> FloatArray:
    """
    Return which hours are wet.

    Parameters
    ----------
    relative_humidity : [%]
        Shape (spot, hour).
    precipitation : [mm]
        Shape (hour,).
    anthracnose : Anthracnose
        Humidity from which on an hour is wet.

    Returns
    -------
    [1]
        Shape (spot, hour): 1 in rain or damp air, else 0; NaN where that is unknown.
    """
    is_damp = relative_humidity >= anthracnose.wet_humidity
    wet = np.where(np.isnan(relative_humidity), np.nan, is_damp)
    return np.where(precipitation > 0.0, 1.0, wet)


def hourly_sums(
    air_temperature: FloatArray, wet: FloatArray, anthracnose: Anthracnose
) -> FloatArray:
    """
    Return what each hour adds to the sums of its wet period.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    wet : [1]
        As `wet_share` gives it.
    anthracnose : Anthracnose
        Cardinal temperatures.

    Returns
    -------
    [any]
        Shape (hour, sum, spot), the sums in the order of `SUMS`: wet hours weighted by the
        response to temperature (1 at the optimum), wet hours, and their temperatures added up.
        A dry hour adds 0 whatever its temperature.
    """
    response = response_yan1999(
        air_temperature,
        minimum=anthracnose.temperature_minimum,
        optimum=anthracnose.temperature_optimum,
        maximum=anthracnose.temperature_maximum,
    )
    is_dry = wet == 0.0
    added = np.empty((wet.shape[1], len(SUMS), wet.shape[0]))
    for place, kind in enumerate((response, np.ones_like(response), air_temperature)):
        added[:, place] = np.where(is_dry, 0.0, wet * kind).T
    return added


def running_sums(
    added: FloatArray,
    is_dry: FloatArray,
    anthracnose: Anthracnose,
    *,
    sums: FloatArray,
    dry_hours: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    """
    Return the sums of each wet period up to each hour.

    Parameters
    ----------
    added : [any]
        As `hourly_sums` gives it, shape (hour, sum, spot).
    is_dry : [1]
        Shape (hour, spot): 1 where it is known to be dry.
    anthracnose : Anthracnose
        Longest dry gap within a wet period.
    sums : [any]
        Of the hour before the first, shape (sum, spot).
    dry_hours : [h]
        Dry hours in a row up to then, shape (spot,).

    Returns
    -------
    [any]
        Shape (hour, sum, spot). A short dry gap holds the sums, a longer one ends the period and
        sets them to 0. An unknown hour leaves them unknown until such a gap.
    [h]
        Dry hours in a row at the end, shape (spot,).
    """
    running = np.empty_like(added)
    for hour in range(added.shape[0]):
        dry_hours = (dry_hours + 1.0) * is_dry[hour]
        sums = np.where(dry_hours > anthracnose.wet_gap_hours, 0.0, sums + added[hour])
        running[hour] = sums
    return running, dry_hours
