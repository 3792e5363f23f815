"""Cells and blocks: shares as exact as geometry, and blocks without ground said."""

import numpy as np
import rasterio
import shapely

ELEVATION = "elevation.tif"


def mask(farm, is_unknown):
    """Take the ground away where a function of x and y says so."""
    with rasterio.open(farm.folder / ELEVATION, "r+") as raster:
        grid = raster.read(1)
        columns, rows = np.meshgrid(np.arange(raster.width), np.arange(raster.height))
        x, y = raster.transform @ (columns + 0.5, rows + 0.5)
        grid[is_unknown(x, y)] = raster.nodata
        raster.write(grid, 1)


def test_shares_are_those_of_exact_geometry(demo):
    read, season = demo
    rows, columns = divmod(season.cover_cell.values, season.sizes["column"])
    west = season.attrs["grid_west"] + columns * 8.0
    north = season.attrs["grid_north"] - rows * 8.0
    cells = shapely.box(west, north - 8.0, west + 8.0, north)
    outlines = read.blocks.geometry.to_numpy()[season.cover_block.values]
    exact = shapely.area(shapely.intersection(outlines, cells)) / 64.0
    np.testing.assert_allclose(season.cover_share, exact, atol=1e-6)
    covered = np.bincount(season.cover_block.values, season.cover_share.values) * 64.0
    np.testing.assert_allclose(covered, read.blocks.geometry.area, rtol=1e-6)


def test_the_station_stands_on_its_cell(demo):
    read, season = demo
    row, column = divmod(int(season.station_cell[0]), season.sizes["column"])
    assert abs(season.elevation_grid.values[row, column] - read.station_elevation) < 1.0


def test_a_station_off_the_grid_has_no_cell(farm):
    farm.swap("farm.toml", "longitude = -105.795271", "longitude = -105.90")
    assert int(farm.read()[1].station_cell[0]) == -1


def test_a_block_without_ground_is_noted_and_the_run_goes_on(farm, demo):
    west, south, east, north = demo[0].blocks.loc["B07"].geometry.buffer(8.0).bounds
    mask(farm, lambda x, y: (x > west) & (x < east) & (y > south) & (y < north))
    notes = {issue.where: issue for issue in farm.issues("E-GROUND-COVER")}
    note = notes[f'{ELEVATION} block "B07"']
    assert note.outcome == "NOTE"
    assert 'covers 0 % of block "B07": height and cool pool are taken to be the' in note.found


def test_ground_of_no_block_at_all_stops_the_run(farm, demo):
    west, south, east, north = demo[0].blocks.total_bounds
    middle, reach = ((west + east) / 2, (south + north) / 2), (east - west) / 2 + (north - south)
    mask(farm, lambda x, y: np.hypot(x - middle[0], y - middle[1]) < reach)
    stop = farm.stop("E-GROUND-COVER")
    assert (stop.where, stop.found) == (ELEVATION, "covers none of 24 blocks")


def test_many_blocks_without_ground_are_said_once(farm, demo):
    _, south, _, north = demo[0].blocks.total_bounds
    middle = south + 0.8 * (north - south)
    mask(farm, lambda _, y: y < middle)
    note = farm.only("E-GROUND-COVER")
    assert note.where == ELEVATION
    assert "covers less than 90 % of 2" in note.found
    assert "where there is nothing, height and cool pool are taken" in note.found


def test_a_block_s_size_in_cells_counts_what_lies_off_the_grid(demo):
    read, season = demo
    np.testing.assert_allclose(season.block_cells, read.blocks.geometry.area / 64.0)


def test_a_block_with_little_ground_is_noted(farm, demo):
    west, _, east, _ = demo[0].blocks.loc["B18"].geometry.bounds
    mask(farm, lambda x, _: x > (west + east) / 2)
    notes = {issue.where: issue for issue in farm.issues("E-GROUND-COVER")}
    note = notes[f'{ELEVATION} block "B18"']
    assert note.outcome == "NOTE"
    assert 40 < float(note.found.split()[1]) < 60
    season = farm.read()[1]
    assert np.isnan(season.elevation_grid.values[:, -1]).all()


def test_a_grid_that_ends_within_the_farm_is_noted(farm, demo):
    _, south, _, north = demo[0].blocks.loc["B21"].geometry.bounds
    with rasterio.open(farm.folder / ELEVATION) as raster:
        profile, grid = raster.profile, raster.read(1)
    first = int((profile["transform"].f - (south + north) / 2) / 8.0)
    profile.update(height=profile["height"] - first)
    profile["transform"] @= rasterio.Affine.translation(0, first)
    with rasterio.open(farm.folder / ELEVATION, "w", **profile) as raster:
        raster.write(grid[first:], 1)
    assert any("B21" in issue.where for issue in farm.issues("E-GROUND-COVER"))
