"""What people are told of a block's ground."""

import numpy as np
import pytest
import xarray as xr

from geo.ranking.ground import ground_words, of_known_ground
from geo.terrain import TERRAIN
from tests.laws.made_season import COLUMNS, made_season, replaced


def after_terrain(**arrays: object) -> xr.Dataset:
    return TERRAIN.add_to(replaced(made_season(), **arrays))


def test_good_ground_needs_no_words() -> None:
    # Blocks 3 and 4 lie far enough inside the grid.
    assert ground_words(after_terrain(), 2) == ""
    assert ground_words(after_terrain(), 3) == ""


def test_a_block_off_the_file_is_said_to_lie_as_the_station_does() -> None:
    season = made_season()
    season = TERRAIN.add_to(season.isel(cover=season.cover_block.values != 2))
    words = ground_words(season, 2)
    assert words.startswith("Ground: the elevation file has none of it, so that height and cool")
    assert words.endswith("; may be 2.1 times more or less by that alone.")
    assert np.flatnonzero(np.isnan(of_known_ground(season, "elevation"))).tolist() == [2]
    assert np.isfinite(season.elevation.values).all()


def test_each_reason_is_named() -> None:
    season = made_season()
    grid = season.elevation_grid.values.copy()
    cells = season.cover_cell.values[season.cover_block.values == 2]
    grid.ravel()[cells[:30]] = np.nan
    sizes = np.array([60.0, 60.0, 60.0, 0.8, 60.0])
    season = after_terrain(elevation_grid=grid, block_cells=sizes, vertical_error=4.0)
    assert ground_words(season, 2).startswith(
        "Ground: the elevation file has 50 % of it and heights may be off by 4.0 m; may be "
    )
    assert "it is smaller than a cell of the elevation file and heights" in ground_words(season, 3)


@pytest.mark.parametrize("gap", [slice(0, 27 * COLUMNS), slice(34 * COLUMNS, None)])
def test_gaps_around_are_named_where_they_weigh(gap: slice) -> None:
    season = made_season()
    grid = season.elevation_grid.values.copy()
    grid.ravel()[gap] = np.nan
    cells = season.cover_cell.values[season.cover_block.values == 2]
    grid.ravel()[cells] = season.elevation_grid.values.ravel()[cells]
    season = after_terrain(elevation_grid=grid)
    assert season.terrain_covered.values[2] == 1.0
    assert "the elevation file ends or has gaps close to it" in ground_words(season, 2)
