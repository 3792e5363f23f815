"""How favourable was each day at each spot, and how favourable has the season been so far?"""

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.infection.panicle_mildew import PanicleMildew, hourly_favourability
from geo.season.days import day_mean

VALUES_AT_ONCE = 1 << 21  # our own choice: some tens of megabytes for the working arrays


def daily_favourability(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    weight_of_rain: FloatArray,
    mildew: PanicleMildew,
    *,
    starts: IntArray,
    values_at_once: int = VALUES_AT_ONCE,
) -> FloatArray:
    """
    Return the mean favourability of each day.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    relative_humidity : [%]
        Same shape.
    weight_of_rain : [1]
        Shape (hour,).
    mildew : PanicleMildew
        Sizes.
    starts : [1]
        First hour of each day, shape (day,).
    values_at_once : [1]
        Spots are taken in groups of about so many hours, so that memory stays bounded; the
        result does not depend on it.

    Returns
    -------
    [1]
        Shape (spot, day).
    """
    spots, hours = air_temperature.shape
    daily = np.empty((spots, starts.size))
    step = max(1, values_at_once // hours)
    for first in range(0, spots, step):
        group = slice(first, first + step)
        hourly = hourly_favourability(
            air_temperature[group], relative_humidity[group], weight_of_rain, mildew
        )
        daily[group] = day_mean(hourly, starts)
    return daily


def season_mean(daily: FloatArray, *, today: int) -> FloatArray:
    """
    Return the mean of the days up to today, today included.

    Parameters
    ----------
    daily : [1]
        Shape (..., day). NaN for a day that is not known.
    today : [1]
        Place of today among the days.

    Returns
    -------
    [1]
        Shape (...): the mean of the known days, NaN where none is.

    Examples
    --------
    >>> season_mean(np.array([0.2, np.nan, 0.4, 0.9]), today=2).round(2).item()
    0.3
    """
    so_far = daily[..., : today + 1]
    is_known = np.isfinite(so_far)
    count = is_known.sum(axis=-1)
    total = np.where(is_known, so_far, 0.0).sum(axis=-1)
    mean: FloatArray = np.divide(total, count, out=np.full(count.shape, np.nan), where=count > 0)
    return mean
