"""Elevation files made poor in one way each, from that of a farm folder."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import geopandas as gpd
import numpy as np
import rasterio
from rasterio.warp import Resampling, reproject
from shapely.geometry import box

ELEVATION = "elevation.tif"


def rewrite(
    folder: Path,
    change: Callable[[np.ndarray, np.ndarray, np.ndarray], np.ndarray],
    *,
    unit: str | None = None,
    **profile: Any,
) -> None:
    """Write the elevation file again, its heights changed by a function of heights, x and y."""
    with rasterio.open(folder / ELEVATION) as raster:
        grid, options = raster.read(1), {**raster.profile, **profile}
        columns, rows = np.meshgrid(np.arange(raster.width), np.arange(raster.height))
        x, y = raster.transform @ (columns + 0.5, rows + 0.5)
    grid = change(grid, x, y).astype(options["dtype"])
    with rasterio.open(folder / ELEVATION, "w", **options) as raster:
        raster.write(grid, 1)
        if unit:
            raster.units = (unit,)


def coarser(folder: Path, size: float) -> None:
    """Write the elevation file on larger cells."""
    with rasterio.open(folder / ELEVATION) as raster:
        grid, profile = raster.read(1), raster.profile
    rows, columns = (int(length * 8.0 // size) for length in grid.shape)
    place = rasterio.Affine(size, 0.0, profile["transform"].c, 0.0, -size, profile["transform"].f)
    out = np.empty((rows, columns), dtype=grid.dtype)
    options = {"src_crs": profile["crs"], "dst_crs": profile["crs"]}
    reproject(
        grid,
        out,
        src_transform=profile["transform"],
        dst_transform=place,
        resampling=Resampling.average,
        **options,
    )
    profile.update(width=columns, height=rows, transform=place)
    with rasterio.open(folder / ELEVATION, "w", **profile) as raster:
        raster.write(out, 1)


def in_degrees(
    folder: Path, *, resampling: Resampling = Resampling.bilinear, nodata: float | None = None
) -> None:
    """Write the elevation file in degrees, cells of about the same size."""
    with rasterio.open(folder / ELEVATION) as raster:
        grid, profile, bounds = raster.read(1), raster.profile, raster.bounds
    west, south, east, north = (
        gpd.GeoSeries([box(*bounds)], crs=profile["crs"]).to_crs(4326).total_bounds
    )
    rows, columns = grid.shape
    place = rasterio.Affine((east - west) / columns, 0, west, 0, (south - north) / rows, north)
    out = np.full((rows, columns), -9999.0, dtype=grid.dtype)
    reproject(
        grid,
        out,
        src_transform=profile["transform"],
        src_crs=profile["crs"],
        dst_transform=place,
        dst_crs="EPSG:4326",
        dst_nodata=-9999.0,
        resampling=resampling,
    )
    profile.update(crs="EPSG:4326", transform=place, width=columns, height=rows, nodata=nodata)
    with rasterio.open(folder / ELEVATION, "w", **profile) as raster:
        raster.write(out, 1)
