"""Which heights in an elevation file are marks for nothing that nobody named?"""

from collections.abc import Callable

import geopandas as gpd
import numpy as np
import shapely
from scipy.ndimage import label

from geo.arrays import AnyArray, FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.reading import Reading
from geo.texts import phrase, phrases

# From the shore of the Dead Sea to the top of the world, with some room.
LOWEST_GROUND_M, HIGHEST_GROUND_M = -500.0, 9000.0
# Water and lowland of exactly 0 m have some shore lower than this; a hole has none (our choice).
SHORE_M = 5.0
# Around a hole among the blocks, from which on nobody can take its 0 for ground (our choice).
FAR_ABOVE_M = 50.0
_EIGHT = tuple(
    (down, right) for down in (-1, 0, 1) for right in (-1, 0, 1) if (down, right) != (0, 0)
)
# From places of cells (column, row) to metres in the farm's system.
Locate = Callable[[FloatArray, FloatArray], tuple[FloatArray, FloatArray]]


def without_wild(reading: Reading, heights: FloatArray, *, metres: float) -> FloatArray:
    """
    Return the ground without heights there are none of on earth.

    Parameters
    ----------
    reading : Reading
        The elevation file.
    heights : [m]
        Shape (row, column), the file's own cells. NaN where unknown.
    metres : [m]
        Length of the file's unit, to quote what it holds.

    Returns
    -------
    [m]
        Same shape, NaN there.
    """
    is_wild = (heights < LOWEST_GROUND_M) | (heights > HIGHEST_GROUND_M)
    if not is_wild.any():
        return heights
    first = quoted(f"{heights[is_wild][0] / metres:g}")
    found = phrases(
        "{count} cell such as {example} is no height, taken as unknown",
        "{count} cells such as {example} are no heights, taken as unknown",
        int(is_wild.sum()),
        example=first,
    )
    fix = phrase("Name that value as nodata in the file, or check its unit")
    reading.add(Outcome.FIX, "E-HEIGHT-WILD", WHOLE_FILE, found=found, fix=fix)
    return np.where(is_wild, np.nan, heights)


def without_zeros(
    reading: Reading,
    heights: FloatArray,
    *,
    locate: Locate,
    outlines: gpd.GeoSeries,
    has_steps: bool,
) -> FloatArray:
    """
    Return the ground without cells whose exact 0 m stands for nothing.

    Parameters
    ----------
    reading : Reading
        The elevation file. It may not be used if there is a deep hole among the blocks.
    heights : [m]
        Shape (row, column), the file's own cells. NaN where unknown.
    locate : callable
        Where cells are.
    outlines : geopandas.GeoSeries
        The blocks.
    has_steps : bool
        Whether heights are whole numbers, so that 0 may be low ground.

    Returns
    -------
    [m]
        Same shape. Holes, whose every edge lies well above 0 m, are unknown; so is 0 m under a
        block, unless heights are whole numbers. Sea and lowland are left as they are.
    """
    is_zero = heights == 0.0
    if not is_zero.any():
        return heights
    part, _ = label(is_zero, structure=np.ones((3, 3)))
    lowest, middle = _edges(heights, part)
    is_hole = is_zero & (lowest > SHORE_M)[part]
    row, column = np.nonzero(is_zero)
    x, y = locate(column.astype(float) + 0.5, row.astype(float) + 0.5)
    amid, under = np.zeros_like(is_zero), np.zeros_like(is_zero)
    hull = shapely.convex_hull(shapely.geometrycollections(outlines.to_numpy()))
    amid[row, column] = shapely.contains_xy(hull, x, y)
    place = np.flatnonzero(amid[row, column])
    inside, _ = outlines.sindex.query(shapely.points(x[place], y[place]), predicate="within")
    under[row[place[inside]], column[place[inside]]] = True
    is_deep = is_hole & amid & (middle > FAR_ABOVE_M)[part]
    if is_deep.any():
        found = phrases(
            "{count} cell among the blocks is exactly 0 m, the ground around it {height:.0f} m: "
            "is 0 a mark for nothing?",
            "{count} cells among the blocks are exactly 0 m, the ground around them {height:.0f} "
            "m: is 0 a mark for nothing?",
            int(is_deep.sum()),
            height=middle[part[is_deep]].max(),
        )
        fix = phrase("Name 0 as nodata in the file, or fill the holes")
        reading.add(Outcome.STOP, "E-GROUND-ZERO", WHOLE_FILE, found=found, fix=fix)
    is_nothing = is_hole | (under & (not has_steps))
    if (is_nothing & ~is_deep).any():
        found = phrases(
            "{count} cell is exactly 0 m where that is no height of the ground, taken as unknown",
            "{count} cells are exactly 0 m where that is no height of the ground, taken as unknown",
            int((is_nothing & ~is_deep).sum()),
        )
        fix = phrase("Name 0 as nodata in the file, or fill the holes")
        reading.add(Outcome.FIX, "E-GROUND-ZERO", WHOLE_FILE, found=found, fix=fix)
    if (under & ~is_nothing).any():
        found = phrases(
            "{count} cell under a block is 0 m, taken as ground",
            "{count} cells under blocks are 0 m, taken as ground",
            int((under & ~is_nothing).sum()),
        )
        fix = phrase("Name 0 as nodata in the file, if it stands for nothing")
        reading.add(Outcome.NOTE, "E-GROUND-ZERO", WHOLE_FILE, found=found, fix=fix)
    return np.where(is_nothing, np.nan, heights)


def _edges(heights: FloatArray, part: AnyArray) -> tuple[FloatArray, FloatArray]:
    """Return the lowest and the middle height next to each part; none where nothing is known."""
    row, column = np.nonzero(part)
    rows, columns = heights.shape
    whose, beside = [], []
    for down, right in _EIGHT:
        there_row, there_column = row + down, column + right
        is_on = (there_row >= 0) & (there_row < rows) & (there_column >= 0)
        is_on &= there_column < columns
        height = heights[there_row[is_on], there_column[is_on]]
        is_edge = ~np.isnan(height) & (height != 0.0)
        whose.append(part[row[is_on], column[is_on]][is_edge])
        beside.append(height[is_edge])
    owner, height = np.concatenate(whose), np.concatenate(beside)
    order = np.lexsort((height, owner))
    found, first, count = np.unique(owner[order], return_index=True, return_counts=True)
    lowest, middle = np.full(part.max() + 1, -np.inf), np.full(part.max() + 1, -np.inf)
    lowest[found] = height[order][first]
    middle[found] = height[order][first + count // 2]
    return lowest, middle
