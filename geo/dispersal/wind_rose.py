"""From which side did the wind come in the hours in which spores fly?"""

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.season.sectors import SECTORS, sector_of


def sector_weights(
    wind_from_direction: FloatArray,
    precipitation: FloatArray,
    *,
    starts: IntArray,
    first_hour: float,
    last_hour: float,
) -> FloatArray:
    """
    Return the weight of each sector of the wind on each day.

    Parameters
    ----------
    wind_from_direction : [degree]
        Shape (hour,), clockwise from north. NaN where unknown or calm.
    precipitation : [mm]
        Shape (hour,). In rain no spores fly.
    starts : [1]
        First hour of each local day, shape (day,).
    first_hour, last_hour : [h]
        Of the local day: when the flight of spores begins and ends.

    Returns
    -------
    [1]
        Shape (day, sector), mean 1 on each day: sectors count by their hours. 1 all round on a
        day without a known hour.

    Examples
    --------
    >>> noon = np.full(24, np.nan)
    >>> noon[11:15] = 0.0
    >>> weights = sector_weights(
    ...     noon, np.zeros(24), starts=np.array([0]), first_hour=11.0, last_hour=16.0
    ... )
    >>> weights[0, :3].tolist()
    [16.0, 0.0, 0.0]
    """
    hours, days = wind_from_direction.size, starts.size
    day = np.searchsorted(starts, np.arange(hours), side="right") - 1
    of_day = np.arange(hours) - starts[day]
    flies = (of_day >= first_hour) & (of_day < last_hour) & ~(precipitation > 0)
    flies &= np.isfinite(wind_from_direction)
    place = day[flies] * SECTORS + sector_of(wind_from_direction[flies])
    count = np.bincount(place, minlength=days * SECTORS).reshape(days, SECTORS).astype(float)
    total = count.sum(axis=1, keepdims=True)
    even = np.ones_like(count)
    weights: FloatArray = np.divide(count * SECTORS, total, out=even, where=total > 0)
    return weights
