"""Exact zeros: a hole among the blocks stops, other holes are masked, the sea stays."""

import geopandas as gpd
import numpy as np
import pytest
from pyproj import CRS
from shapely.geometry import box

from geo.inputs.ground_marks import without_wild, without_zeros
from geo.inputs.reading import Reading

CELL = 10.0
BLOCKS = gpd.GeoSeries(
    [box(200.0, 200.0, 260.0, 260.0), box(300.0, 200.0, 360.0, 260.0)], crs=CRS("EPSG:32613")
)
AMID = (slice(17, 19), slice(27, 29))  # between the two blocks
UNDER, OUTSIDE = (slice(15, 17), slice(22, 24)), (slice(2, 4), slice(3, 9))


def locate(column, row):
    return column * CELL, 400.0 - row * CELL


def found_in(tmp_path, heights, *, has_steps=False):
    """Return the ground without what stands for nothing, and what was said."""
    path = tmp_path / "ground.tif"
    path.write_bytes(b"")
    reading = Reading("elevation", path)
    left = without_zeros(reading, heights, locate=locate, outlines=BLOCKS, has_steps=has_steps)
    return left, [(issue.code, issue.outcome) for issue in reading.issues], reading.issues


def ground(height=400.0):
    rows, columns = np.mgrid[0:40, 0:60]
    return height + 0.1 * rows + 0.2 * columns


def test_ground_without_zeros_is_left_alone(tmp_path) -> None:
    heights = ground()
    assert found_in(tmp_path, heights)[0] is heights


@pytest.mark.parametrize("where", [AMID, UNDER])
def test_a_deep_hole_among_the_blocks_stops_the_run(tmp_path, where) -> None:
    heights = ground()
    heights[where] = 0.0
    _, said, issues = found_in(tmp_path, heights)
    assert said == [("E-GROUND-ZERO", "STOP")]
    assert "4 cells among the blocks are exactly 0 m, the ground around them 40" in issues[0].found
    assert issues[0].found.endswith("is 0 a mark for nothing?")


@pytest.mark.parametrize(("where", "height"), [(OUTSIDE, 400.0), (AMID, 20.0), (UNDER, 20.0)])
def test_another_hole_is_masked_and_said(tmp_path, where, height) -> None:
    heights = ground(height)
    heights[where] = 0.0
    left, said, issues = found_in(tmp_path, heights)
    assert said == [("E-GROUND-ZERO", "FIX")]
    np.testing.assert_array_equal(np.isnan(left), heights == 0.0)
    assert f"{(heights == 0.0).sum()} cells are exactly 0 m" in issues[0].found


def sea(*, to_column):
    """Return a beach that rises from a flat sea in the west."""
    columns = np.mgrid[0:40, 0:60][1]
    return np.maximum(0.7 * (columns - to_column), 0.0)


@pytest.mark.parametrize("has_steps", [False, True])
def test_a_sea_beside_the_farm_stays_at_sea_level(tmp_path, has_steps) -> None:
    heights = sea(to_column=15)
    left, said, _ = found_in(tmp_path, heights, has_steps=has_steps)
    np.testing.assert_array_equal(left, heights)
    assert said == []


def test_no_block_lies_in_the_sea(tmp_path) -> None:
    heights = sea(to_column=23)
    left, said, _ = found_in(tmp_path, heights)
    assert said == [("E-GROUND-ZERO", "FIX")]
    assert np.isnan(left[15, 21])
    assert left[2, 2] == 0.0


def test_low_ground_of_whole_metres_may_be_0_and_is_said(tmp_path) -> None:
    heights = np.round(sea(to_column=23))
    left, said, issues = found_in(tmp_path, heights, has_steps=True)
    np.testing.assert_array_equal(left, heights)
    assert said == [("E-GROUND-ZERO", "NOTE")]
    assert issues[0].found.endswith("cells under blocks are 0 m, taken as ground")


def test_nothing_but_zeros_is_no_ground_for_a_block(tmp_path) -> None:
    left, said, _ = found_in(tmp_path, np.zeros((40, 60)))
    assert said == [("E-GROUND-ZERO", "FIX")]
    assert np.isnan(left).sum() == 2 * 36


def test_what_is_wild_is_quoted_as_the_file_has_it(tmp_path) -> None:
    path = tmp_path / "ground.tif"
    path.write_bytes(b"")
    reading = Reading("elevation", path)
    heights = 0.3048 * np.array([[1300.0, -9999.0], [-32768.0, np.nan]])
    left = without_wild(reading, heights, metres=0.3048)
    assert np.isnan(left).tolist() == [[False, True], [True, True]]
    assert '2 cells such as "-9999" are no heights' in reading.issues[0].found
