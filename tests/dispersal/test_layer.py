"""The dispersal layer on the made season."""

import numpy as np
import pytest

from geo.dispersal import DISPERSAL
from geo.dispersal.named import KERNELS, kernel_named
from geo.reference.number import values
from tests.laws.made_season import BLOCK_COUNT, made_season


@pytest.mark.parametrize("name", KERNELS)
def test_a_kernel_carries_its_name_and_its_size(name: str) -> None:
    kernel = kernel_named(name)
    assert (kernel.name, kernel.scale) == (name, values("dispersal", name)["scale"])


@pytest.mark.published("fitzell1984", "conidia spread in rain within the canopy, abstract")
def test_splashed_conidia_hardly_leave_their_block() -> None:
    given = DISPERSAL.compute(made_season())
    own = [
        given[f"{way}_pair_share"].values[
            given[f"{way}_pair_block"].values == given[f"{way}_pair_source"].values
        ]
        for way in ("wind", "splash")
    ]
    assert own[0].size == own[1].size == BLOCK_COUNT
    assert (own[1] > own[0]).all()
    is_own = given.splash_pair_block.values == given.splash_pair_source.values
    assert given.splash_pair_share.values[~is_own].max(initial=0.0) < 1e-3


def test_each_block_is_paired_with_itself_and_nobody_twice() -> None:
    given = DISPERSAL.compute(made_season())
    pairs = list(zip(given.wind_pair_block.values, given.wind_pair_source.values, strict=True))
    assert len(set(pairs)) == len(pairs)
    assert {(block, block) for block in range(BLOCK_COUNT)} <= set(pairs)
    assert np.all(np.diff(given.wind_pair_block.values) >= 0)
