"""What is the ground like? A grid of metres in the farm's own system."""

from dataclasses import dataclass

import numpy as np
import rasterio
from pyproj import CRS, Transformer
from pyproj.exceptions import ProjError
from rasterio.errors import RasterioError
from rasterio.warp import Resampling, reproject, transform_bounds
from rasterio.windows import Window

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.reading import Reading

# Ground that is read around the farm: some times the 300 m within which cool air is judged
# (our choice), so that a country's elevation file costs no more than a farm's.
HALO_M = 2000.0
# From the shore of the Dead Sea to the top of the world, with some room.
LOWEST_GROUND_M, HIGHEST_GROUND_M = -500.0, 9000.0
METRES_PER_FOOT = 0.3048  # exact, by definition of the international foot
_RIGHT_ANGLE = ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))
FEET = ("ft", "foot", "feet")

Bounds = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Ground:
    """
    Elevation on a north-up grid.

    Attributes
    ----------
    grid : numpy.ndarray
        m above sea level, first row in the north, NaN where unknown.
    west, north : float
        Outer corner of the first cell, m.
    cell_width, cell_height : float
        Size of a cell, m.
    vertical_error : float
        By how much heights may be off from cell to cell, m.
    """

    grid: FloatArray
    west: float
    north: float
    cell_width: float
    cell_height: float
    vertical_error: float = 0.0


def read_elevation(reading: Reading, *, crs: CRS, bounds: Bounds) -> Ground:
    """
    Return the ground of the farm and around it.

    Parameters
    ----------
    reading : Reading
        The raster file: anything GDAL reads.
    crs : pyproj.CRS
        The farm's system.
    bounds : tuple of float
        West, south, east and north of the blocks, m.

    Returns
    -------
    Ground
        In the farm's system; resampled by straight lines between cells if the file is not.

    Raises
    ------
    InputError
        If the file cannot be read, has no coordinate system or lies elsewhere.
    """
    west, south, east, north = bounds
    wanted = (west - HALO_M, south - HALO_M, east + HALO_M, north + HALO_M)
    try:
        with rasterio.open(reading.path) as raster:
            if raster.crs is None:
                found, fix = "no coordinate system is named", "Set it and save the file again"
                raise reading.refused("E-CRS-MISSING", "", found=found, fix=fix)
            is_ready = _is_same(raster.crs, crs) and raster.transform.is_rectilinear
            is_ready = is_ready and raster.transform.a > 0 > raster.transform.e
            ground = _cut(raster, wanted) if is_ready else _warped(raster, crs, wanted)
            ground = _in_metres(reading, raster.units[0], ground) if ground else None
            ground = _believable(reading, ground) if ground else None
    except ProjError as error:
        found = "its coordinate system has no place on the earth"
        fix = "Save the elevation in a system such as UTM"
        raise reading.refused("E-CRS-UNUSABLE", "", found=found, fix=fix) from error
    except RasterioError as error:
        found = f"cannot be read: {quoted(error)}"
        fix = "Save the elevation as GeoTIFF again"
        raise reading.refused("E-RASTER", "", found=found, fix=fix) from error
    if ground is None:
        found, fix = "does not touch the farm", "Take an elevation file of the blocks' own ground"
        raise reading.refused("E-RASTER-ELSEWHERE", "", found=found, fix=fix)
    reading.used = int(np.isfinite(ground.grid).sum())
    return ground


def _is_same(system: rasterio.crs.CRS, crs: CRS) -> bool:
    return bool(CRS.from_wkt(system.to_wkt()).equals(crs, ignore_axis_order=True))


def _cut(raster: rasterio.DatasetReader, wanted: Bounds) -> Ground | None:
    """Return whole cells of the file, just as they are."""
    width, height = raster.transform.a, -raster.transform.e
    first_column = max(0, int((wanted[0] - raster.bounds.left) // width))
    last_column = min(raster.width, int((wanted[2] - raster.bounds.left) // width) + 1)
    first_row = max(0, int((raster.bounds.top - wanted[3]) // height))
    last_row = min(raster.height, int((raster.bounds.top - wanted[1]) // height) + 1)
    columns, rows = last_column - first_column, last_row - first_row
    if columns <= 0 or rows <= 0:
        return None
    window = Window(first_column, first_row, columns, rows)
    read = raster.read(1, window=window, masked=True).astype(float).filled(np.nan)
    west = raster.bounds.left + first_column * width
    north = raster.bounds.top - first_row * height
    return Ground(read, west, north, width, height)


def _warped(raster: rasterio.DatasetReader, crs: CRS, wanted: Bounds) -> Ground | None:
    system = rasterio.crs.CRS.from_wkt(crs.to_wkt())
    cell = _cell_size(raster, crs)
    left, low, right, high = raster.bounds
    # A file that runs north has its bounds upside down.
    low, high = min(low, high), max(low, high)
    west, south, east, north = transform_bounds(raster.crs, system, left, low, right, high)
    west, south = max(west, wanted[0]), max(south, wanted[1])
    east, north = min(east, wanted[2]), min(north, wanted[3])
    columns, rows = int((east - west) // cell), int((north - south) // cell)
    if columns <= 0 or rows <= 0:
        return None
    grid = np.full((rows, columns), np.nan)
    reproject(
        source=rasterio.band(raster, 1),
        destination=grid,
        src_nodata=raster.nodata,
        dst_transform=rasterio.Affine(cell, 0.0, west, 0.0, -cell, north),
        dst_crs=system,
        dst_nodata=np.nan,
        resampling=Resampling.bilinear,
    )
    return Ground(grid, west, north, cell, cell)


def _cell_size(raster: rasterio.DatasetReader, crs: CRS) -> float:
    """Return the side of a square as large as the file's middle cell."""
    row, column = raster.height / 2.0, raster.width / 2.0
    corners = [raster.transform @ (column + right, row + down) for right, down in _RIGHT_ANGLE]
    to_metres = Transformer.from_crs(raster.crs.to_wkt(), crs, always_xy=True)
    x, y = to_metres.transform(*np.array(corners).T)
    across, down = np.hypot(x[1:] - x[0], y[1:] - y[0])
    return float(np.sqrt(across * down))


def _believable(reading: Reading, ground: Ground) -> Ground:
    """Return the ground without heights there are none of: a mark for nothing that nobody named."""
    is_wild = (ground.grid < LOWEST_GROUND_M) | (ground.grid > HIGHEST_GROUND_M)
    if not is_wild.any():
        return ground
    first = quoted(f"{ground.grid[is_wild][0]:g}")
    found = f"{int(is_wild.sum())} cells such as {first} m are no heights, taken as unknown"
    fix = "Name that value as nodata in the file, or check its unit"
    reading.add(Outcome.FIX, "E-HEIGHT-WILD", "", found=found, fix=fix)
    grid = np.where(is_wild, np.nan, ground.grid)
    return Ground(grid, ground.west, ground.north, ground.cell_width, ground.cell_height)


def _in_metres(reading: Reading, unit: str | None, ground: Ground) -> Ground:
    if (unit or "").strip().lower() not in FEET:
        return ground
    found = f"heights in {quoted(unit)} turned into metres"
    reading.add(Outcome.NOTE, "E-FEET", "", found=found, fix="Nothing, if they are feet")
    grid = ground.grid * METRES_PER_FOOT
    return Ground(grid, ground.west, ground.north, ground.cell_width, ground.cell_height)
