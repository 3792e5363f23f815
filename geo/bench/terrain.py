"""How fast is the ground worked on?"""

from collections.abc import Iterator

import geopandas as gpd
import numpy as np
import shapely
from exactextract import exact_extract
from exactextract.raster import NumPyRasterSource
from scipy.ndimage import uniform_filter

from geo.arrays import AnyArray
from geo.bench.pairs import ratio
from geo.inputs.cover import cover_of
from geo.inputs.elevation import Ground
from geo.terrain.mean_around import topographic_position, window_half
from geo.terrain.zonal import zonal_mean

RADII = (50.0, 150.0, 300.0, 500.0)
CELL = {"cell_width": 10.0, "cell_height": 10.0}


def relief(side: int) -> AnyArray:
    """
    Return made ground: waves, each half as long and half as high as the one before.

    Parameters
    ----------
    side : [1]
        Rows, and columns.

    Returns
    -------
    [m]
        Shape (side, side), 32-bit numbers.
    """
    chance = np.random.default_rng(1)
    place = np.arange(side, dtype=np.float32)
    ground: AnyArray = np.full((side, side), 800.0, dtype=np.float32)
    for octave in range(8):
        turn = 2.0 * np.pi * 2.0**octave / 1000.0  # the longest wave spans a thousand cells
        down, right = chance.uniform(0.0, 2.0 * np.pi, 2)
        wave = np.sin(turn * place + down)[:, None] * np.float32(60.0 / 2.0**octave)
        ground += wave.astype(np.float32) * np.sin(turn * place + right).astype(np.float32)
    return ground


def lines(*, full: bool) -> Iterator[str]:
    """
    Time positions and means over blocks.

    Parameters
    ----------
    full : bool
        On grids of the size of a large elevation model.

    Yields
    ------
    str
        What was found, a line each.
    """
    side = 4000 if full else 1000
    ground = relief(side)
    halves = [window_half(**CELL, radius=radius) for radius in RADII]
    found = ratio(
        lambda: [topographic_position(ground, **CELL, radius=radius) for radius in RADII],
        lambda: [
            uniform_filter(ground, (2 * down + 1, 2 * right + 1), mode="constant")
            for down, right in halves
        ],
    )
    yield f"topographic position at 4 radii, {side} x {side} : uniform filter alone = {found}"
    yield _over_blocks(ground, 20_000 if full else 1_000)


def scattered_blocks(side: int, count: int) -> gpd.GeoDataFrame:
    """
    Return made blocks of 2.16 ha, turned every way, on a grid of 10 m cells.

    Parameters
    ----------
    side : [1]
        Rows, and columns.
    count : [1]
        How many blocks.

    Returns
    -------
    geopandas.GeoDataFrame
        Some lie on others.
    """
    chance = np.random.default_rng(2)
    extent = CELL["cell_width"] * side
    east, north = chance.uniform(200.0, extent - 200.0, (2, count))
    corner = np.array([[-90.0, -60.0], [90.0, -60.0], [90.0, 60.0], [-90.0, 60.0]])
    angle = chance.uniform(0.0, np.pi, count)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    rings = np.einsum("xyb,cy->bcx", turn, corner) + np.stack([east, north], axis=1)[:, None]
    return gpd.GeoDataFrame(geometry=shapely.polygons(rings), crs="EPSG:32737")


def _over_blocks(grid: AnyArray, count: int) -> str:
    extent = CELL["cell_width"] * len(grid)
    blocks = scattered_blocks(len(grid), count)
    ground = Ground(grid, 0.0, extent, CELL["cell_width"], CELL["cell_height"])
    cover = cover_of(blocks, ground)
    raster = NumPyRasterSource(grid, 0.0, 0.0, extent, extent, srs_wkt=blocks.crs.to_wkt())
    found = ratio(
        lambda: exact_extract(raster, blocks, ["mean"], output="pandas"),
        lambda: zonal_mean(
            grid,
            cover_block=cover.block,
            cover_cell=cover.cell,
            cover_share=cover.share,
            block_count=count,
        ),
    )
    return f"exactextract again : a further layer over {count} blocks = {found}"
