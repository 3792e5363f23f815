"""Which cells of the ground does each block cover? Shares of cells, as pairs."""

from dataclasses import dataclass

import geopandas as gpd
import numpy as np
from exactextract import exact_extract
from exactextract.raster import NumPyRasterSource

from geo.arrays import FloatArray, IntArray
from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE, At
from geo.inputs.elevation import Ground
from geo.inputs.reading import GROUP_FROM, Reading
from geo.texts import phrase, phrases

WELL_COVERED = 0.90  # of a block; below it the mean ground is said to be doubtful (our choice)


@dataclass(frozen=True, slots=True)
class Cover:
    """
    Pairs of a block and a cell it covers.

    Attributes
    ----------
    block : numpy.ndarray
        Index of the block.
    cell : numpy.ndarray
        Flat index of the cell.
    share : numpy.ndarray
        Share of the cell inside the block, above 0.
    block_cells : numpy.ndarray
        Size of each block in cells, those off the grid too.
    """

    block: IntArray
    cell: IntArray
    share: FloatArray
    block_cells: FloatArray


def cover_of(blocks: gpd.GeoDataFrame, ground: Ground) -> Cover:
    """
    Return how blocks lie on the grid, so that a mean over a block is one weighted count.

    Parameters
    ----------
    blocks : geopandas.GeoDataFrame
        In the grid's system.
    ground : Ground
        The grid. Cells of unknown ground are covered too.

    Returns
    -------
    Cover
        Sorted by block.
    """
    rows, columns = ground.grid.shape
    raster = NumPyRasterSource(
        np.zeros((rows, columns), dtype=np.uint8),
        ground.west,
        ground.north - rows * ground.cell_height,
        ground.west + columns * ground.cell_width,
        ground.north,
        srs_wkt=blocks.crs.to_wkt(),
    )
    found = exact_extract(raster, blocks[["geometry"]], ["cell_id", "coverage"], output="pandas")
    counts = found["cell_id"].map(len).to_numpy()
    return Cover(
        np.repeat(np.arange(len(blocks), dtype=np.int64), counts),
        np.concatenate([*found["cell_id"], np.empty(0, np.int64)]).astype(np.int64),
        # A share may exceed 1 by a rounding error of its last digit.
        np.minimum(np.concatenate([*found["coverage"], np.empty(0)]), 1.0),
        blocks.geometry.area.to_numpy() / (ground.cell_width * ground.cell_height),
    )


def note_uncovered(
    reading: Reading, blocks: gpd.GeoDataFrame, ground: Ground, cover: Cover
) -> None:
    """
    Note blocks with little known ground or none; stop if no block has any.

    Parameters
    ----------
    reading : Reading
        The elevation file.
    blocks : geopandas.GeoDataFrame
        Index block id.
    ground : Ground
        The grid.
    cover : Cover
        How the blocks lie on it.
    """
    known = cover.share * np.isfinite(ground.grid.ravel()[cover.cell])
    share = np.bincount(cover.block, known, minlength=len(blocks)) / cover.block_cells
    fix = phrase("Take an elevation file that reaches beyond all blocks")
    if not (share > 0.0).any():
        found = phrases(
            "covers none of {count} block", "covers none of {count} blocks", len(blocks)
        )
        reading.add(Outcome.STOP, "E-GROUND-COVER", WHOLE_FILE, found=found, fix=fix)
        return
    poor = np.flatnonzero(share < WELL_COVERED)
    if poor.size >= GROUP_FROM:
        found = phrase(
            "covers less than {percent:.0f} % of {count} blocks, the first {block}; where there is "
            "nothing, height and cool pool are taken to be the weather station's, and its doubt "
            "grows",
            percent=100 * WELL_COVERED,
            count=poor.size,
            block=quoted(blocks.index[poor[0]]),
        )
        reading.add(Outcome.NOTE, "E-GROUND-COVER", WHOLE_FILE, found=found, fix=fix)
        return
    for block in poor:
        name = quoted(blocks.index[block])
        found = phrase(
            "covers {percent:.0f} % of block {block}", percent=100 * share[block], block=name
        )
        if not share[block] > 0.0:
            found = phrase(
                "covers {percent:.0f} % of block {block}: height and cool pool are taken to be the "
                "weather station's, and its doubt grows",
                percent=100 * share[block],
                block=name,
            )
        reading.add(
            Outcome.NOTE,
            "E-GROUND-COVER",
            At(phrase("block {block}", block=name)),
            found=found,
            fix=fix,
        )


def cell_at(ground: Ground, *, x: float, y: float) -> int:
    """
    Return the cell that a station or a logger stands on.

    Parameters
    ----------
    ground : Ground
        The grid.
    x, y : [m]
        Where it is.

    Returns
    -------
    int
        Flat index, -1 outside the grid.
    """
    rows, columns = ground.grid.shape
    column = int(np.floor((x - ground.west) / ground.cell_width))
    row = int(np.floor((ground.north - y) / ground.cell_height))
    return row * columns + column if 0 <= row < rows and 0 <= column < columns else -1
