"""The terrain layer on the made season."""

import numpy as np
import pytest

from geo.terrain import TERRAIN
from tests.laws.made_season import COLUMNS, made_season, replaced


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
