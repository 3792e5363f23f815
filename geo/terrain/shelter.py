"""How well is a spot sheltered from wind of each direction?"""

from collections.abc import Iterable, Iterator
from math import hypot

import numpy as np

from geo.arrays import AnyArray, FloatArray, IntArray

CELLS_IN_CACHE = 1 << 15  # our own choice: a few arrays of so many stay near the processor


def upwind_shelter(
    elevation_grid: FloatArray,
    cell: IntArray,
    *,
    cell_width: float,
    cell_height: float,
    wind_from_directions: Iterable[float],
    reach: float,
    half_sector: float,
) -> Iterator[FloatArray]:
    r"""
    Give the steepest angle up to ground upwind of cells, for one direction after the other.

    Parameters
    ----------
    elevation_grid : [m]
        Shape (row, column). NaN where unknown.
    cell : [1]
        Flat index of the cells that matter.
    cell_width, cell_height : [m]
        Size of a cell.
    wind_from_directions : [degree]
        Clockwise from north.
    reach : [m]
        How far upwind to look.
    half_sector : [degree]
        Rays at the middle and at this angle either side are looked along.

    Yields
    ------
    [degree]
        Shape (cell,): positive behind rising ground, negative on exposed ground. NaN where the
        ground is unknown or nothing is known upwind.

    Notes
    -----
    :math:`S_x = \max \arctan\frac{z(x) - z(x_0)}{|x - x_0|}` over upwind cells within the reach
    (winstral2002).
    """
    columns = elevation_grid.shape[1]
    deep, wide = shelter_halo(reach, cell_height), shelter_halo(reach, cell_width)
    # Unknown ground lies lower than any: it shelters nothing.
    ring = np.pad(elevation_grid, ((deep, deep), (wide, wide)), constant_values=np.nan)
    padded = np.nan_to_num(ring, copy=False, nan=-np.inf).ravel()
    stride = columns + 2 * wide
    row, column = np.divmod(cell, columns)
    here = row * stride + column
    height = elevation_grid.ravel()[cell]
    for direction in wind_from_directions:
        steps = [
            # Where a cell's ground is found so far down and right, and how far away it is.
            (
                padded[(deep + down) * stride + wide + right :],
                hypot(down * cell_height, right * cell_width),
            )
            for down, right in _offsets_upwind(
                direction, half_sector, reach=reach, cell=(cell_width, cell_height)
            )
        ]
        steepest: AnyArray = np.full(cell.shape, -np.inf)
        for start in range(0, cell.size, CELLS_IN_CACHE):
            some = slice(start, start + CELLS_IN_CACHE)
            for upwind, length in steps:
                rise = upwind.take(here[some])
                rise -= height[some]
                rise /= length
                np.maximum(steepest[some], rise, out=steepest[some])
        angle = np.degrees(np.arctan(steepest))
        yield np.where(np.isneginf(steepest) | np.isnan(height), np.nan, angle)


def shelter_halo(reach: float, cell_height: float) -> int:
    """
    Return how many rows around a cell its shelter hangs on.

    Parameters
    ----------
    reach : [m]
        How far upwind `upwind_shelter` looks.
    cell_height : [m]
        Size of a cell.

    Returns
    -------
    [1]
        Rows, or columns if given a width.
    """
    return int(reach / cell_height) + 1


def wind_share(
    shelter: FloatArray,
    *,
    share_per_degree: float,
    least_share: float,
    most_share: float,
) -> FloatArray:
    """
    Return how much of the open wind reaches a block.

    Parameters
    ----------
    shelter : [degree]
        As `upwind_shelter` gives it; NaN counts as none.
    share_per_degree : [degree-1]
        Wind lost by each degree of shelter.
    least_share, most_share : [1]
        Bounds of what shelter does.

    Returns
    -------
    [1]
        Same shape.
    """
    behind_ground = np.clip(1.0 - share_per_degree * shelter, least_share, most_share)
    return np.where(np.isnan(shelter), 1.0, behind_ground)


def _offsets_upwind(
    direction: float, half_sector: float, *, reach: float, cell: tuple[float, float]
) -> list[tuple[int, int]]:
    """Return rows down and columns right of each cell on the rays, each once."""
    width, height = cell
    step = min(cell)
    found: dict[tuple[int, int], None] = {}
    for turn in (-half_sector, 0.0, half_sector):
        angle = np.radians(direction + turn)
        # A hair more than the reach, so that its last step is not lost to rounding.
        for distance in np.arange(step, reach * (1.0 + 1e-9), step):  # our own rounding guard
            down = -round(float(distance * np.cos(angle) / height))
            right = round(float(distance * np.sin(angle) / width))
            found[down, right] = None
    found.pop((0, 0), None)
    return list(found)
