"""The ground as a soft picture under the blocks: lit from the north-west, warped to the map."""

import base64
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from pyproj import CRS, Transformer
from scipy.ndimage import map_coordinates

from geo.arrays import AnyArray, FloatArray
from geo.exports.picture import palette_png

LIGHT_FROM_DEGREES = 315.0  # cartographers' habit: from the north-west, so that hills look high
LIGHT_HEIGHT_DEGREES = 45.0
FADE = 0.08  # of the width and of the height
EXAGGERATION = 3.0  # orchards are gentle ground
TONES = 32
LEAST_CONTRAST = 0.15  # so that level ground looks level
DARK, PALE = (176, 179, 163), (250, 247, 239)  # a greyed leaf green to the page's own paper
WEB_MAP = "EPSG:3857"


class Edges(NamedTuple):
    """
    The four edges of a picture on the web map, in its metres.

    Attributes
    ----------
    west, south, east, north : float
        Outer edges.
    """

    west: float
    south: float
    east: float
    north: float


@dataclass(frozen=True, slots=True)
class Relief:
    """
    A picture and where it lies.

    Attributes
    ----------
    picture : str
        ``data:`` address of a PNG, transparent where the ground is unknown.
    bounds : list of list of float
        South-west and north-east corner as [latitude, longitude].
    """

    picture: str
    bounds: list[list[float]]


def hillshade(elevation: FloatArray, *, cell_width: float, cell_height: float) -> FloatArray:
    r"""
    Return how brightly each cell is lit.

    Parameters
    ----------
    elevation : [m]
        Shape (row, column), row 0 in the north. NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.

    Returns
    -------
    [1]
        0 (dark) to 1 (facing the light); flat ground gives the sine of the light's height. NaN
        where a cell or its neighbour is unknown.

    Notes
    -----
    The cosine between the light and the surface's normal :math:`(-z_x, -z_y, 1)`.
    """
    southward, eastward = np.gradient(elevation, cell_height, cell_width)
    azimuth, height = np.radians([LIGHT_FROM_DEGREES, LIGHT_HEIGHT_DEGREES])
    east, north, up = (
        np.sin(azimuth) * np.cos(height),
        np.cos(azimuth) * np.cos(height),
        np.sin(height),
    )
    lit = (-eastward * east + southward * north + up) / np.sqrt(1 + eastward**2 + southward**2)
    shade: FloatArray = np.clip(lit, 0.0, 1.0)
    return shade


def relief(
    elevation: FloatArray,
    *,
    cell_width: float,
    cell_height: float,
    west: float,
    north: float,
    crs: CRS,
) -> Relief | None:
    """
    Return the relief picture of an elevation grid.

    Parameters
    ----------
    elevation : [m]
        Shape (row, column), row 0 in the north.
    cell_width, cell_height : [m]
        Size of a cell.
    west, north : [m]
        Outer edges of the grid's north-western cell.
    crs : pyproj.CRS
        Of those edges.

    Returns
    -------
    Relief or None
        None where there is no ground to show: fewer than 2 × 2 cells, or all unknown.

    Notes
    -----
    A picture on a web map is stretched evenly in the map's own projection, so the grid is warped
    to that first; unwarped, it would lie tens of metres off.
    """
    if min(elevation.shape) < 2 or not np.isfinite(elevation).any():  # noqa: PLR2004
        return None
    lit = hillshade(elevation * EXAGGERATION, cell_width=cell_width, cell_height=cell_height)
    rows, columns = elevation.shape
    edges = _edges_on_web_map(west, north, (columns * cell_width, rows * cell_height), crs)
    # As many pixels as cells, and square ones.
    pixel = (edges.east - edges.west) / columns
    shape = (max(1, round((edges.north - edges.south) / pixel)), columns)
    places = _rows_and_columns(edges, shape, (west, north), (cell_width, cell_height), crs)
    warped = map_coordinates(lit, places, order=1, mode="constant", cval=np.nan)
    warped = _faded(warped)
    to_degrees = Transformer.from_crs(WEB_MAP, "EPSG:4326", always_xy=True)
    left, bottom = to_degrees.transform(edges.west, edges.south)
    right, top = to_degrees.transform(edges.east, edges.north)
    picture = palette_png(_tones(warped), _palette())
    address = "data:image/png;base64," + base64.b64encode(picture).decode()
    return Relief(address, [[bottom, left], [top, right]])


def _faded(warped: FloatArray) -> FloatArray:
    """Return the picture paling towards its edges, so that the ground ends without a cliff."""
    share = [
        np.minimum(1.0, (0.5 + np.minimum(np.arange(size), np.arange(size)[::-1])) / (FADE * size))
        for size in warped.shape
    ]
    strength = np.minimum.outer(*share)
    palest = float(np.nanmax(warped))
    faded: FloatArray = palest + (warped - palest) * strength
    return faded


def _tones(lit: FloatArray) -> AnyArray:
    """Return palette places: 0 for unknown, the rest from the darkest to the palest."""
    low, high = np.nanpercentile(lit, [1, 99])
    share = np.clip((lit - low) / max(high - low, LEAST_CONTRAST), 0.0, 1.0)
    return np.where(np.isnan(lit), 0, 1 + np.round(np.nan_to_num(share) * (TONES - 1)))


def _edges_on_web_map(west: float, north: float, size: tuple[float, float], crs: CRS) -> Edges:
    to_web = Transformer.from_crs(crs, WEB_MAP, always_xy=True)
    width, height = size
    return Edges(*to_web.transform_bounds(west, north - height, west + width, north))


def _rows_and_columns(
    edges: Edges,
    shape: tuple[int, int],
    corner: tuple[float, float],
    cell: tuple[float, float],
    crs: CRS,
) -> FloatArray:
    """Return where in the grid each pixel of the picture lies, in cells from the first centre."""
    rows, columns = shape
    x = edges.west + (np.arange(columns) + 0.5) * (edges.east - edges.west) / columns
    y = edges.north - (np.arange(rows) + 0.5) * (edges.north - edges.south) / rows
    from_web = Transformer.from_crs(WEB_MAP, crs, always_xy=True)
    east, north = from_web.transform(*np.meshgrid(x, y))
    return np.stack([(corner[1] - north) / cell[1] - 0.5, (east - corner[0]) / cell[0] - 0.5])


def _palette() -> list[tuple[int, int, int, int]]:
    steps = np.linspace(DARK, PALE, TONES).round().astype(int).tolist()
    return [(0, 0, 0, 0)] + [(red, green, blue, 255) for red, green, blue in steps]
