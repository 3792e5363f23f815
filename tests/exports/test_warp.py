"""Grids on the web map: as large as a screen needs, in colours that keep their order."""

import numpy as np
import pytest
from pyproj import CRS

from geo.exports.page_ground import COLOURS, LOOKS, GroundLook, ground_data
from geo.exports.warp import ramp, warped
from tests.exports.made import Made

each_look = pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.key)
# Simulated colour blindness of full severity: Machado, Oliveira and Fernandes 2009, table of
# matrices for severity 1.0 (from memory of the published supplement).
BLIND = {
    "protan": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "deutan": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    "tritan": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
}


def linear(colours: list[tuple[int, int, int]]) -> np.ndarray:
    share = np.array(colours) / 255.0
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def brightness(light: np.ndarray) -> np.ndarray:
    return np.clip(light, 0, 1) @ [0.2126, 0.7152, 0.0722]


@each_look
def test_colours_run_one_way_from_light_to_dark_for_every_eye(look: GroundLook) -> None:
    light = linear(ramp(look.anchors, COLOURS))
    for seen in (light, *(light @ np.transpose(matrix) for matrix in BLIND.values())):
        steps = np.diff(brightness(seen))
        assert (steps > 0).all() or (steps < 0).all()


@each_look
def test_the_ends_of_the_colours_are_far_apart_on_a_grey_printer(look: GroundLook) -> None:
    ends = brightness(linear(ramp(look.anchors, COLOURS)))[[0, -1]]
    # Contrast of the W3C guidelines, at least 7 to 1.
    assert (max(ends) + 0.05) / (min(ends) + 0.05) > 7


def test_legends_begin_and_end_at_round_numbers(farm_made: Made) -> None:
    season, night = ground_data(farm_made.farm, farm_made.season)
    assert [round(tick / 0.05, 6) % 1 for tick in season["ticks"][::2]] == [0, 0]
    assert [round(tick / 0.5, 6) % 1 for tick in night["ticks"][::2]] == [0, 0]
    assert season["when"] == "mean of Wed 31 Jul to Wed 14 Aug"
    assert night["when"] == "05:00 on Wed 14 Aug"


def test_a_farm_that_is_the_same_everywhere_still_has_a_legend(farm_made: Made) -> None:
    level = farm_made.season.copy(deep=True)
    level["last_night_temperature_grid"][:] = 9.0
    night = ground_data(farm_made.farm, level)[1]
    assert night["ticks"] == [9.0, 9.25, 9.5]


@pytest.mark.parametrize(("rows", "columns"), [(40, 4000), (4000, 40), (30, 50)])
def test_a_picture_is_no_larger_than_a_screen(rows: int, columns: int) -> None:
    found = warped(
        np.zeros((rows, columns), dtype=np.float32),
        cell_width=10.0,
        cell_height=10.0,
        west=331_000.0,
        north=8_108_000.0,
        crs=CRS.from_epsg(32755),
        most_pixels=500,
    )
    assert max(found.grid.shape) <= 501
    assert np.nanmax(np.abs(found.grid)) == 0.0
