"""The terrain layer on the made season."""

import numpy as np
import pytest
from hypothesis import given as made_of
from hypothesis import settings
from hypothesis import strategies as st

from geo.reference.number import values
from geo.terrain import TERRAIN
from geo.terrain.layer import terrain_of
from tests.laws.made_season import COLUMNS, ROWS, made_season, replaced


def test_the_block_in_the_hollow_lies_deepest_and_all_blocks_are_covered() -> None:
    given = TERRAIN.compute(made_season())
    assert given.pool_depth.values.argmax() == 2
    assert given.terrain_covered.values.tolist() == [1.0] * 5


def test_a_block_half_on_unknown_ground_is_half_covered() -> None:
    season = made_season()
    grid = season.elevation_grid.values.copy()
    cells = season.cover_cell.values[season.cover_block.values == 0]
    grid.ravel()[cells[: cells.size // 2]] = np.nan
    given = TERRAIN.compute(replaced(season, elevation_grid=grid))
    assert given.terrain_covered.values[0] == pytest.approx(0.5)
    assert np.isfinite(given.elevation.values[0])


def test_the_station_takes_the_depth_of_its_cell() -> None:
    season = made_season()
    cell = 28 * COLUMNS + 30
    given = TERRAIN.compute(replaced(season, station_cell=[cell]))
    assert float(given.station_pool_depth) == given.pool_depth_grid.values.ravel()[cell] > 5.0


@pytest.mark.parametrize("cell", [-1, 28 * COLUMNS + 30], ids=["off the map", "no ground"])
def test_a_station_on_unknown_ground_stands_in_no_pool(cell: int) -> None:
    season = made_season()
    grid = season.elevation_grid.values.copy()
    grid[28, 30] = np.nan
    given = TERRAIN.compute(replaced(season, elevation_grid=grid, station_cell=[cell]))
    assert float(given.station_pool_depth) == 0.0


def test_the_pool_at_several_stations_is_weighted_and_one_off_the_map_stands_in_none() -> None:
    season = made_season()
    bottom = int(TERRAIN.compute(season).pool_depth_grid.values.argmax())
    both = {"station_cell": [bottom, -1], "station_weight": [0.25, 0.75]}
    alone = TERRAIN.compute(replaced(season, station_cell=[bottom], station_weight=[1.0]))
    given = TERRAIN.compute(replaced(season.drop_dims("station"), **both))
    assert float(alone.station_pool_depth) > 5.0
    assert float(given.station_pool_depth) == 0.25 * float(alone.station_pool_depth)


def test_a_dam_round_the_hollow_makes_its_block_deeper_and_no_station_or_height_moves() -> None:
    season = made_season()
    rows = np.arange(22, 36)
    cells = np.concatenate([rows * COLUMNS + column for column in (25, 36)])
    cells = np.concatenate(
        [cells, np.arange(25, 37) + 22 * COLUMNS, np.arange(25, 37) + 35 * COLUMNS]
    )
    drawn = {
        "line_cell": cells,
        "line_is_drain": np.zeros(cells.size, dtype=np.int64),
        "line_height": np.full(cells.size, 6.0),
    }
    without = TERRAIN.compute(season)
    given = TERRAIN.compute(replaced(season.drop_dims("line"), **drawn))
    assert given.pool_depth.values[2] > without.pool_depth.values[2] + 1.0
    assert given.depression_depth.values[2] > without.depression_depth.values[2] + 1.0
    np.testing.assert_array_equal(given.elevation, without.elevation)
    np.testing.assert_array_equal(given.slope, without.slope)
    np.testing.assert_array_equal(given.pool_depth.values[0], without.pool_depth.values[0])


def test_a_block_half_off_the_grid_is_half_covered() -> None:
    season = made_season()
    is_kept = (season.cover_block.values != 0) | (np.arange(season.sizes["cover"]) % 2 == 0)
    given = TERRAIN.compute(season.isel(cover=is_kept))
    assert given.terrain_covered.values.tolist() == [0.5, 1.0, 1.0, 1.0, 1.0]
    doubt = given.terrain_doubt.values
    assert doubt[0] > doubt[1:].max()


def test_a_block_wholly_off_the_grid_lies_as_the_station_does() -> None:
    season = made_season()
    given = TERRAIN.compute(season.isel(cover=season.cover_block.values != 3))
    assert given.terrain_covered.values.tolist() == [1.0, 1.0, 1.0, 0.0, 1.0]
    assert given.elevation.values[3] == float(season.station_elevation)
    assert given.pool_depth.values[3] == float(given.station_pool_depth)
    assert given.wind_share.values[3].tolist() == [1.0] * 16
    assert np.isnan(given.slope.values[3])
    parts = values("microclimate", "ground")
    assert given.terrain_doubt.values[3] == np.hypot(parts["missing_doubt"], parts["edge_doubt"])


def test_good_ground_leaves_no_doubt_and_the_rim_of_the_grid_some() -> None:
    season = made_season()
    rim = np.arange(60)  # the first row of cells, as a block of its own
    at_rim = replaced(
        season.drop_dims("cover"),
        cover_block=np.r_[np.zeros(60, dtype=int), np.full(60, 1)],
        cover_cell=np.r_[30 * COLUMNS + np.arange(15, 45), 31 * COLUMNS + np.arange(15, 45), rim],
        cover_share=np.ones(120),
    )
    doubt = TERRAIN.compute(at_rim).terrain_doubt.values
    assert doubt[0] == 0.0
    assert 0.5 * 0.3 < doubt[1] < 0.3


def test_small_blocks_on_large_cells_are_in_doubt() -> None:
    season = replaced(made_season(), block_cells=np.array([0.4, 60.0, 60.0, 60.0, 60.0]))
    doubt = TERRAIN.compute(season).terrain_doubt.values
    assert doubt[0] > doubt[1:].max()


def test_what_lies_within_the_vertical_error_is_no_pool_and_the_error_leaves_doubt() -> None:
    season = made_season()
    sure, unsure = (TERRAIN.compute(replaced(season, vertical_error=error)) for error in (0.0, 3.0))
    deepest = float(sure.pool_depth_grid.max())
    assert 0.0 < float(unsure.pool_depth_grid.max()) < deepest - 2.5
    is_shallow = sure.pool_depth_grid.values < 2.0
    assert (unsure.pool_depth_grid.values[is_shallow] == 0.0).all()
    assert (unsure.pool_depth.values <= sure.pool_depth.values).all()
    assert (unsure.depression_depth.values <= sure.depression_depth.values).all()
    grown = unsure.terrain_doubt.values**2 - sure.terrain_doubt.values**2
    np.testing.assert_allclose(grown, (3.0 * values("microclimate", "ground")["error_doubt"]) ** 2)
    np.testing.assert_array_equal(unsure.elevation, sure.elevation)


@settings(max_examples=15, deadline=None)
@made_of(most_cells=st.integers(1, ROWS * COLUMNS), is_level=st.booleans(), has_gaps=st.booleans())
def test_the_layer_in_bands_is_the_layer_at_once(
    most_cells: int, *, is_level: bool, has_gaps: bool
) -> None:
    season = made_season(is_level=is_level)
    drawn = {
        "line_cell": np.arange(25, 37) + 30 * COLUMNS,
        "line_is_drain": np.arange(12) % 2,
        "line_height": np.full(12, 4.0),
    }
    grid = season.elevation_grid.values.copy()
    grid[35, 15:45] = np.nan if has_gaps else grid[35, 15:45]
    season = replaced(season.drop_dims("line"), elevation_grid=grid, **drawn)
    whole = terrain_of(season)
    in_bands = terrain_of(season, most_cells=most_cells)
    assert set(in_bands.data_vars) == {variable.name for variable in TERRAIN.gives}
    for name, array in in_bands.data_vars.items():
        # Beside gaps, planes through the ground are fitted another way: micrometres apart.
        np.testing.assert_allclose(array, whole[name], rtol=1e-9, atol=2e-6, err_msg=str(name))
