"""Means over blocks, found band by band, are those found at once."""

from collections.abc import Iterator

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.terrain.block_means import BlockCover, at_cells, block_means
from geo.terrain.zonal import zonal_mean

ROWS, COLUMNS, BLOCKS = 13, 7, 4


def made(seed: int) -> tuple[np.ndarray, BlockCover]:
    chance = np.random.default_rng(seed)
    grid = chance.normal(50.0, 10.0, (ROWS, COLUMNS))
    grid[chance.uniform(size=grid.shape) < 0.2] = np.nan
    block = np.sort(chance.integers(0, BLOCKS, 30))
    cell = chance.integers(0, grid.size, 30)
    return grid, BlockCover(block, cell, chance.uniform(0.1, 1.0, 30), BLOCKS)


@given(seed=st.integers(0, 999), most_cells=st.integers(1, 120))
def test_bands_of_any_height_give_the_zonal_means(seed: int, most_cells: int) -> None:
    grid, cover = made(seed)

    def itself_and_the_row_above(part: np.ndarray) -> Iterator[np.ndarray]:
        yield part
        yield np.vstack([part[:1], part[:-1]])

    found = block_means(
        at_cells(itself_and_the_row_above),
        grid,
        cover,
        quantities=2,
        halo=1,
        most_cells=most_cells,
    )
    for one, whole in zip(found, itself_and_the_row_above(grid), strict=True):
        expected, _ = zonal_mean(
            whole,
            cover_block=cover.block,
            cover_cell=cover.cell,
            cover_share=cover.share,
            block_count=BLOCKS,
        )
        np.testing.assert_allclose(one, expected, rtol=1e-12)


def test_bands_without_blocks_are_never_worked_on() -> None:
    grid, _ = made(1)
    cover = BlockCover(np.zeros(1, int), np.array([2 * COLUMNS]), np.ones(1), 2)
    seen: list[int] = []

    def watched(part: np.ndarray) -> list[np.ndarray]:
        seen.append(len(part))
        return [part]

    found = block_means(at_cells(watched), grid, cover, quantities=1, halo=0, most_cells=COLUMNS)
    assert seen == [1]
    np.testing.assert_array_equal(found, [[grid[2, 0], np.nan]])
