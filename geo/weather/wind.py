"""How much wind does a block get, behind whatever shelters it from each side?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.season.days import day_extremes, day_mean
from geo.season.sectors import SECTORS, sector_of


@dataclass(frozen=True, slots=True)
class WindBySide:
    """
    The station's wind of each day, by the side it came from.

    Attributes
    ----------
    mean : numpy.ndarray
        [m s-1] Shape (side, day): what each side gave to the day's mean.
    highest : numpy.ndarray
        [m s-1] Shape (side, day): its strongest hour, 0 if it had none.
    """

    mean: FloatArray
    highest: FloatArray


def wind_by_side(
    wind_speed: FloatArray, wind_from_direction: FloatArray, starts: IntArray
) -> WindBySide:
    """
    Return each day's wind by the side it came from.

    Parameters
    ----------
    wind_speed : [m s-1]
        Station, shape (hour,).
    wind_from_direction : [degree]
        Station, shape (hour,), NaN where unknown.
    starts : [1]
        First hour of each day.

    Returns
    -------
    WindBySide
        Sixteen sectors, the first around north, and last the hours of unknown direction.

    Examples
    --------
    >>> day = wind_by_side(np.array([2.0, 4.0]), np.array([350.0, np.nan]), np.array([0]))
    >>> day.mean[:, 0].tolist()[0], day.mean[:, 0].tolist()[-1]
    (1.0, 2.0)
    """
    side = sector_of(wind_from_direction)
    from_side = np.where(side == np.arange(SECTORS + 1)[:, None], wind_speed, 0.0)
    return WindBySide(day_mean(from_side, starts), day_extremes(from_side, starts)[1])


def wind_at_blocks(wind: WindBySide, wind_share: FloatArray) -> tuple[FloatArray, FloatArray]:
    """
    Return each day's wind at each block, without ever making blocks times hours.

    Parameters
    ----------
    wind : WindBySide
        Of the station.
    wind_share : [1]
        Shape (block, sector): what is left of wind from each sector.

    Returns
    -------
    [m s-1]
        Mean of the day, shape (block, day). Wind of unknown direction is weakened by the mean
        over all sectors.
    [m s-1]
        Strongest hour, same shape.
    """
    share = np.column_stack([wind_share, wind_share.mean(axis=1)])
    mean: FloatArray = share @ wind.mean
    highest = np.zeros_like(mean)
    for of_side, strongest in zip(share.T, wind.highest, strict=True):
        highest = np.maximum(highest, of_side[:, None] * strongest[None, :])
    return mean, highest
