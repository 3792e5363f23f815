"""How high is the ground around a spot, and how far does the spot stand out of it?"""

from math import pi, sqrt

import numpy as np
from scipy.ndimage import uniform_filter

from geo.arrays import AnyArray, FloatArray

MOST_SAMPLES = 50_000  # cells that the datum is taken from: it only has to be near the ground
# In cells squared, added to the spread of known ground: far below any spread there can be.
NO_SPREAD = 1e-6


def window_half(*, cell_width: float, cell_height: float, radius: float) -> tuple[int, int]:
    """
    Return how many rows and columns of cells "around" reaches to each side.

    Parameters
    ----------
    cell_width, cell_height : [m]
        Size of a cell.
    radius : [m]
        How far "around" reaches. A square with the area of that circle is used.

    Returns
    -------
    [1]
        Rows up and down, columns left and right.
    """
    side = sqrt(pi) * radius
    return int(side / cell_height / 2), int(side / cell_width / 2)


def mean_around(
    elevation_grid: FloatArray, *, cell_width: float, cell_height: float, radius: float
) -> FloatArray:
    r"""
    Return the mean ground around each cell.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown. 32-bit numbers are worked on as such.
    cell_width, cell_height : [m]
        Size of a cell.
    radius : [m]
        How far "around" reaches.

    Returns
    -------
    [m]
        Same shape. NaN where nothing is known around.

    Notes
    -----
    Where part of the surroundings is unknown, or off the grid, a bare mean of the rest would
    make a pool at the low end of every plane. So the result is the value at the cell of the
    plane fitted by least squares to what is known around it:
    :math:`\bar z + g \cdot (x - \bar x)`. Where all is known around, that is the mean.
    """
    half = window_half(cell_width=cell_width, cell_height=cell_height, radius=radius)
    height, datum = _centred(elevation_grid)
    return _mean(height, half) + datum


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
        Same shape: the topographic position index (weiss2001), positive on ridges. NaN where
        the ground is unknown, and everywhere if cells are so large that one is all there is
        around.
    """
    half = window_half(cell_width=cell_width, cell_height=cell_height, radius=radius)
    if half == (0, 0):
        return np.full_like(elevation_grid, np.nan)
    height, _ = _centred(elevation_grid)
    index = _mean(height, half)
    return np.subtract(height, index, out=index)


def _centred(elevation_grid: FloatArray) -> tuple[FloatArray, AnyArray]:
    # Centred so that a running sum over high ground loses no digits; on a height that occurs,
    # which is the ground itself where all of it is level: then the mean is exact, not nearly so.
    sample = elevation_grid.ravel()[:: max(1, elevation_grid.size // MOST_SAMPLES)]
    known = sample[~np.isnan(sample)]
    if known.size == 0:
        known = elevation_grid[~np.isnan(elevation_grid)]
    datum = np.sort(known)[known.size // 2] if known.size else np.zeros((), elevation_grid.dtype)
    height: FloatArray = elevation_grid - datum
    return height, datum


def _mean(height: FloatArray, half: tuple[int, int]) -> FloatArray:
    if height.size == 0 or np.isfinite(np.min(height)):  # the least of all is NaN if one is
        return _complete(height, half)
    return _with_gaps(height, half)


def _complete(height: FloatArray, half: tuple[int, int]) -> FloatArray:
    size = (2 * half[0] + 1, 2 * half[1] + 1)
    mean: FloatArray = uniform_filter(height, size, mode="constant")
    counts = [_count(length, reach) for length, reach in zip(height.shape, half, strict=True)]
    for axis in (0, 1):
        share = (size[axis] / counts[axis]).astype(height.dtype)
        is_cut = np.flatnonzero(counts[axis] < size[axis])
        if axis == 0:
            mean[is_cut] *= share[is_cut, None]
        else:
            mean[:, is_cut] *= share[is_cut]
    down = _tilt(mean, height, half, counts[1])
    right = _tilt(mean.T, height.T, half[::-1], counts[0])
    for rows, correction in down:
        mean[rows] += correction
    for columns, correction in right:
        mean[:, columns] += correction.T
    return mean


def _count(length: int, reach: int) -> AnyArray:
    """Return how many of the cells around each lie on the grid, along one axis."""
    cell = np.arange(length)
    return np.minimum(cell + reach, length - 1) - np.maximum(cell - reach, 0) + 1


def _tilt(
    mean: FloatArray, height: FloatArray, half: tuple[int, int], across: AnyArray
) -> list[tuple[slice, AnyArray]]:
    """Return what carries the mean of windows cut short at the first and last rows to the cell."""
    rows, reach = len(height), half[0]
    if reach == 0 or rows == 1:
        return []
    ends = [(0, rows, 0, rows)]
    if rows > 2 * reach:
        ends = [(0, reach, 0, 2 * reach), (rows - reach, rows, rows - 2 * reach, rows)]
    found = []
    for first, last, start, stop in ends:
        here = np.arange(first, last)
        low, high = np.maximum(here - reach, 0), np.minimum(here + reach, rows - 1)
        count, middle = high - low + 1, (low + high) / 2.0
        # Rows counted from the middle of the strip, so that 32-bit numbers do.
        datum = (start + stop) / 2.0
        place = (np.arange(start, stop) - datum).astype(height.dtype)[:, None]
        size = (2 * reach + 1, 2 * half[1] + 1)
        moment = uniform_filter(height[start:stop] * place, size, mode="constant")
        # Variance of the whole numbers 1 to n about their mean: (n^2 - 1) / 12.
        spread = (count**2 - 1.0) / 12.0
        carry = ((here - middle) / spread).astype(height.dtype)[:, None]
        whole = (size[0] * size[1] / count[:, None] / across).astype(height.dtype)
        centre = (middle - datum).astype(height.dtype)[:, None]
        moment = moment[first - start : last - start] * whole - centre * mean[first:last]
        found.append((slice(first, last), carry * moment))
    return found


def _with_gaps(height: FloatArray, half: tuple[int, int]) -> FloatArray:
    size = (2 * half[0] + 1, 2 * half[1] + 1)
    weight = (~np.isnan(height)).astype(np.float64)
    height = np.nan_to_num(height)
    row, column = (
        np.arange(length) - (length - 1) / 2.0 for length in height.shape
    )  # centred, so that squares stay small
    row, column = row[:, None], column[None, :]

    def total(field: AnyArray) -> AnyArray:
        filtered: AnyArray = uniform_filter(field, size, mode="constant", output=np.float64)
        return filtered

    share = total(weight)
    nothing = np.rint(share * size[0] * size[1]) == 0  # a running sum leaves a trace
    share[nothing] = np.nan
    mean = total(height) / share
    centre = [total(weight * place) / share for place in (row, column)]
    tilt = [total(height * place) / share for place in (row, column)]
    for axis in (0, 1):
        tilt[axis] -= centre[axis] * mean
    spread = [
        total(weight * first * second) / share - centre[one] * centre[other]
        for one, first, other, second in ((0, row, 0, row), (1, column, 1, column))
    ]
    both = total(weight * row * column) / share - centre[0] * centre[1]
    # A little spread added on both axes: known ground along a line tells the slope along it only.
    spread = [one + NO_SPREAD for one in spread]
    scale = spread[0] * spread[1] - both**2
    along = (tilt[0] * spread[1] - tilt[1] * both) / scale
    across = (tilt[1] * spread[0] - tilt[0] * both) / scale
    plane: FloatArray = mean + along * (row - centre[0]) + across * (column - centre[1])
    return plane.astype(height.dtype)
