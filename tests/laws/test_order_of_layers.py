"""What holds for every layer of the order: it keeps its word, its input and its blocks apart."""

import numpy as np
import pytest
import xarray as xr
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.pipeline.order import ORDER
from geo.season import VOCABULARY, Layer
from tests.laws.made_season import (
    BLOCK_COUNT,
    CORNERS,
    SOURCE_COUNT,
    _cells,
    made_before,
    made_season,
    permuted,
    through,
)

each_layer = pytest.mark.parametrize("layer", ORDER, ids=lambda layer: layer.name)
# Where hours are computed: the spots are numbered in the order of the blocks.
OF_SPOTS = {"spot_of_block", "spot_of_site"}


@each_layer
def test_a_layer_gives_what_it_says_and_nothing_else(layer: Layer) -> None:
    found = made_before(layer)
    after = layer.add_to(found)
    promised = {variable.name for variable in layer.gives}
    assert set(after.data_vars) - set(found.data_vars) == promised
    for variable in layer.gives:
        assert after[variable.name].dims == variable.dims
        assert after[variable.name].attrs == {
            "units": variable.unit,
            "long_name": variable.meaning,
            "made_by": layer.name,
        }


@each_layer
def test_a_layer_leaves_its_input_as_it_was(layer: Layer) -> None:
    found = made_before(layer)
    kept = found.copy(deep=True)
    layer.add_to(found)
    xr.testing.assert_identical(found, kept)


@each_layer
def test_a_layer_reads_only_what_it_says_it_needs(layer: Layer) -> None:
    found = made_before(layer)
    needed = [variable.name for variable in layer.needs]
    # Dimensions are known from the outlines, whatever else is left out.
    sizes = xr.Dataset(coords={name: found[name] for name in ("block", "source", "day")})
    bare = sizes.merge(found[needed]).assign_attrs(found.attrs)
    expected, got = layer.compute(found), layer.compute(bare)
    xr.testing.assert_identical(got, expected)


@settings(max_examples=20)
@given(order=st.permutations(range(BLOCK_COUNT)))
def test_permuting_the_blocks_permutes_the_results(order: list[int]) -> None:
    season = made_season()
    expected = through(season).isel(block=order, source=[*order, *range(BLOCK_COUNT, SOURCE_COUNT)])
    got = through(permuted(season, order))
    for name, variable in VOCABULARY.items():
        if "block" in variable.dims and name not in OF_SPOTS and name in got:
            if got[name].dtype.kind == "U":
                assert got[name].values.tolist() == expected[name].values.tolist()
            else:
                np.testing.assert_allclose(
                    got[name].values, expected[name].values, rtol=1e-12, atol=1e-12, err_msg=name
                )


@given(block=st.integers(0, BLOCK_COUNT - 1))
def test_unknown_ground_stays_in_its_own_block(block: int) -> None:
    season = made_season()
    grid = season.elevation_grid.values.copy()
    grid.ravel()[_cells(CORNERS[block])] = np.nan
    with_gap = through(season.assign(elevation_grid=(("row", "column"), grid)))
    assert with_gap.terrain_covered.values.tolist() == [
        0.0 if place == block else 1.0 for place in range(BLOCK_COUNT)
    ]
    for name in ("slope", "topographic_position", "depression_depth", "cold_air_accumulation"):
        is_nan = np.isnan(with_gap[name].values.reshape(BLOCK_COUNT, -1)).any(axis=1)
        assert np.flatnonzero(is_nan).tolist() == [block], name


@given(block=st.integers(0, BLOCK_COUNT - 1))
def test_a_block_without_ground_lies_as_the_station_does_and_is_ranked_in_doubt(
    block: int,
) -> None:
    season = made_season()
    grid = season.elevation_grid.values.copy()
    grid.ravel()[_cells(CORNERS[block])] = np.nan
    known, with_gap = (
        through(season),
        through(season.assign(elevation_grid=season.elevation_grid.copy(data=grid))),
    )
    assert np.isfinite(with_gap.hazard_ahead.values).all()
    assert np.isfinite(with_gap.factors.values).all()
    assert with_gap.elevation.values[block] == float(season.station_elevation)
    assert with_gap.pool_depth.values[block] == float(with_gap.station_pool_depth)
    assert (with_gap.wind_share.values[block] == 1.0).all()
    factors = [str(name) for name in with_gap.factor.values]
    assert with_gap.factors.values[block, factors.index("cool pool")] == 1.0
    doubts = known.doubt.values, with_gap.doubt.values
    assert doubts[1][block] > doubts[0][block]
    # Its spores change a little, and with them what its neighbours' own ones weigh.
    np.testing.assert_allclose(np.delete(doubts[1] / doubts[0], block), 1.0, atol=0.05)


def test_every_need_is_read_from_files_or_given_earlier_and_nothing_is_given_twice() -> None:
    known = {str(name) for name in made_season().data_vars}
    for layer in ORDER:
        assert {variable.name for variable in layer.needs} <= known, layer.name
        given_now = {variable.name for variable in layer.gives}
        assert not given_now & known, layer.name
        known |= given_now
    assert known == set(VOCABULARY)


def test_each_layer_speaks_the_vocabulary() -> None:
    for layer in ORDER:
        for variable in (*layer.needs, *layer.gives):
            assert VOCABULARY[variable.name] is variable
