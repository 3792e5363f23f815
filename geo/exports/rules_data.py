"""What rival rules say, beside what we say: readings, orders and how far these agree."""

from dataclasses import dataclass

import numpy as np
import xarray as xr
from scipy.stats import kendalltau, rankdata

from geo.arrays import FloatArray
from geo.rules import RIVALS
from geo.season.today import today_index

FAVOURABILITY, HAZARD = "our favourability", "our hazard"


@dataclass(frozen=True, slots=True)
class Reading:
    """
    One column of the comparison: ours, or a rival's.

    Attributes
    ----------
    key : str
        ``our favourability``, ``our hazard`` or the rival's key.
    by_day : ndarray
        [any] Shape (block, day).
    """

    key: str
    by_day: FloatArray


def our_own(season: xr.Dataset) -> dict[str, FloatArray]:
    """
    Return what rivals are compared with: the one place that knows our own variables.

    Parameters
    ----------
    season : xarray.Dataset
        Of the disease that the settings choose.

    Returns
    -------
    dict of str to ndarray
        [1] Favourability of the weather, and hazard index; each of shape (block, day).
    """
    return {
        FAVOURABILITY: season["favourability"].values,
        HAZARD: season["hazard"].values,
    }


def readings(season: xr.Dataset) -> tuple[Reading, ...]:
    """
    Return all columns of the comparison, ours first.

    Parameters
    ----------
    season : xarray.Dataset
        With ``rule_reading``.

    Returns
    -------
    tuple of Reading
        Our two, then the rivals in their own order.
    """
    ours = [Reading(key, by_day) for key, by_day in our_own(season).items()]
    rivals = [
        Reading(rival.key, season["rule_reading"].sel(rule=rival.key).values) for rival in RIVALS
    ]
    return (*ours, *rivals)


def today_of_readings(season: xr.Dataset) -> dict[str, FloatArray]:
    """
    Return today's readings of all blocks.

    Parameters
    ----------
    season : xarray.Dataset
        With ``rule_reading``.

    Returns
    -------
    dict of str to ndarray
        [any] Shape (block,), by column.
    """
    today = today_index(season)
    return {reading.key: reading.by_day[:, today] for reading in readings(season)}


def season_so_far(season: xr.Dataset) -> dict[str, FloatArray]:
    """
    Return the mean of each column from the first day to today.

    Parameters
    ----------
    season : xarray.Dataset
        With ``rule_reading``.

    Returns
    -------
    dict of str to ndarray
        [any] Shape (block,), by column; NaN where any of the days is not known.
    """
    until = today_index(season) + 1
    return {reading.key: reading.by_day[:, :until].mean(axis=1) for reading in readings(season)}


def ranks(reading: FloatArray) -> list[int | None]:
    """
    Return the order a column gives, highest first; equal blocks share the better place.

    Parameters
    ----------
    reading : ndarray
        [any] Shape (block,).

    Returns
    -------
    list of int or None
        From 1; None where the reading is not known or gives no order.

    Examples
    --------
    >>> ranks(np.array([2.0, 9.0, np.nan, 2.0]))
    [2, 1, None, 2]
    """
    is_known = ~np.isnan(reading)
    known = _rounded(reading[is_known])
    if np.unique(known).size <= 1:
        return [None] * reading.size
    places = iter(rankdata(-known, method="min").astype(int).tolist())
    return [next(places) if known else None for known in is_known.tolist()]


def agreement(one: FloatArray, other: FloatArray) -> float | None:
    """
    Return how far two columns order the blocks alike.

    Parameters
    ----------
    one, other : ndarray
        [any] Shape (block,).

    Returns
    -------
    float or None
        Kendall's tau-b over the blocks known to both: 1 the same order, 0 no relation, -1 the
        reverse. None where either calls all blocks equal, or fewer than two are known.

    Examples
    --------
    >>> agreement(np.array([1.0, 2.0, 3.0]), np.array([2.0, 4.0, 9.0]))
    1.0
    >>> agreement(np.array([1.0, 2.0, 3.0]), np.array([5.0, 5.0, 5.0])) is None
    True
    """
    is_known = ~np.isnan(one + other)
    known = [_rounded(column[is_known]) for column in (one, other)]
    if any(np.unique(column).size <= 1 for column in known):
        return None
    return float(kendalltau(*known).statistic)


def _rounded(reading: FloatArray) -> FloatArray:
    """Return readings in which the last digits of equal ones do not differ."""
    rounded: FloatArray = np.round(reading, 9)
    return rounded
