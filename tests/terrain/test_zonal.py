"""The mean over a block, against a plain loop."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.terrain.zonal import zonal_mean

BLOCKS = 4


@settings(max_examples=40)
@given(seed=st.integers(0, 10_000), pairs=st.integers(0, 60), unknown=st.floats(0.0, 1.0))
def test_the_mean_agrees_with_a_plain_loop(seed: int, pairs: int, unknown: float) -> None:
    chance = np.random.default_rng(seed)
    grid = chance.normal(400.0, 50.0, (6, 7))
    grid[chance.uniform(size=grid.shape) < unknown] = np.nan
    cover = {
        "cover_block": chance.integers(0, BLOCKS, pairs),
        "cover_cell": chance.integers(0, grid.size, pairs),
        "cover_share": chance.uniform(0.01, 1.0, pairs),
    }
    mean, known = zonal_mean(grid, **cover, block_count=BLOCKS)
    for block in range(BLOCKS):
        weight = total = 0.0
        for owner, cell, part in zip(*cover.values(), strict=True):
            if owner == block:
                height = grid[cell // 7, cell % 7]
                if not np.isnan(height):
                    weight, total = weight + part, total + part * height
        assert mean[block] == pytest.approx(total / weight if weight else np.nan, nan_ok=True)
        assert known[block] == pytest.approx(weight)


def test_a_block_off_the_grid_is_unknown_and_has_no_cells() -> None:
    nothing = np.array([], dtype=np.int64)
    mean, known = zonal_mean(
        np.ones((2, 2)),
        cover_block=nothing,
        cover_cell=nothing,
        cover_share=nothing.astype(float),
        block_count=1,
    )
    assert np.isnan(mean).all()
    assert known.tolist() == [0.0]
