"""Which hour of the last measured night was the coolest?"""

import numpy as np

from geo.arrays import FloatArray


def last_night_hour(
    air_temperature: FloatArray, solar_elevation: FloatArray, is_forecast: FloatArray
) -> int:
    """
    Return the coolest hour of the last measured night.

    Parameters
    ----------
    air_temperature : [degC]
        Station, shape (hour,).
    solar_elevation : [degree]
        Shape (hour,). Night is the hours with the sun below the horizon.
    is_forecast : [1]
        Shape (hour,).

    Returns
    -------
    [1]
        Its place among the hours, -1 where no night was measured. A night that has not ended
        counts as the last one from its first measured hour on.

    Examples
    --------
    >>> sun = np.array([-9.0, 9.0, -9.0, -9.0, 9.0, -9.0])
    >>> last_night_hour(np.array([7.0, 20.0, 9.0, 8.0, 21.0, 5.0]), sun, np.eye(6)[5])
    3
    """
    is_night = (solar_elevation < 0) & (is_forecast == 0) & np.isfinite(air_temperature)
    hours = np.flatnonzero(is_night)
    if not hours.size:
        return -1
    # Hours that follow one another are one night.
    night = np.cumsum(np.diff(hours, prepend=hours[0]) > 1)
    last = hours[night == night[-1]]
    return int(last[np.argmin(air_temperature[last])])
