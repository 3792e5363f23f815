"""How long does the whole terrain layer take on a large grid, and in how much memory?"""

from collections.abc import Iterator

import numpy as np
import xarray as xr

from geo.arrays import AnyArray
from geo.bench.alone import alone
from geo.bench.terrain import CELL, relief, scattered_blocks
from geo.inputs.cover import cover_of
from geo.inputs.elevation import Ground
from geo.terrain import TERRAIN

BLOCKS = 20_000
PREPARE = """
from geo.bench.terrain_layer import made_season
from geo.terrain import TERRAIN
season = made_season({side}, {blocks})
"""


def lines(*, full: bool) -> Iterator[str]:
    """
    Run the terrain layer on made ground in a process of its own.

    Parameters
    ----------
    full : bool
        On 4000 × 4000 and 10 000 × 10 000 cells with 20 000 blocks instead of 1000 × 1000 cells
        with 1000.

    Yields
    ------
    str
        What was found, a line each grid.
    """
    for side, blocks in ((4000, BLOCKS), (10_000, BLOCKS)) if full else ((1000, 1000),):
        prepare = PREPARE.format(side=side, blocks=blocks)
        seconds, peak, before = alone(prepare=prepare, work="TERRAIN.compute(season)")
        yield (
            f"terrain layer of {side} x {side} cells, {blocks} blocks : {seconds:.0f} s, "
            f"peak memory {peak:.2f} GiB, {before:.2f} GiB of it before the layer"
        )


def made_season(side: int, count: int) -> xr.Dataset:
    """
    Return what the terrain layer needs, on made ground.

    Parameters
    ----------
    side : [1]
        Rows, and columns.
    count : [1]
        How many blocks.

    Returns
    -------
    xarray.Dataset
        Nothing is drawn on it.
    """
    ground = relief(side).astype(np.float64)
    blocks = scattered_blocks(side, count)
    width, height = CELL["cell_width"], CELL["cell_height"]
    cover = cover_of(blocks, Ground(ground, 0.0, height * side, width, height))
    middle = blocks.geometry.centroid
    known: dict[str, object] = {
        **CELL,
        "elevation_grid": ground,
        "cover_block": cover.block,
        "cover_cell": cover.cell,
        "cover_share": cover.share,
        "block_cells": cover.block_cells,
        "vertical_error": 0.0,
        "station_elevation": 800.0,
        "station_cell": [0],
        "station_weight": [1.0],
        "area": blocks.area.to_numpy() / 1e4,
        "point_block": np.arange(count),
        "point_x": middle.x,
        "point_y": middle.y,
        "point_share": np.ones(count),
    }
    none: AnyArray = np.zeros(0)
    return xr.Dataset(
        {
            variable.name: (variable.dims, np.asarray(known.get(variable.name, none)))
            for variable in TERRAIN.needs
        },
        coords={"block": [str(number) for number in range(count)]},
    )
