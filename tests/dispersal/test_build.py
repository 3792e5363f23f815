"""The exchange that a season holds against the whole table, and against the one it was built as."""

import numpy as np
import pytest

from geo.dispersal import DISPERSAL, pairing
from geo.dispersal import build as built
from geo.dispersal.area_share import mean_over_points, share_landing
from geo.dispersal.build import exchange_in, exchange_of
from geo.dispersal.named import KERNELS, kernel_named, splash_kernel
from tests.laws.made_season import BLOCK_COUNT, SOURCE_COUNT, made_season

SHED = np.linspace(0.1, 0.9, SOURCE_COUNT)


@pytest.mark.parametrize("kernel", KERNELS)
def test_a_small_farm_exchanges_exactly_what_the_whole_table_holds(kernel: str) -> None:
    season = made_season(kernel=kernel)
    by_point = share_landing(
        season.point_x.values,
        season.point_y.values,
        edges=built._edges(season),
        edge_outline=season.edge_source.values,
        outline_count=SOURCE_COUNT,
        kernel=kernel_named(kernel),
    )
    table = mean_over_points(
        by_point, season.point_block.values, season.point_share.values, block_count=BLOCK_COUNT
    )
    home, incoming = exchange_of(season, kernel_named(kernel)).received(SHED)
    np.testing.assert_allclose(home + incoming, table @ SHED, rtol=1e-12)
    np.testing.assert_allclose(home, np.diag(table) * SHED[: home.size], rtol=1e-12)


@pytest.mark.parametrize("kernel", KERNELS)
@pytest.mark.parametrize("has_grid", [False, True])
@pytest.mark.parametrize("disease", ["leaf_mildew", "fruit_anthracnose"])
def test_what_the_season_holds_is_what_was_built(
    kernel: str, disease: str, monkeypatch: pytest.MonkeyPatch, *, has_grid: bool
) -> None:
    if has_grid:
        for module in (pairing, built):
            monkeypatch.setattr(module, "ALL_NEAR_PAIRS", 0)
        monkeypatch.setitem(pairing.exchange_between.__kwdefaults__, "all_near_pairs", 0)
    season = made_season(kernel=kernel)
    held = exchange_in(DISPERSAL.add_to(season).assign_coords(disease=disease))
    is_splashed = disease == "fruit_anthracnose"
    fresh = exchange_of(season, splash_kernel() if is_splashed else kernel_named(kernel))
    np.testing.assert_allclose(held.received(SHED), fresh.received(SHED), rtol=1e-12)
    is_thin = is_splashed or kernel == "exponential"
    assert (held.far is None) == (fresh.far is None) == (is_thin or not has_grid)
