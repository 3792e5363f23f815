"""How high is the ground around a spot?"""

from math import pi, sqrt

import numpy as np
from scipy.ndimage import uniform_filter

from geo.arrays import FloatArray

# In cells squared, added to the spread of known ground: far below any spread there can be, so
# that ground known along one line only tells the slope along it and none across.
NO_SPREAD = 1e-6


def mean_around(
    elevation_grid: FloatArray, *, cell_width: float, cell_height: float, radius: float
) -> FloatArray:
    r"""
    Return the mean ground around each cell.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.
    radius : [m]
        How far "around" reaches. A square with the area of that circle is used.

    Returns
    -------
    [m]
        Same shape. NaN where nothing is known around.

    Notes
    -----
    Where part of the surroundings is unknown, or off the grid, a bare mean of the rest would make
    a pool at the low end of every plane. So the result is the value at the cell of the plane
    fitted by least squares to what is known around it, :math:`\bar z + g \cdot (x - \bar x)`.
    Where all is known around, that is the mean. The law: a plane is its own mean, up to its
    edges.
    """
    side = sqrt(pi) * radius
    size = tuple(2 * int(side / cell / 2) + 1 for cell in (cell_height, cell_width))
    known = ~np.isnan(elevation_grid)
    # Centred so that a running sum over high ground loses no digits; on a height that occurs,
    # which is the ground itself where all of it is level: then the mean is exact, not nearly so.
    datum = float(np.median(elevation_grid[known])) if known.any() else 0.0
    weight = known.astype(np.float64)
    height = np.where(known, elevation_grid - datum, 0.0)
    row, column = (np.arange(length) - (length - 1) / 2.0 for length in height.shape)
    places = (row[:, None] + np.zeros_like(height), column[None, :] + np.zeros_like(height))

    def share_of(field: FloatArray) -> FloatArray:
        filtered: FloatArray = uniform_filter(field, size, mode="constant")
        return filtered

    share = share_of(weight)
    share[np.rint(share * size[0] * size[1]) == 0] = np.nan  # a running sum leaves a trace

    def mean_of(field: FloatArray) -> FloatArray:
        return share_of(weight * field) / share

    mean = mean_of(height)
    centre = [mean_of(place) for place in places]
    tilt = [
        mean_of(height * place) - middle * mean
        for place, middle in zip(places, centre, strict=True)
    ]
    spread = [
        mean_of(place**2) - middle**2 + NO_SPREAD
        for place, middle in zip(places, centre, strict=True)
    ]
    both = mean_of(places[0] * places[1]) - centre[0] * centre[1]
    scale = spread[0] * spread[1] - both**2
    slopes = (
        (tilt[0] * spread[1] - tilt[1] * both) / scale,
        (tilt[1] * spread[0] - tilt[0] * both) / scale,
    )
    away = [place - middle for place, middle in zip(places, centre, strict=True)]
    plane: FloatArray = datum + mean + slopes[0] * away[0] + slopes[1] * away[1]
    return plane


def topographic_position(
    elevation_grid: FloatArray, *, cell_width: float, cell_height: float, radius: float
) -> FloatArray:
    """
    Return how far each cell stands out of its surroundings.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.
    radius : [m]
        How far the surroundings reach.

    Returns
    -------
    [m]
        Same shape: the topographic position index (weiss2001), positive on ridges and negative
        in hollows. NaN where the ground is unknown.
    """
    around = mean_around(
        elevation_grid, cell_width=cell_width, cell_height=cell_height, radius=radius
    )
    return elevation_grid - around
