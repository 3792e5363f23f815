"""The relief lies where the ground lies, is lit from the north-west, and is clear where unknown."""

import base64
import zlib
from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyproj import CRS, Transformer
from rasterio.errors import NotGeoreferencedWarning
from rasterio.io import MemoryFile

from geo.exports.picture import palette_png
from geo.exports.relief import LIGHT_HEIGHT_DEGREES, Relief, hillshade, relief
from geo.terrain.windows import in_row_windows

METRES = CRS.from_epsg(32755)
WEST, NORTH, CELL = 331_000.0, 8_108_000.0, 20.0


def picture_of(elevation: np.ndarray) -> tuple[np.ndarray, np.ndarray, Relief]:
    found = relief(elevation, cell_width=CELL, cell_height=CELL, west=WEST, north=NORTH, crs=METRES)
    assert found is not None
    content = base64.b64decode(found.picture.removeprefix("data:image/png;base64,"))
    with MemoryFile(content) as memory:
        with pytest.warns(NotGeoreferencedWarning):
            png = memory.open()
        places, colours = png.read(1), png.colormap(1)
        png.close()
    tones = np.array([colours.get(place, (0, 0, 0, 0)) for place in range(256)])
    return places, tones, found


def at(found: Relief, shape: tuple[int, int], x: float, y: float) -> tuple[int, int]:
    """Return the pixel that the web map would draw at a place of the farm."""
    east, north = Transformer.from_crs(METRES, 3857, always_xy=True).transform(x, y)
    to_web = Transformer.from_crs(4326, 3857, always_xy=True)
    left, bottom = to_web.transform(found.bounds[0][1], found.bounds[0][0])
    right, top = to_web.transform(found.bounds[1][1], found.bounds[1][0])
    column = int((east - left) / (right - left) * shape[1])
    row = int((top - north) / (top - bottom) * shape[0])
    return row, column


def test_level_ground_is_lit_by_the_sine_of_the_lights_height() -> None:
    lit = hillshade(np.full((4, 5), 7.0), cell_width=10.0, cell_height=10.0)
    assert lit == pytest.approx(np.sin(np.radians(LIGHT_HEIGHT_DEGREES)))


def test_slopes_that_face_north_west_are_brighter_than_those_that_face_south_east() -> None:
    south, east = np.mgrid[0:20, 0:20]
    facing = hillshade((south + east) * 2.0, cell_width=10.0, cell_height=10.0)
    away = hillshade((south + east) * -2.0, cell_width=10.0, cell_height=10.0)
    assert facing.min() > np.sin(np.radians(LIGHT_HEIGHT_DEGREES)) > away.max()


def test_a_slope_straight_at_the_light_is_fully_lit() -> None:
    # Tilted by 45 degrees towards the north-west: height grows to the south-east.
    south, east = np.mgrid[0:9, 0:9]
    lit = hillshade((south + east) / np.sqrt(2.0), cell_width=1.0, cell_height=1.0)
    assert lit == pytest.approx(1.0)


def test_a_ridge_is_drawn_where_it_stands() -> None:
    elevation = np.zeros((60, 80))
    elevation[:, 40] = 3.0  # a bank: bright on its western side, dark on its eastern
    places, _, found = picture_of(elevation)
    x = WEST + 40.5 * CELL
    for y in (NORTH - 15 * CELL, NORTH - 45 * CELL):
        row, column = at(found, places.shape, x, y)
        assert places[row, column - 1] > places[row, column - 5] > places[row, column + 1]


def test_rows_run_from_north_to_south() -> None:
    elevation = np.zeros((60, 80))
    elevation[:30] = np.mgrid[0:30, 0:80][1] * 3.0  # only the north faces west
    places, _, found = picture_of(elevation)
    north = at(found, places.shape, WEST + 800, NORTH - 10 * CELL)
    south = at(found, places.shape, WEST + 800, NORTH - 50 * CELL)
    assert places[north] > places[south]


def test_unknown_ground_is_clear_and_known_ground_is_solid() -> None:
    elevation = np.fromfunction(lambda row, column: np.sin(row / 5) * 9 + column, (50, 50))
    elevation[:20, :20] = np.nan
    places, tones, found = picture_of(elevation)
    unknown = places[at(found, places.shape, WEST + 200, NORTH - 200)]
    known = places[at(found, places.shape, WEST + 700, NORTH - 700)]
    assert unknown == 0
    assert tones[0, 3] == 0
    assert tones[known, 3] == 255


@pytest.mark.parametrize("elevation", [np.zeros((1, 9)), np.full((4, 4), np.nan)])
def test_no_ground_is_no_picture(elevation: np.ndarray) -> None:
    assert (
        relief(elevation, cell_width=CELL, cell_height=CELL, west=WEST, north=NORTH, crs=METRES)
        is None
    )


def test_a_png_holds_its_pixels_as_they_were() -> None:
    places = np.arange(12, dtype=np.uint8).reshape(3, 4) % 3
    content = palette_png(places, [(0, 0, 0, 0), (255, 0, 0, 255), (0, 0, 255, 255)])
    data = content[content.index(b"IDAT") + 4 : content.index(b"IEND") - 8]
    rows = np.frombuffer(zlib.decompress(data), dtype=np.uint8).reshape(3, 5)
    assert rows[:, 0].tolist() == [0, 0, 0]
    assert (rows[:, 1:] == places).all()


@given(seed=st.integers(0, 99), most_cells=st.integers(1, 200))
def test_ground_lit_in_bands_is_ground_lit_at_once(seed: int, most_cells: int) -> None:
    ground = np.random.default_rng(seed).normal(100.0, 5.0, (11, 13))
    lit = partial(hillshade, cell_width=10.0, cell_height=20.0)
    banded = in_row_windows(lit, ground, halo=1, most_cells=most_cells)
    np.testing.assert_allclose(banded, lit(ground), rtol=1e-12)
