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
