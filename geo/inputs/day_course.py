"""What does the course of the days beside a gap tell of the hours in it?"""

import numpy as np

from geo.arrays import FloatArray

_DAY = 24  # hours


def day_course(values: FloatArray, start: int, end: int) -> FloatArray:
    """
    Return a gap filled by the mean course of the day before and the day after.

    Parameters
    ----------
    values : [1]
        By hour, NaN where unknown; known on both sides of the gap.
    start, end : int
        The gap's first hour, and the one after its last.

    Returns
    -------
    [1]
        One value an hour: the course of both days, or of the one that is known, bent so that it
        meets the values on both sides. NaN where neither day is known.

    Examples
    --------
    >>> days = np.tile(np.arange(24.0), 3)
    >>> day_course(days, 30, 33) - days[30:33]
    array([0., 0., 0.])
    """
    hours = np.arange(start - 1, end + 1)
    beside = np.stack([_at(values, hours - _DAY), _at(values, hours + _DAY)])
    count = (~np.isnan(beside)).sum(axis=0)
    course = np.where(count > 0, np.nansum(beside, axis=0) / np.maximum(count, 1), np.nan)
    before, after = values[[start - 1, end]] - course[[0, -1]]
    share = np.arange(1, end - start + 1) / (end - start + 1)
    filled: FloatArray = course[1:-1] + before + (after - before) * share
    return filled


def _at(values: FloatArray, hours: np.ndarray) -> FloatArray:
    is_there = (hours >= 0) & (hours < values.size)
    return np.where(is_there, values[np.clip(hours, 0, values.size - 1)], np.nan)
