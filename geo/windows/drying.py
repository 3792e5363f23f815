"""Are the leaves dry, and will the spray dry on them before rain or dew?"""

import numpy as np

from geo.arrays import BoolArray, FloatArray


def are_leaves_wet(
    relative_humidity: FloatArray, precipitation: FloatArray, *, humidity: float, trace: float
) -> FloatArray:
    """
    Return whether leaves are wet.

    Parameters
    ----------
    relative_humidity : [%]
        Shape (block, hour).
    precipitation : [mm]
        Shape (hour,).
    humidity : [%]
        Wet at or above it (sentelhas2008).
    trace : [mm]
        Least rain that wets them.

    Returns
    -------
    [1]
        Shape (block, hour): 1 wet, 0 dry, NaN where neither is known.
    """
    is_wet = (relative_humidity >= humidity) | (precipitation >= trace)
    is_unknown = np.isnan(relative_humidity) | np.isnan(precipitation)
    return np.where(is_wet, 1.0, np.where(is_unknown, np.nan, 0.0))


def dry_hours_ahead(is_wet: FloatArray) -> FloatArray:
    """
    Return how many hours it stays dry once an hour is over.

    Parameters
    ----------
    is_wet : [1]
        Shape (block or 1, hour): 1 wet, 0 dry, NaN unknown.

    Returns
    -------
    [h]
        Same shape. An unknown hour, and the end of the forecast, end what is known to be dry.

    Examples
    --------
    >>> dry_hours_ahead(np.array([[0.0, 0.0, 1.0, 0.0]])).tolist()
    [[1.0, 0.0, 1.0, 0.0]]
    """
    hour_count = is_wet.shape[1]
    place = np.arange(hour_count)
    is_dry: BoolArray = is_wet == 0.0
    ends = np.where(is_dry, hour_count, place)
    next_end = np.minimum.accumulate(ends[:, ::-1], axis=1)[:, ::-1]
    after = np.concatenate([next_end[:, 1:], np.full((is_wet.shape[0], 1), hour_count)], axis=1)
    ahead: FloatArray = (after - place - 1.0).astype(np.float64)
    return ahead
