"""Elevation: any grid becomes metres on a north-up grid of the farm's own system."""

import geopandas as gpd
import numpy as np
import pytest
import rasterio
from pyproj import CRS, Transformer
from rasterio.warp import Resampling, reproject, transform_bounds
from shapely.geometry import box

from geo.errors import InputError
from geo.inputs.elevation import read_elevation
from geo.inputs.reading import Reading

ELEVATION = "elevation.tif"
SYSTEM = CRS.from_epsg(32613)
BLOCKS = gpd.GeoSeries([box(418200.0, 2621300.0, 419500.0, 2622900.0)], crs=SYSTEM)


@pytest.fixture
def ground():
    """Return a slope, whose values tell where a cell is."""
    rows, columns = np.mgrid[0:240, 0:200]
    return (400.0 + 0.2 * columns - 0.1 * rows).astype("float32")


def from_corner(west, north):
    """Return where cells of 8 m lie, by the outer corner of the first."""
    return rasterio.Affine(8.0, 0.0, west, 0.0, -8.0, north)


def write(path, grid, *, crs="EPSG:32613", transform=None, nodata=None, unit=None):
    if transform is None:
        transform = from_corner(418000.0, 2623000.0)
    height, width = grid.shape
    options = {"driver": "GTiff", "count": 1, "dtype": grid.dtype, "width": width}
    with rasterio.open(
        path, "w", height=height, crs=crs, transform=transform, nodata=nodata, **options
    ) as raster:
        raster.write(grid, 1)
        if unit:
            raster.units = (unit,)
    return Reading("elevation", path)


def read(reading):
    return read_elevation(reading, outlines=BLOCKS)


def centres(ground):
    rows, columns = ground.grid.shape
    x = ground.west + (np.arange(columns) + 0.5) * ground.cell_width
    y = ground.north - (np.arange(rows) + 0.5) * ground.cell_height
    return np.meshgrid(x, y)


def expected(ground):
    """Return the slope of the fixture, anywhere."""
    x, y = centres(ground)
    return 400.0 + 0.2 * ((x - 418000.0) / 8.0 - 0.5) - 0.1 * ((2623000.0 - y) / 8.0 - 0.5)


def test_a_grid_of_the_farm_s_system_is_read_just_as_it_is(tmp_path, ground):
    reading = write(tmp_path / ELEVATION, ground)
    found = read(reading)
    np.testing.assert_array_equal(found.grid, ground)
    assert (found.west, found.north) == (418000.0, 2623000.0)
    assert (found.cell_width, found.cell_height) == (8.0, 8.0)
    assert reading.used == ground.size


def test_only_the_farm_and_some_ground_around_it_is_read(tmp_path, ground):
    small = gpd.GeoSeries([box(418900.0, 2622000.0, 419000.0, 2622100.0)], crs=SYSTEM)
    wide = np.tile(ground, (4, 4))
    reading = write(tmp_path / ELEVATION, wide, transform=from_corner(416000.0, 2625000.0))
    found = read_elevation(reading, outlines=small)
    assert found.grid.shape[1] * 8 == pytest.approx(100 + 2 * 2000, abs=16)
    assert found.west <= 416900.0 < found.west + 8
    assert found.north - 8 < 2624100.0 <= found.north
    first = int((found.west - 416000) / 8), int((2625000 - found.north) / 8)
    rows, columns = found.grid.shape
    same = wide[first[1] : first[1] + rows, first[0] : first[0] + columns]
    np.testing.assert_array_equal(found.grid, same)


def test_unknown_cells_are_not_a_number(tmp_path, ground):
    ground[10, 20] = -9999.0
    reading = write(tmp_path / ELEVATION, ground, nodata=-9999.0)
    found = read(reading)
    assert np.argwhere(np.isnan(found.grid)).tolist() == [[10, 20]]
    assert reading.used == ground.size - 1


def test_whole_metres_are_numbers_too(tmp_path, ground):
    whole = ground.astype("int16")
    whole[0, 0] = -32768
    found = read(write(tmp_path / ELEVATION, whole, nodata=-32768))
    assert np.isnan(found.grid[0, 0])
    assert found.grid[1, 1] == whole[1, 1]


@pytest.mark.parametrize("system", ["EPSG:4326", "EPSG:32612", "EPSG:3857"])
def test_a_grid_of_another_system_is_turned_into_the_farm_s(tmp_path, ground, system):
    here = from_corner(418000.0, 2623000.0)
    west, south, east, north = transform_bounds(
        "EPSG:32613", system, 418000, 2621080, 419600, 2623000
    )
    there = rasterio.Affine((east - west) / 200, 0.0, west, 0.0, (south - north) / 240, north)
    other = np.full((240, 200), -9999.0, dtype="float32")
    reproject(
        ground,
        other,
        src_transform=here,
        src_crs="EPSG:32613",
        dst_transform=there,
        dst_crs=system,
        dst_nodata=-9999.0,
        resampling=Resampling.bilinear,
    )
    reading = write(tmp_path / ELEVATION, other, crs=system, transform=there, nodata=-9999.0)
    found = read(reading)
    assert found.cell_width == found.cell_height == pytest.approx(8.0, rel=0.15)
    error = found.grid - expected(found)
    inner = error[15:-15, 15:-15]
    assert np.isfinite(inner).all()
    assert np.abs(inner).max() < 0.05


def test_a_grid_that_runs_north_is_turned(tmp_path, ground):
    upward = rasterio.Affine(8.0, 0.0, 418000.0, 0.0, 8.0, 2621080.0)
    found = read(write(tmp_path / ELEVATION, ground[::-1].copy(), transform=upward))
    error = found.grid - expected(found)
    assert np.nanmax(np.abs(error)) < 0.05


@pytest.mark.parametrize("unit", ["ft", "Foot"])
def test_feet_become_metres_and_are_said(tmp_path, ground, unit):
    reading = write(tmp_path / ELEVATION, ground, unit=unit)
    np.testing.assert_allclose(read(reading).grid, ground * 0.3048, rtol=1e-6)
    assert [issue.code for issue in reading.issues] == ["E-FEET"]
    assert f'"{unit}"' in reading.issues[0].found


def test_a_grid_without_a_system_is_refused(tmp_path, ground):
    reading = write(tmp_path / ELEVATION, ground, crs=None)
    with pytest.raises(InputError, match=r"E-CRS-MISSING STOP elevation\.tif"):
        read(reading)


@pytest.mark.parametrize("transform", [(518000.0, 2623000.0), (418000.0, 2723000.0)])
@pytest.mark.parametrize("crs", ["EPSG:32613", "EPSG:32614"])
def test_a_grid_of_elsewhere_is_refused(tmp_path, ground, transform, crs):
    place = from_corner(*transform)
    reading = write(tmp_path / ELEVATION, ground, crs=crs, transform=place)
    with pytest.raises(InputError, match="does not touch the farm"):
        read(reading)


def test_a_file_that_is_no_grid_is_refused(farm):
    (farm.folder / ELEVATION).write_text("no grid", "utf-8")
    assert farm.stop("E-RASTER").where == ELEVATION


def test_a_cut_off_file_is_refused(farm):
    path = farm.folder / ELEVATION
    path.write_bytes(path.read_bytes()[:20000])
    assert farm.stop("E-RASTER").where == ELEVATION


def test_a_mark_for_nothing_that_nobody_named_is_taken_as_unknown(tmp_path, ground):
    ground[3:5, 7] = -9999.0
    reading = write(tmp_path / ELEVATION, ground)
    assert np.isnan(read(reading).grid).sum() == 2
    (issue,) = reading.issues
    assert issue.code == "E-HEIGHT-WILD"
    assert '2 cells such as "-9999" are' in issue.found


def test_a_system_without_a_place_on_the_earth_is_refused_in_a_line(tmp_path, ground):
    plan = (
        'LOCAL_CS["plan",UNIT["metre",1,AUTHORITY["EPSG","9001"]],'
        'AXIS["Easting",EAST],AXIS["Northing",NORTH]]'
    )
    with pytest.raises(InputError, match=r"E-CRS-UNUSABLE STOP elevation\.tif"):
        read(write(tmp_path / ELEVATION, ground, crs=plan))


def test_a_file_of_nothing_is_all_unknown(tmp_path, ground) -> None:
    reading = write(tmp_path / ELEVATION, np.full_like(ground, -9999.0), nodata=-9999.0)
    assert np.isnan(read(reading).grid).all()
    assert reading.used == 0


def test_a_system_that_shows_the_other_side_of_the_earth_is_elsewhere(tmp_path, ground) -> None:
    with pytest.raises(InputError, match="does not touch the farm"):
        read(write(tmp_path / ELEVATION, ground, crs="+proj=ortho +lat_0=-23 +lon_0=75"))


def test_a_file_that_ends_just_beyond_what_is_wanted_is_elsewhere(tmp_path, ground) -> None:
    # 10 m west of the halo around the blocks: within the cells that lines are drawn between.
    east, north = Transformer.from_crs(SYSTEM, 4326, always_xy=True).transform(416190, 2622500)
    cell = 8e-5
    place = rasterio.Affine(cell, 0.0, east - 200 * cell, 0.0, -cell, north)
    with pytest.raises(InputError, match="does not touch the farm"):
        read(write(tmp_path / ELEVATION, ground, crs="EPSG:4326", transform=place))


@pytest.mark.parametrize(("scale", "codes"), [(0.1, ["E-GROUND-STEPS"]), (0.01, [])])
def test_whole_numbers_with_a_scale_are_parts_of_a_metre(tmp_path, ground, scale, codes) -> None:
    reading = write(tmp_path / ELEVATION, np.round(ground / scale).astype("int32"))
    with rasterio.open(reading.path, "r+") as raster:
        raster.scales, raster.offsets = (scale,), (5.0,)
    found = read(reading)
    np.testing.assert_allclose(found.grid, ground + 5.0, atol=0.6 * scale)
    assert [issue.code for issue in reading.issues] == codes
    assert found.vertical_error == pytest.approx(0.05 if codes else 0.0)


@pytest.mark.parametrize("system", ["EPSG:32613", "EPSG:32613+5703"])
def test_heights_in_the_system_itself_change_no_place(tmp_path, ground, system) -> None:
    np.testing.assert_array_equal(
        read(write(tmp_path / ELEVATION, ground, crs=system)).grid, ground
    )
