"""Which cells of a file lie around the farm, and what are they on a grid of its own?"""

from dataclasses import dataclass

import numpy as np
import rasterio
from pyproj import CRS, Transformer
from rasterio.warp import Resampling, reproject
from rasterio.windows import Window

from geo.arrays import FloatArray

Bounds = tuple[float, float, float, float]
_RIGHT_ANGLE = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])
# Points on each side of a rectangle whose sides are bent on another map (our choice).
POINTS_A_SIDE = 21
ROOM_CELLS = 2  # straight lines between cells reach one further


@dataclass(frozen=True, slots=True)
class Cells:
    """
    Some of a file's own cells.

    Attributes
    ----------
    heights : numpy.ndarray
        m, NaN where unknown.
    transform : affine.Affine
        From column and row to the file's system.
    to_farm : pyproj.Transformer
        From there to the farm's.
    """

    heights: FloatArray
    transform: rasterio.Affine
    to_farm: Transformer

    def locate(self, column: FloatArray, row: FloatArray) -> tuple[FloatArray, FloatArray]:
        """
        Return where places on the grid are.

        Parameters
        ----------
        column, row : numpy.ndarray
            In cells from the outer corner of the first.

        Returns
        -------
        tuple of numpy.ndarray
            East and north in the farm's system, m.
        """
        x, y = self.to_farm.transform(*(self.transform @ (column, row)))
        return x, y


def window_around(
    raster: rasterio.DatasetReader, to_farm: Transformer, wanted: Bounds
) -> Window | None:
    """
    Return the cells of a file that lie within bounds, and a few more.

    Parameters
    ----------
    raster : rasterio.DatasetReader
        The file.
    to_farm : pyproj.Transformer
        From its system to that of the bounds.
    wanted : tuple of float
        West, south, east and north, m.

    Returns
    -------
    rasterio.windows.Window or None
        None if there are none.
    """
    x, y = to_farm.transform(*_rim(*wanted), direction="INVERSE")
    is_there = np.isfinite(x) & np.isfinite(y)
    if not is_there.any():
        return None
    column, row = ~raster.transform @ (x[is_there], y[is_there])
    first = np.floor([row.min(), column.min()])
    last = np.floor([row.max(), column.max()]) + 1
    is_straight = to_farm.source_crs == to_farm.target_crs
    room = 0 if is_straight else ROOM_CELLS
    (top, left), (bottom, right) = (
        np.clip(first - room, 0, raster.shape).astype(int).tolist(),
        np.clip(last + room, 0, raster.shape).astype(int).tolist(),
    )
    if bottom <= top or right <= left:
        return None
    return Window(left, top, right - left, bottom - top)


def regridded(
    cells: Cells, wanted: Bounds, *, from_system: CRS, to_system: CRS
) -> tuple[FloatArray, float, float, float] | None:
    """
    Return heights on a north-up grid of square cells as large as the file's middle one.

    Parameters
    ----------
    cells : Cells
        As read, marks for nothing taken out.
    wanted : tuple of float
        West, south, east and north in the farm's system, m.
    from_system, to_system : pyproj.CRS
        The file's and the farm's.

    Returns
    -------
    tuple or None
        Heights, west and north of the outer corner of the first, and the size of a cell, m. None
        if nothing is left of them.
    """
    rows, columns = cells.heights.shape
    x, y = cells.locate(*_rim(0.0, 0.0, float(columns), float(rows)))
    is_there = np.isfinite(x) & np.isfinite(y)
    west, south = max(x[is_there].min(), wanted[0]), max(y[is_there].min(), wanted[1])
    east, north = min(x[is_there].max(), wanted[2]), min(y[is_there].max(), wanted[3])
    size = _cell_size(cells)
    across, down = int((east - west) // size), int((north - south) // size)
    if across <= 0 or down <= 0:
        return None
    grid = np.full((down, across), np.nan)
    reproject(
        source=cells.heights,
        destination=grid,
        src_transform=cells.transform,
        src_crs=rasterio.crs.CRS.from_wkt(from_system.to_wkt()),
        src_nodata=np.nan,
        dst_transform=rasterio.Affine(size, 0.0, west, 0.0, -size, north),
        dst_crs=rasterio.crs.CRS.from_wkt(to_system.to_wkt()),
        dst_nodata=np.nan,
        resampling=Resampling.bilinear,
    )
    return grid, float(west), float(north), size


def _rim(left: float, first: float, right: float, last: float) -> tuple[FloatArray, FloatArray]:
    """Return points all around a rectangle, and in its middle."""
    x, y = np.linspace(left, right, POINTS_A_SIDE), np.linspace(first, last, POINTS_A_SIDE)
    one = np.ones(POINTS_A_SIDE)
    return (
        np.concatenate([x, x, left * one, right * one, [(left + right) / 2]]),
        np.concatenate([first * one, last * one, y, y, [(first + last) / 2]]),
    )


def _cell_size(cells: Cells) -> float:
    """Return the side of a square as large as the middle cell."""
    rows, columns = cells.heights.shape
    x, y = cells.locate(columns / 2.0 + _RIGHT_ANGLE[0], rows / 2.0 + _RIGHT_ANGLE[1])
    across, down = np.hypot(x[1:] - x[0], y[1:] - y[0])
    return float(np.sqrt(across * down))
