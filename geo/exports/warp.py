"""A grid of the farm as a picture of the web map: warped to its projection, with its corners."""

import base64
from typing import NamedTuple

import numpy as np
from pyproj import CRS, Transformer
from scipy.ndimage import map_coordinates

from geo.arrays import AnyArray, FloatArray
from geo.exports.picture import palette_png

WEB_MAP = "EPSG:3857"
MOST_PIXELS = 1600  # a side: as many as a large screen shows; more would only make the page heavy

Colour = tuple[int, int, int]


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


class Lying(NamedTuple):
    """
    A grid on the web map.

    Attributes
    ----------
    grid : numpy.ndarray
        [any] Shape (row, column), square pixels, row 0 in the north. NaN where unknown.
    bounds : list of list of float
        South-west and north-east corner as [latitude, longitude].
    """

    grid: FloatArray
    bounds: list[list[float]]


def warped(
    grid: AnyArray,
    *,
    cell_width: float,
    cell_height: float,
    west: float,
    north: float,
    crs: CRS,
    most_pixels: int = MOST_PIXELS,
) -> Lying:
    """
    Return a grid as the web map would draw it.

    Parameters
    ----------
    grid : [any]
        Shape (row, column), row 0 in the north. NaN where unknown.
    cell_width, cell_height : [m]
        Size of a cell.
    west, north : [m]
        Outer edges of the grid's north-western cell.
    crs : pyproj.CRS
        Of those edges.
    most_pixels : int
        A side of the picture has no more.

    Returns
    -------
    Lying
        About as many pixels as cells.

    Notes
    -----
    A picture on a web map is stretched evenly in the map's own projection, so the grid is warped
    to that first; unwarped, it would lie tens of metres off.
    """
    rows, columns = grid.shape
    edges = _edges_on_web_map(west, north, (columns * cell_width, rows * cell_height), crs)
    height_for_width = (edges.north - edges.south) / (edges.east - edges.west)
    wide = max(1, min(columns, most_pixels, round(most_pixels / height_for_width)))
    shape = (max(1, round(wide * height_for_width)), wide)
    places = _rows_and_columns(edges, shape, (west, north), (cell_width, cell_height), crs)
    found = map_coordinates(grid, places, order=1, mode="constant", cval=np.nan, output=np.float64)
    to_degrees = Transformer.from_crs(WEB_MAP, "EPSG:4326", always_xy=True)
    left, bottom = to_degrees.transform(edges.west, edges.south)
    right, top = to_degrees.transform(edges.east, edges.north)
    return Lying(found, [[bottom, left], [top, right]])


def picture_address(share: FloatArray, colours: list[Colour]) -> str:
    """
    Return a picture of shares, each in its colour.

    Parameters
    ----------
    share : [1]
        Shape (row, column): 0 has the first colour, 1 the last, those beyond likewise. NaN is
        clear.
    colours : list of tuple of int
        Red, green and blue, 0 to 255; at most 255 of them.

    Returns
    -------
    str
        ``data:`` address of a PNG.
    """
    place = np.round(np.clip(np.nan_to_num(share), 0.0, 1.0) * (len(colours) - 1))
    palette = [(0, 0, 0, 0)] + [(red, green, blue, 255) for red, green, blue in colours]
    content = palette_png(np.where(np.isnan(share), 0, 1 + place), palette)
    return "data:image/png;base64," + base64.b64encode(content).decode()


def ramp(anchors: list[Colour], count: int) -> list[Colour]:
    """
    Return colours evenly between some.

    Parameters
    ----------
    anchors : list of tuple of int
        Red, green and blue of the first, the last and those between.
    count : int
        How many to return.

    Returns
    -------
    list of tuple of int
        From the first to the last.

    Examples
    --------
    >>> ramp([(0, 0, 0), (200, 100, 0)], 3)
    [(0, 0, 0), (100, 50, 0), (200, 100, 0)]
    """
    at = np.linspace(0, len(anchors) - 1, count)
    parts = [np.interp(at, range(len(anchors)), part) for part in zip(*anchors, strict=True)]
    return [
        (int(red), int(green), int(blue))
        for red, green, blue in np.round(np.transpose(parts)).tolist()
    ]


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
