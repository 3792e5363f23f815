"""From which side does wind come? Sectors named by their middle, the first around north."""

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.texts import mark

SECTORS = 16  # as a compass card has named points
# From north clockwise; each stands for two of the sectors.
COMPASS_POINTS = (
    mark("north"),
    mark("north-east"),
    mark("east"),
    mark("south-east"),
    mark("south"),
    mark("south-west"),
    mark("west"),
    mark("north-west"),
)
FULL_CIRCLE_DEGREES = 360.0  # by definition


def sector_directions() -> FloatArray:
    """
    Return where the wind of each sector comes from.

    Returns
    -------
    [degree]
        Shape (sector,), clockwise from north.
    """
    return np.arange(SECTORS, dtype=np.float64) * (FULL_CIRCLE_DEGREES / SECTORS)


def sector_of(direction: FloatArray) -> IntArray:
    """
    Return the sector that a direction lies in.

    Parameters
    ----------
    direction : [degree]
        Any shape, clockwise from north. NaN where unknown.

    Returns
    -------
    [1]
        Same shape; `SECTORS`, one more than the last, where it is not known.

    Examples
    --------
    >>> sector_of(np.array([350.0, 11.0, 12.0, 90.0, np.nan])).tolist()
    [0, 0, 1, 4, 16]
    """
    is_known = ~np.isnan(direction)
    turned = np.where(is_known, direction, 0.0) / (FULL_CIRCLE_DEGREES / SECTORS)
    return np.where(is_known, np.floor(turned + 0.5) % SECTORS, SECTORS).astype(np.int64)
