"""From hours to local days."""

import numpy as np

from geo.arrays import FloatArray, IntArray


def day_starts(hour_day: IntArray) -> IntArray:
    """
    Return the first hour of each local day.

    Parameters
    ----------
    hour_day : [1]
        Day index of each hour, never falling, each day present.

    Returns
    -------
    [1]
        Shape (day,).

    Examples
    --------
    >>> day_starts(np.array([0, 0, 1, 1, 1, 2])).tolist()
    [0, 2, 5]
    """
    return np.flatnonzero(np.diff(hour_day, prepend=-1))


def day_noons(hour_day: IntArray) -> FloatArray:
    """
    Return the middle of each local day.

    Parameters
    ----------
    hour_day : [1]
        Day index of each hour.

    Returns
    -------
    [h]
        Shape (day,), since the first hour.

    Examples
    --------
    >>> day_noons(np.array([0, 0, 1, 1, 1, 1])).tolist()
    [1.0, 4.0]
    """
    first = day_starts(hour_day)
    noon: FloatArray = first + np.diff(first, append=hour_day.size) / 2.0
    return noon


def day_of_size(hour_day: IntArray, hour: FloatArray) -> IntArray:
    """
    Return the day whose size an organ has at a time: sizes are those of noon.

    Parameters
    ----------
    hour_day : [1]
        Day index of each hour.
    hour : [h]
        Since the first hour.

    Returns
    -------
    [1]
        Same shape as ``hour``: the day of the next noon, or the last day there is.

    Examples
    --------
    >>> day_of_size(np.repeat([0, 1], 24), np.array([11.0, 13.0, 47.0])).tolist()
    [0, 1, 1]
    """
    noon = day_noons(hour_day)
    return np.clip(np.searchsorted(noon, hour), 0, noon.size - 1)


def day_sum(hourly: FloatArray, starts: IntArray) -> FloatArray:
    """
    Return the sum of each day.

    Parameters
    ----------
    hourly : [any]
        Shape (..., hour).
    starts : [1]
        As `day_starts` gives them.

    Returns
    -------
    [any]
        Shape (..., day).
    """
    total: FloatArray = np.add.reduceat(hourly, starts, axis=-1)
    return total


def day_mean(hourly: FloatArray, starts: IntArray) -> FloatArray:
    """
    Return the mean of each day, of 23, 24 or 25 hours.

    Parameters
    ----------
    hourly : [any]
        Shape (..., hour).
    starts : [1]
        As `day_starts` gives them.

    Returns
    -------
    [any]
        Shape (..., day).
    """
    hours = np.diff(starts, append=hourly.shape[-1])
    return day_sum(hourly, starts) / hours


def day_extremes(hourly: FloatArray, starts: IntArray) -> tuple[FloatArray, FloatArray]:
    """
    Return the lowest and the highest hour of each day.

    Parameters
    ----------
    hourly : [any]
        Shape (..., hour).
    starts : [1]
        As `day_starts` gives them.

    Returns
    -------
    [any]
        Lowest, shape (..., day).
    [any]
        Highest, shape (..., day).
    """
    lowest: FloatArray = np.minimum.reduceat(hourly, starts, axis=-1)
    highest: FloatArray = np.maximum.reduceat(hourly, starts, axis=-1)
    return lowest, highest
