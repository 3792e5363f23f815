"""Outlines survive their way to the page: parts, holes, long edges, and none at all."""

import geopandas as gpd
import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import MultiPolygon, Point, Polygon, box

from geo.exports.outlines import encoded_outlines, encoded_points, inside_circles

UNIT = 1e-6


def decoded(coded: dict[str, int | np.ndarray]) -> list[shapely.Geometry]:
    """Return the outlines again, by a plain loop that shares nothing with the encoder."""

    def numbers(name: str, kind: str) -> np.ndarray:
        told = coded[name]
        assert isinstance(told, np.ndarray)
        assert told.dtype == np.dtype(kind)
        return told

    corners = iter(numbers("corners", "<u4").tolist())
    starts = iter(numbers("starts", "<i4").reshape(-1, 2).tolist())
    steps = iter(numbers("steps", "<i2").reshape(-1, 2).tolist())
    outlines = []
    for ring_count in numbers("rings", "<u2").tolist():
        rings = []
        for _ in range(ring_count):
            x, y = next(starts)
            ring = [(x, y)]
            for _ in range(next(corners) - 1):
                step_x, step_y = next(steps)
                x, y = x + step_x, y + step_y
                ring.append((x, y))
            rings.append(np.array(ring) * UNIT)
        outlines.append(_assembled(rings))
    assert next(steps, None) is None
    assert len(outlines) == coded["count"]
    return outlines


def _assembled(rings: list[np.ndarray]) -> shapely.Geometry:
    parts: list[tuple[np.ndarray, list[np.ndarray]]] = []
    for ring in rings:
        if shapely.LinearRing(ring).is_ccw:
            parts.append((ring, []))
        else:
            parts[-1][1].append(ring)
    return shapely.union_all([Polygon(shell, holes) for shell, holes in parts])


def series(*outlines: shapely.Geometry) -> gpd.GeoSeries:
    return gpd.GeoSeries(list(outlines), crs=4326)


def assert_same(outlines: gpd.GeoSeries) -> None:
    for before, after in zip(outlines, decoded(encoded_outlines(outlines)), strict=True):
        assert shapely.hausdorff_distance(before.boundary, after.boundary) < 1.5 * UNIT
        assert after.symmetric_difference(before).area < 2 * UNIT * before.length


def test_parts_and_holes_come_back() -> None:
    holed = box(145.0, -17.1, 145.01, -17.09).difference(Point(145.005, -17.095).buffer(0.002))
    parts = MultiPolygon([box(145.02, -17.1, 145.03, -17.09), holed])
    assert_same(series(holed, parts, box(145.04, -17.1, 145.041, -17.099)))


def test_an_edge_too_long_for_a_step_is_cut_on_the_line() -> None:
    outlines = series(box(145.0, -17.5, 145.2, -17.3))
    after = decoded(encoded_outlines(outlines))[0]
    assert shapely.get_num_coordinates(after) > 5
    assert_same(outlines)


def test_no_outline_is_no_fault() -> None:
    coded = encoded_outlines(series())
    assert coded["count"] == 0
    assert decoded(coded) == []
    assert encoded_points(inside_circles(series())[:, :2], 32755).size == 0


@given(
    st.lists(
        st.tuples(
            st.floats(-179, 179), st.floats(-60, 60), st.floats(1e-4, 0.08), st.integers(3, 9)
        ),
        min_size=1,
        max_size=6,
    )
)
def test_any_outline_comes_back(shapes: list[tuple[float, float, float, int]]) -> None:
    outlines = []
    for east, north, radius, corners in shapes:
        turn = np.linspace(0, 2 * np.pi, corners, endpoint=False)
        outlines.append(
            Polygon(np.column_stack([east + radius * np.cos(turn), north + radius * np.sin(turn)]))
        )
    assert_same(series(*outlines))


def test_the_label_stands_well_inside_the_largest_part_and_not_in_a_hole() -> None:
    ring = box(0, 0, 100, 100).difference(box(30, 30, 70, 70))
    two = MultiPolygon([box(0, 0, 10, 10), box(200, 0, 260, 60)])
    points = inside_circles(gpd.GeoSeries([ring, two], crs=32755))
    assert ring.contains(shapely.Point(points[0, :2]))
    assert points[1] == pytest.approx([230, 30, 30], abs=2)
