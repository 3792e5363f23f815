"""Is the air fit for spraying: its wind, its Delta T, and no lid of warm air above it?"""

import numpy as np

from geo.arrays import BoolArray, FloatArray
from geo.season.sectors import sector_of


def wind_at_blocks(
    wind_speed: FloatArray, wind_from_direction: FloatArray, wind_share: FloatArray
) -> FloatArray:
    """
    Return the wind of each block and hour, behind its shelter.

    Parameters
    ----------
    wind_speed : [m s-1]
        Station, shape (hour,).
    wind_from_direction : [degree]
        Station, shape (hour,), NaN where unknown.
    wind_share : [1]
        Shape (block, sector): what is left of wind from each sector.

    Returns
    -------
    [m s-1]
        Shape (block, hour). Wind of unknown direction is weakened by the mean over all sectors.
    """
    share = np.column_stack([wind_share, wind_share.mean(axis=1)])
    at_block: FloatArray = share[:, sector_of(wind_from_direction)] * wind_speed[None, :]
    return at_block


def hours_in_sun(solar_elevation: FloatArray) -> FloatArray:
    """
    Return how far each hour lies from darkness.

    Parameters
    ----------
    solar_elevation : [degree]
        Sun above the horizon at mid-hour, shape (hour,), of whole days.

    Returns
    -------
    [h]
        Shape (hour,): whole sunny hours between it and the nearer of sunrise and sunset; 0 in
        the first and the last sunny hour and in the dark.

    Examples
    --------
    >>> hours_in_sun(np.array([-5.0, 5.0, 40.0, 60.0, 40.0, 5.0, -5.0])).tolist()
    [0.0, 0.0, 1.0, 2.0, 1.0, 0.0, 0.0]
    """
    is_dark = ~(solar_elevation > 0.0)
    place = np.arange(solar_elevation.size)
    before = np.maximum.accumulate(np.where(is_dark, place, -1))
    after = np.minimum.accumulate(np.where(is_dark, place, place.size)[::-1])[::-1]
    return np.where(is_dark, 0.0, np.minimum(place - before, after - place) - 1.0)


def may_be_inverted(
    sunny_hours: FloatArray,
    cloud_cover: FloatArray,
    wind: FloatArray,
    *,
    limits: tuple[float, float, float],
) -> BoolArray:
    """
    Return in which hours warm air may lie on cool air, so that drops hang and wander.

    Parameters
    ----------
    sunny_hours : [h]
        As from `hours_in_sun`, shape (hour,).
    cloud_cover : [1]
        Shape (hour,), NaN where unknown.
    wind : [m s-1]
        Shape (block, hour).
    limits : tuple of float
        Hours in the sun [h], cloud [1] and wind [m s-1] at which there is none.

    Returns
    -------
    [1]
        Shape (block, hour): near or in darkness, unless cloud and wind are both known to mix the
        air. A forecast alone cannot prove that there is no inversion.
    """
    sun, cloud, calm = limits
    is_mixed = (cloud_cover[None, :] > cloud) & (wind >= calm)
    is_inverted: BoolArray = ~(sunny_hours >= sun)[None, :] & ~is_mixed
    return is_inverted
