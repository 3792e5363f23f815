"""What is the ground like? A grid of metres in the farm's own system."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

import geopandas as gpd
import numpy as np
import rasterio
from pyproj import CRS, Transformer
from pyproj.exceptions import ProjError
from rasterio.errors import RasterioError
from rasterio.windows import Window

from geo.arrays import FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.ground_marks import without_wild, without_zeros
from geo.inputs.ground_units import Unit, height_unit, horizontal_part
from geo.inputs.pointers import INDIRECT, check_mosaic
from geo.inputs.reading import Reading
from geo.inputs.regridding import Bounds, Cells, regridded, window_around
from geo.texts import phrase

# Ground that is read around the farm: some times the 300 m within which cool air is judged
# (our choice), so that a country's elevation file costs no more than a farm's.
HALO_M = 2000.0
LEAST_STEP_M = 0.1  # smaller ones are below what anybody surveys (our choice)


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
    unit : str
        Of the heights as the file names it; empty if it names none.
    """

    grid: FloatArray
    west: float
    north: float
    cell_width: float
    cell_height: float
    vertical_error: float = 0.0
    unit: str = ""


def read_elevation(
    reading: Reading, *, outlines: gpd.GeoSeries, vertical_error: float | None = None
) -> Ground:
    """
    Return the ground of the farm and around it.

    Parameters
    ----------
    reading : Reading
        The raster file: anything GDAL reads.
    outlines : geopandas.GeoSeries
        The blocks, in the farm's system.
    vertical_error : float or None
        As the user states it, m; None for what the file itself tells.

    Returns
    -------
    Ground
        In the farm's system; resampled by straight lines between cells if the file is not. Marks
        for nothing are taken out before, so that they mix into no neighbour.

    Raises
    ------
    InputError
        If the file cannot be read, has no coordinate system or lies elsewhere.
    """
    west, south, east, north = map(float, outlines.total_bounds)
    wanted = (west - HALO_M, south - HALO_M, east + HALO_M, north + HALO_M)
    with _opened(reading) as raster:
        ground = _ground(reading, raster, outlines, wanted, vertical_error)
    if ground is None:
        found = phrase("does not touch the farm")
        fix = phrase("Take an elevation file of the blocks' own ground")
        raise reading.refused("E-RASTER-ELSEWHERE", WHOLE_FILE, found=found, fix=fix)
    reading.used = int(np.isfinite(ground.grid).sum())
    return ground


def refuse_unreadable(reading: Reading) -> None:
    """
    Refuse an elevation file that cannot be used wherever the farm lies.

    Parameters
    ----------
    reading : Reading
        The raster file.

    Raises
    ------
    InputError
        If the file cannot be read or has no coordinate system.
    """
    with _opened(reading):
        pass


@contextmanager
def _opened(reading: Reading) -> Iterator[rasterio.DatasetReader]:
    check_mosaic(reading)
    try:
        with rasterio.open(reading.path) as raster:
            if raster.driver in INDIRECT:
                found = phrase("is {kind}: it points elsewhere", kind=raster.driver)
                fix = phrase("Save it as one GeoTIFF")
                raise reading.refused("E-FILE-POINTER", WHOLE_FILE, found=found, fix=fix)
            if raster.crs is None:
                found = phrase("no coordinate system is named")
                fix = phrase("Set it and save the file again")
                raise reading.refused("E-CRS-MISSING", WHOLE_FILE, found=found, fix=fix)
            yield raster
    except ProjError as error:
        found = phrase("its coordinate system has no place on the earth")
        fix = phrase("Save the elevation in a system such as UTM")
        raise reading.refused("E-CRS-UNUSABLE", WHOLE_FILE, found=found, fix=fix) from error
    except RasterioError as error:
        found = phrase("cannot be read: {error}", error=quoted(error))
        fix = phrase("Save the elevation as GeoTIFF again")
        raise reading.refused("E-RASTER", WHOLE_FILE, found=found, fix=fix) from error


def _ground(
    reading: Reading,
    raster: rasterio.DatasetReader,
    outlines: gpd.GeoSeries,
    wanted: Bounds,
    vertical_error: float | None,
) -> Ground | None:
    whole = CRS.from_wkt(raster.crs.to_wkt())
    system = horizontal_part(whole)
    is_same = bool(system.equals(outlines.crs, ignore_axis_order=True))
    to_farm = Transformer.from_crs(system, outlines.crs, always_xy=True)
    window = window_around(raster, to_farm, wanted)
    if window is None:
        return None
    unit = height_unit(reading, raster, whole)
    heights, step = _heights(reading, raster, window, unit)
    place = raster.transform @ rasterio.Affine.translation(window.col_off, window.row_off)
    cells = Cells(heights, place, to_farm)
    heights = without_zeros(
        reading, heights, locate=cells.locate, outlines=outlines, has_steps=step > 0.0
    )
    cells = replace(cells, heights=heights)
    error = _vertical_error(reading, vertical_error, step=step)
    is_ready = is_same and raster.transform.is_rectilinear
    if is_ready and raster.transform.a > 0 > raster.transform.e:
        return Ground(heights, place.c, place.f, place.a, -place.e, error, unit.name)
    turned = regridded(cells, wanted, from_system=system, to_system=outlines.crs)
    if turned is None:
        return None
    grid, west, north, size_of_cell = turned
    return Ground(grid, west, north, size_of_cell, size_of_cell, error, unit.name)


def _heights(
    reading: Reading, raster: rasterio.DatasetReader, window: Window, unit: Unit
) -> tuple[FloatArray, float]:
    """Return heights in metres, and the step they come in; 0 if that is too small to matter."""
    read = raster.read(1, window=window, masked=True).astype(float).filled(np.nan)
    # Some files hold tenths as whole numbers and say so beside them.
    scale, offset = raster.scales[0], raster.offsets[0]
    heights = without_wild(reading, (read * scale + offset) * unit.metres, metres=unit.metres)
    step = abs(scale) * unit.metres
    known = read[np.isfinite(heights)]
    is_one = known.size == 0 or known.min() == known.max()
    has_steps = step >= LEAST_STEP_M and not is_one and bool((known == np.rint(known)).all())
    return heights, step * has_steps


def _vertical_error(reading: Reading, stated: float | None, *, step: float) -> float:
    """Return by how much heights may be off: as stated, else half a step."""
    error = stated if stated is not None else 0.5 * step
    if step > 0.0:
        found = phrase(
            "heights come in steps of {step:.3g} m: pools count as shallower by {error:.2g} m, "
            "and what is left of none as none",
            step=step,
            error=error,
        )
        fix = phrase("Take a file with fractions of a metre, if there is one")
        reading.add(Outcome.NOTE, "E-GROUND-STEPS", WHOLE_FILE, found=found, fix=fix)
    elif error > 0.0:
        found = phrase(
            "heights may be off by {error:g} m as farm.toml states: pools count as shallower by "
            "{error:.2g} m, and what is left of none as none",
            error=error,
        )
        fix = phrase("Nothing, if they are")
        reading.add(Outcome.NOTE, "E-GROUND-ERROR", WHOLE_FILE, found=found, fix=fix)
    return error
