"""What the made ground looks like: a valley with a floor, a bank, a bench, hollows and a ridge."""

import numpy as np
from scipy.ndimage import gaussian_filter, map_coordinates

from layers_demo.valley_place import (
    CELL,
    COLUMNS,
    ROWS,
    SOUTH,
    WEST,
    Numbers,
    map_to_valley,
    valley_to_map,
)

SEED = 20260218
# Height above the lowest ground by distance across the valley, left side positive: floor,
# bank, bench, shoulder and ridge on the left; floor, bank and a lower spur on the right.
ACROSS = [-1200, -900, -700, -520, -350, -215, -60, 0, 70, 190, 250, 345, 480, 640, 800, 960, 1100]
HEIGHT = [62, 72, 64, 50, 42, 9, 1, 0, 1.5, 7, 17, 43, 48, 56, 69, 90, 101]
# (along, across, depth, half-width along, half-width across) of each hollow, all in metres.
HOLLOWS = [
    (640.0, 480.0, 21.0, 150.0, 125.0),
    (1330.0, 575.0, 20.0, 140.0, 120.0),
    (300.0, -20.0, 9.0, 150.0, 90.0),
]


def elevation() -> Numbers:
    """
    Return the ground above sea level, first row in the north.

    Returns
    -------
    [m]
        Rounded to a decimetre, shape (ROWS, COLUMNS).
    """
    x = WEST + (np.arange(COLUMNS) + 0.5) * CELL
    y = SOUTH + (ROWS - np.arange(ROWS) - 0.5) * CELL
    x, y = np.meshgrid(x, y)
    along, across = map_to_valley(x, y)
    # The banks come and go, and the ridge falls away behind its crest.
    drawn = across * (1.0 + 0.10 * np.sin(along / 260.0) + 0.05 * np.sin(along / 97.0 + 1.0))
    ground = 372.0 + np.interp(drawn, ACROSS, HEIGHT) - 0.07 * np.maximum(across - 1150.0, 0.0)
    ground += 0.006 * along + 1.2 * np.sin(along / 210.0)
    # Side valleys cut the bench and the shoulder, deeper the higher the ground.
    cut = np.clip((np.abs(across) - 260.0) / 500.0, 0.0, 1.0)
    ground -= 9.0 * cut * (0.5 + 0.5 * np.sin(along / 118.0 + across / 340.0)) ** 4
    # The ridge has a saddle and two tops.
    ground -= 14.0 * np.exp(-(((along - 1050.0) / 210.0) ** 2) - ((across - 1050.0) / 260.0) ** 2)
    for hollow_along, hollow_across, depth, length, width in HOLLOWS:
        centre_x, centre_y = valley_to_map(np.float64(hollow_along), np.float64(hollow_across))
        centre_along, centre_across = map_to_valley(centre_x, centre_y)
        away = ((along - centre_along) / length) ** 2 + ((across - centre_across) / width) ** 2
        ground -= depth * np.exp(-away)
    chance = np.random.default_rng(SEED)
    rough = gaussian_filter(chance.normal(size=ground.shape), 9.0)
    fine = gaussian_filter(chance.normal(size=ground.shape), 2.5)
    ground += 1.6 * rough / rough.std() + 0.25 * fine / fine.std()
    return np.round(gaussian_filter(ground, 2.0), 1)


def elevation_at(ground: Numbers, x: float, y: float) -> float:
    """
    Return the ground at one spot.

    Parameters
    ----------
    ground : [m]
        As made by ``elevation``.
    x, y : [m]
        East and north in the map system.

    Returns
    -------
    [m]
        Above sea level.
    """
    row = ROWS - 0.5 - (y - SOUTH) / CELL
    column = (x - WEST) / CELL - 0.5
    return float(map_coordinates(ground, [[row], [column]], order=1)[0])
