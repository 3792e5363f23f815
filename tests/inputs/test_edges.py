"""Edges wind the right way round, and points stand for the whole of their block."""

import numpy as np
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geo.inputs.edges import edges_of, points_of

HOLED = shapely.Polygon(
    [(0, 0), (0, 100), (100, 100), (100, 0)], [[(40, 40), (60, 40), (60, 60), (40, 60)]]
)
TWO_PARTS = shapely.MultiPolygon([shapely.box(200, 0, 250, 50), shapely.box(260, 0, 300, 50)])
# To the millimetre: no outline is drawn finer, and GEOS overflows on the smallest floats.
METRES = st.integers(-200_000, 200_000).map(lambda millimetres: millimetres / 1000.0)
BENT = shapely.Polygon([(0, 0), (90, 0), (90, 5), (5, 5), (5, 90), (0, 90)])


def signed_area(edges, source):
    is_own = edges.source == source
    (x0, y0), (x1, y1) = edges.start[is_own].T, edges.end[is_own].T
    return 0.5 * np.sum(x0 * y1 - x1 * y0)


def test_edges_go_round_the_area_on_their_left():
    edges = edges_of(np.array([HOLED, TWO_PARTS]))
    assert len(edges.source) == 8 + 8
    assert signed_area(edges, 0) == 100 * 100 - 20 * 20
    assert signed_area(edges, 1) == 90 * 50


def test_the_demo_s_edges_enclose_its_blocks(demo):
    read, season = demo
    x0, y0, x1, y1 = (
        season[f"edge_{name}"].values for name in ("start_x", "start_y", "end_x", "end_y")
    )
    x, y = x0.mean(), y0.mean()
    twice = (x0 - x) * (y1 - y) - (x1 - x) * (y0 - y)
    enclosed = np.bincount(season.edge_source.values, twice / 2)
    areas = [*read.blocks.geometry.area, *read.neighbours.geometry.area]
    np.testing.assert_allclose(enclosed, areas, rtol=1e-9)
    assert (enclosed > 0).all()


def test_points_of_the_demo_lie_in_their_blocks_and_add_up(demo):
    read, season = demo
    block = season.point_block.values
    np.testing.assert_allclose(np.bincount(block, season.point_share.values), 1.0, rtol=1e-12)
    outlines = read.blocks.geometry.to_numpy()[block]
    assert shapely.contains_xy(outlines, season.point_x.values, season.point_y.values).all()
    assert np.bincount(block).max() <= 16


def test_points_of_bent_and_holed_blocks_lie_inside():
    outlines = np.array([HOLED, TWO_PARTS, BENT])
    points = points_of(outlines)
    assert shapely.contains_xy(outlines[points.block], *points.place.T).all()


@given(
    st.lists(st.tuples(METRES, METRES), min_size=3, max_size=12),
    st.floats(-1e6, 1e6),
)
def test_shares_add_up_and_shifting_a_block_shifts_its_points(spots, shift):
    hull = shapely.MultiPoint(spots).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 1.0:
        return
    points = points_of(np.array([hull]))
    assert np.isclose(points.share.sum(), 1.0, rtol=1e-12)
    middle = (points.place * points.share[:, np.newaxis]).sum(axis=0)
    np.testing.assert_allclose(middle, shapely.get_coordinates(hull.centroid)[0], atol=1e-3)
    moved = points_of(shapely.transform(np.array([hull]), lambda spot: spot + shift))
    assert np.isclose(moved.share.sum(), 1.0, rtol=1e-12)
