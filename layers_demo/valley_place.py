"""Where the made valley lies: its map system, its axis and the way from valley to map."""

import numpy as np
from numpy.typing import NDArray
from pyproj import Transformer

Numbers = NDArray[np.float64]

NAME = "Made Valley Farm"
ZONE = "America/Mazatlan"
MAP_SYSTEM = "EPSG:32613"
# South-west corner of the ground we draw, in metres of MAP_SYSTEM: about 23.7 N, 105.8 W.
WEST, SOUTH = 417_440.0, 2_620_680.0
CELL = 8.0
COLUMNS, ROWS = 480, 400

_TO_DEGREES = Transformer.from_crs(MAP_SYSTEM, "EPSG:4326", always_xy=True)
# The valley runs from this corner of the ground towards the east-north-east, bending as it goes.
_START_X, _START_Y = 820.0, 960.0
_EAST, _NORTH = np.cos(np.radians(21.0)), np.sin(np.radians(21.0))


def bend(along: Numbers) -> Numbers:
    """
    Return how far the valley's axis swings to the left of its straight line.

    Parameters
    ----------
    along : [m]
        Distance up the valley.

    Returns
    -------
    [m]
        Swing to the left.
    """
    return 75.0 * np.sin(along / 420.0) + 22.0 * np.sin(along / 137.0 + 1.0)


def valley_to_map(along: Numbers, across: Numbers) -> tuple[Numbers, Numbers]:
    """
    Return where a spot of the valley lies on the map.

    Parameters
    ----------
    along : [m]
        Distance up the valley.
    across : [m]
        Distance to the left of its axis, looking up the valley.

    Returns
    -------
    [m]
        East and north in the map system.
    """
    # Nobody plants with a ruler: a gentle wobble that neighbouring blocks share.
    wobble_along = 9.0 * np.sin(across / 71.0 + along / 160.0) + 5.0 * np.sin(across / 29.0)
    wobble_across = 8.0 * np.sin(along / 63.0 + across / 190.0) + 4.0 * np.sin(along / 27.0 + 2.0)
    straight = along + wobble_along
    aside = across + bend(along) + wobble_across
    x = WEST + _START_X + straight * _EAST - aside * _NORTH
    y = SOUTH + _START_Y + straight * _NORTH + aside * _EAST
    return x, y


def map_to_valley(x: Numbers, y: Numbers) -> tuple[Numbers, Numbers]:
    """
    Return the place in the valley of a spot on the map, without the wobble.

    Parameters
    ----------
    x, y : [m]
        East and north in the map system.

    Returns
    -------
    [m]
        Along and across.
    """
    east, north = x - WEST - _START_X, y - SOUTH - _START_Y
    along = east * _EAST + north * _NORTH
    return along, north * _EAST - east * _NORTH - bend(along)


def map_to_degrees(x: Numbers, y: Numbers) -> tuple[Numbers, Numbers]:
    """
    Return longitude and latitude of spots on the map.

    Parameters
    ----------
    x, y : [m]
        East and north in the map system.

    Returns
    -------
    [degree]
        Longitude and latitude, to seven decimals (a centimetre).
    """
    longitude, latitude = _TO_DEGREES.transform(x, y)
    return np.round(longitude, 7), np.round(latitude, 7)
