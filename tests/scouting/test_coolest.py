"""The coolest tenth of a block: a tenth of it, within it, its deepest cells, or none."""

import geopandas as gpd
import numpy as np
import shapely
import xarray as xr
from hypothesis import given
from hypothesis import strategies as st

from geo.reference.number import values
from geo.scouting.coolest import _polygons, _squares, coolest_tenth, is_coolest_tenth
from tests.demo_run import demo_outcome
from tests.exports.made import made

LEAST = {"least_difference": values("microclimate", "coolest")["least_difference"]}
depths = st.lists(st.floats(0.0, 40.0), min_size=1, max_size=60)


def of_demo() -> tuple[gpd.GeoDataFrame, gpd.GeoDataFrame]:
    outcome = demo_outcome()
    return outcome.farm.blocks, coolest_tenth(outcome.farm, outcome.season)


def test_it_is_a_tenth_of_the_block_and_within_it() -> None:
    blocks, tenth = of_demo()
    assert len(tenth) > 10
    assert tenth.crs == blocks.crs
    own = blocks.loc[tenth.index]
    share = tenth.area / own.area
    # The last cell carries it over: a cell of 64 square metres in blocks of hectares.
    assert share.between(0.0999, 0.104).all()
    assert (tenth.geometry.difference(own.geometry.buffer(0.01)).area == 0).all()
    assert set(tenth.geom_type) <= {"Polygon", "MultiPolygon"}


def test_it_is_cooler_there_than_in_the_rest_of_the_block() -> None:
    season = demo_outcome().season
    cell, block = season.cover_cell.values, season.cover_block.values
    share = season.cover_share.values
    depth = season.pool_depth_grid.values.ravel()[cell]
    chosen = is_coolest_tenth(
        depth, season.elevation_grid.values.ravel()[cell], block, share, **LEAST
    )
    night = season.last_night_temperature_grid.values.ravel()[cell]
    for one in np.unique(block[chosen]):
        inside, rest = (block == one) & chosen, (block == one) & ~chosen
        assert depth[inside].min() >= depth[rest].max()
        assert night[inside].mean() < night[rest].mean()


@given(depth=depths)
def test_it_reaches_a_tenth_and_not_a_cell_more(depth: list[float]) -> None:
    pool = np.array(depth)
    count = pool.size
    chosen = is_coolest_tenth(
        pool, np.zeros(count), np.zeros(count, dtype=int), np.ones(count), **LEAST
    )
    assert chosen.sum() in {0, np.ceil(count / 10)}
    if chosen.any():
        assert pool[chosen].min() >= pool[~chosen].max(initial=0.0)
        assert pool[chosen].mean() > pool.mean() + LEAST["least_difference"]


@given(depth=depths, seed=st.integers(0, 99))
def test_permuting_the_cells_permutes_the_choice(depth: list[float], seed: int) -> None:
    pool, height = np.array(depth), np.arange(float(len(depth)))
    order = np.random.default_rng(seed).permutation(pool.size)
    block, share = np.arange(pool.size) % 2, np.full(pool.size, 0.7)
    chosen = is_coolest_tenth(pool, height, block, share, **LEAST)
    turned = is_coolest_tenth(pool[order], height[order], block[order], share[order], **LEAST)
    np.testing.assert_array_equal(turned, chosen[order])


def test_even_or_unknown_ground_has_none() -> None:
    for fill in (0.0, 7.0, np.nan):
        season = made().season.copy(deep=True)
        season["pool_depth_grid"][:] = fill
        assert coolest_tenth(made().farm, season).empty


def test_unknown_ground_stays_in_its_block() -> None:
    season = made().season.copy(deep=True)
    whole = coolest_tenth(made().farm, season)
    first = season["cover_cell"].values[season["cover_block"].values == 0]
    season["pool_depth_grid"].values.ravel()[first] = np.nan
    assert set(whole.index) - set(coolest_tenth(made().farm, season).index) <= {"B01"}


def test_where_a_cell_only_touches_the_outline_no_line_or_point_is_left() -> None:
    one, other = shapely.box(0, 0, 1, 1), shapely.box(2, 0, 3, 1)
    line = shapely.LineString([(5, 0), (5, 1)])
    shapes = np.array(
        [shapely.GeometryCollection([one, line]), line, shapely.MultiPolygon([one, other])]
    )
    cleaned = _polygons(shapes)
    assert [shape.geom_type for shape in cleaned] == ["Polygon", "Polygon", "MultiPolygon"]
    assert shapely.area(cleaned).tolist() == [1.0, 0.0, 2.0]


@given(west=st.floats(0.0, 1e6), width=st.floats(0.3, 30.0))
def test_cells_side_by_side_unite_without_a_seam(west: float, width: float) -> None:
    season = xr.Dataset(
        {"cell_width": width, "cell_height": width, "column": ("column", np.arange(5))},
        attrs={"grid_west": west, "grid_north": west / 3.0},
    )
    squares = _squares(np.arange(25), season)
    united = shapely.coverage_union_all(squares)
    assert (united.geom_type, len(united.interiors)) == ("Polygon", 0)
    assert shapely.coverage_is_valid(squares)
