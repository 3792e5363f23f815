"""Which tenth of each block lies deepest in the cool pool? There a look comes first."""

import geopandas as gpd
import numpy as np
import shapely
import xarray as xr

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.reference.number import values
from geo.season.farm import Farm

TENTH = 0.1  # by name
ROUNDING = 1e-9  # of an area in cells: sums of shares are off by less


def coolest_tenth(farm: Farm, season: xr.Dataset) -> gpd.GeoDataFrame:
    """
    Return the tenth of each block where pools stand deepest.

    Parameters
    ----------
    farm : Farm
        For the outlines.
    season : xarray.Dataset
        After the terrain layer.

    Returns
    -------
    geopandas.GeoDataFrame
        Index ``block_id``, column ``geometry``, in the farm's metric system. Blocks on even or
        unknown ground are left out.
    """
    depth, height = (season[name].values.ravel() for name in ("pool_depth_grid", "elevation_grid"))
    cell, share = season["cover_cell"].values, season["cover_share"].values
    block = season["cover_block"].values
    least = values("microclimate", "coolest")["least_difference"]
    is_in = is_coolest_tenth(depth[cell], height[cell], block, share, least_difference=least)
    whose, place = np.unique(block[is_in], return_inverse=True)
    order = np.argsort(place, kind="stable")
    squares = _squares(cell[is_in][order], season)
    # Squares of one grid share their edges to the last digit: a coverage, and so quick to unite.
    of_block = shapely.geometrycollections(squares, indices=place[order])
    united = shapely.coverage_union_all(of_block[:, None], axis=1)
    outlines = farm.blocks.geometry.to_numpy()[whose]
    shapes = _polygons(shapely.intersection(united, outlines))
    found = gpd.GeoDataFrame(geometry=shapes, crs=farm.crs, index=farm.blocks.index[whose])
    return found[~found.geometry.is_empty]


def is_coolest_tenth(
    pool_depth: FloatArray,
    elevation: FloatArray,
    block: IntArray,
    share: FloatArray,
    *,
    least_difference: float,
) -> AnyArray:
    """
    Return which covered cells make up the deepest tenth of their block.

    Parameters
    ----------
    pool_depth, elevation : [m]
        Of each covered cell. NaN where unknown.
    block : [1]
        Block of each covered cell.
    share : [1]
        Share of the cell inside the block.
    least_difference : [m]
        A block whose deepest tenth lies no more than this deeper than its mean has none.

    Returns
    -------
    [1]
        True or False: the deepest first, of equal ones the lowest, until a tenth of the block's
        known area is reached; the last cell may carry it over.
    """
    result = np.zeros(block.size, dtype=bool)
    known = np.flatnonzero(np.isfinite(pool_depth) & np.isfinite(elevation) & (share > 0))
    if not known.size:
        return result
    order = known[np.lexsort((elevation[known], -pool_depth[known], block[known]))]
    whose, part, depth = block[order], share[order], pool_depth[order]
    total = np.bincount(whose, part)
    before = np.cumsum(part) - part - (np.cumsum(total) - total)[whose]
    is_in = before < (TENTH - ROUNDING) * total[whose]
    area = np.maximum(np.bincount(whose, part * is_in), ROUNDING)
    deepest = np.bincount(whose, part * depth * is_in) / area
    mean = np.bincount(whose, part * depth) / np.maximum(total, ROUNDING)
    result[order] = is_in & (deepest - mean > least_difference)[whose]
    return result


def _squares(cell: IntArray, season: xr.Dataset) -> AnyArray:
    width, height = float(season["cell_width"]), float(season["cell_height"])
    row, column = np.divmod(cell, season.sizes["column"])
    west, north = season.attrs["grid_west"], season.attrs["grid_north"]
    # Each edge from its own number: added up, neighbours' edges would differ by a last digit.
    left, right = west + column * width, west + (column + 1) * width
    top, bottom = north - row * height, north - (row + 1) * height
    squares: AnyArray = shapely.box(left, bottom, right, top)
    return squares


def _polygons(shapes: AnyArray) -> AnyArray:
    """Return shapes without the lines and points in which a cell only touches the outline."""
    parts, whose = shapely.get_parts(shapes, return_index=True)
    is_area = shapely.get_dimensions(parts) == 2  # noqa: PLR2004
    parts, whose = parts[is_area], whose[is_area]
    polygons: AnyArray = np.full(shapes.shape, shapely.Polygon(), dtype=object)
    shapely.multipolygons(parts, indices=whose, out=polygons)
    alone = np.bincount(whose, minlength=shapes.size)[whose] == 1
    polygons[whose[alone]] = parts[alone]
    return polygons
