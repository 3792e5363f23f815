"""From which side does wind come? Sectors named by their middle, the first around north."""

import numpy as np

from geo.arrays import FloatArray

SECTORS = 16  # as a compass card has named points
# From north clockwise; each stands for two of the sectors.
COMPASS_POINTS = (
    "north",
    "north-east",
    "east",
    "south-east",
    "south",
    "south-west",
    "west",
    "north-west",
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
