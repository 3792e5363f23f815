"""Faults of the elevation file through the reader: each said, none a silent zero."""

import numpy as np
import pytest
from rasterio.warp import Resampling

from tests.inputs.ground_files import ELEVATION, coarser, in_degrees, rewrite


def codes(farm):
    return [issue.code for issue in farm.read()[0].issues if "GROUND" in issue.code]


def test_good_ground_has_no_faults(farm) -> None:
    assert codes(farm) == []


def test_cells_larger_than_blocks_are_noted(farm) -> None:
    coarser(farm.folder, 180.0)
    note = farm.only("E-GROUND-COARSE")
    assert (note.outcome, note.where) == ("NOTE", ELEVATION)
    assert note.found.startswith("cells of 180 × 180 m are too large for ")
    assert "blocks, the first " in note.found
    cells = farm.read()[1].block_cells.values
    assert f"for {int((cells < 1.0).sum())} blocks" in note.found


def test_cells_larger_than_the_surroundings_are_too_coarse_for_every_block(farm, demo) -> None:
    coarser(farm.folder, 600.0)
    assert f"for {len(demo[0].blocks)} blocks" in farm.only("E-GROUND-COARSE").found


def test_a_grid_that_ends_close_to_a_block_is_noted(farm, demo) -> None:
    east = demo[0].blocks.total_bounds[2]
    rewrite(
        farm.folder, lambda grid, x, _: np.where(x > east + 100.0, -9999.0, grid), nodata=-9999.0
    )
    note = farm.only("E-GROUND-EDGE")
    assert (note.outcome, note.where) == ("NOTE", ELEVATION)
    assert note.found.startswith("ends, or is unknown, within 300 m of ")
    assert codes(farm) == ["E-GROUND-EDGE"]


def test_unknown_ground_inside_a_block_is_noted_too(farm, demo) -> None:
    middle = demo[0].blocks.loc["B12"].geometry.representative_point()
    rewrite(
        farm.folder,
        lambda grid, x, y: np.where(np.hypot(x - middle.x, y - middle.y) < 12.0, -9999.0, grid),
        nodata=-9999.0,
    )
    assert codes(farm)[-1] == "E-GROUND-EDGE"
    season = farm.read()[1]
    assert np.isnan(season.elevation_grid.values).sum() in range(4, 13)


def test_whole_metres_are_noted_and_carry_half_a_step_of_error(farm) -> None:
    rewrite(farm.folder, lambda grid, *_: np.round(grid))
    note = farm.only("E-GROUND-STEPS")
    assert note.outcome == "NOTE"
    assert "steps of 1 m: pools count as shallower by 0.5 m" in note.found
    assert float(farm.read()[1].vertical_error) == 0.5


def test_whole_feet_carry_half_a_foot(farm) -> None:
    rewrite(farm.folder, lambda grid, *_: np.round(grid / 0.3048), unit="ft")
    assert "steps of 0.305 m: pools count" in farm.only("E-GROUND-STEPS").found
    assert float(farm.read()[1].vertical_error) == pytest.approx(0.1524)


def test_whole_metres_are_seen_before_they_are_turned_into_another_system(farm) -> None:
    rewrite(farm.folder, lambda grid, *_: np.round(grid))
    in_degrees(farm.folder, resampling=Resampling.nearest)
    assert farm.only("E-GROUND-STEPS").outcome == "NOTE"
    heights = farm.read()[1].elevation_grid.values
    assert (heights[np.isfinite(heights)] % 1.0 > 0.01).any()


def test_the_user_s_own_error_counts_before_that_of_the_steps(farm) -> None:
    farm.swap("farm.toml", "# vertical_error = 2.0", "vertical_error = 2.5")
    assert "may be off by 2.5 m as farm.toml states" in farm.only("E-GROUND-ERROR").found
    assert float(farm.read()[1].vertical_error) == 2.5
    rewrite(farm.folder, lambda grid, *_: np.round(grid))
    assert "shallower by 2.5 m" in farm.only("E-GROUND-STEPS").found
    farm.swap("farm.toml", "vertical_error = 2.5", "vertical_error = 0")
    assert float(farm.read()[1].vertical_error) == 0.0


@pytest.mark.parametrize("error", ["-1", "60", '"two"'])
def test_an_error_there_is_none_of_is_refused(farm, error) -> None:
    farm.swap("farm.toml", "# vertical_error = 2.0", f"vertical_error = {error}")
    assert 'key "terrain.vertical_error"' in farm.stopped()[0].where


def test_feet_that_nobody_named_stop_with_a_question(farm) -> None:
    rewrite(farm.folder, lambda grid, *_: grid / 0.3048)
    stop = farm.stop("E-GROUND-FEET")
    assert stop.where == ELEVATION
    assert stop.found.startswith("heights are 3.28 times what is stated for the weather stations")
    assert stop.found.endswith("are they feet?")


def test_feet_that_are_named_are_turned_and_raise_no_question(farm, demo) -> None:
    rewrite(farm.folder, lambda grid, *_: grid / 0.3048, unit="US survey foot")
    assert "0.3048006 m each" in farm.only("E-FEET").found
    heights = farm.read()[1].elevation_grid.values
    np.testing.assert_allclose(heights, demo[1].elevation_grid, rtol=1e-5)


@pytest.mark.parametrize("swap", ["longitude = -105.90", "elevation = 25"])
def test_without_a_station_that_can_tell_nobody_asks_for_feet(farm, swap) -> None:
    old = {"longitude": "longitude = -105.795271", "elevation": "elevation = 416"}
    farm.swap("farm.toml", old[swap.partition(" ")[0]], swap)
    rewrite(farm.folder, lambda grid, *_: grid + (82.0 - grid.mean()))
    assert codes(farm) == []


def test_a_hole_of_zeros_among_the_blocks_stops(farm, demo) -> None:
    hull = demo[0].blocks.union_all().convex_hull.centroid
    rewrite(
        farm.folder, lambda grid, x, y: np.where(np.hypot(x - hull.x, y - hull.y) < 30.0, 0.0, grid)
    )
    assert "exactly 0 m" in farm.stop("E-GROUND-ZERO").found


def test_a_mark_that_nobody_named_mixes_into_no_neighbour(farm, demo) -> None:
    # The corners that the turned file leaves empty hold -9999, and no tag says so.
    in_degrees(farm.folder)
    assert farm.only("E-HEIGHT-WILD").outcome == "FIX"
    heights = farm.read()[1].elevation_grid.values
    known = demo[1].elevation_grid.values
    assert np.nanmin(heights) > known.min() - 0.5
    assert np.nanmax(heights) < known.max() + 0.5
