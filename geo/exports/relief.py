"""The ground as a soft picture under the blocks: lit from the north-west, warped to the map."""

from dataclasses import dataclass

import numpy as np
from pyproj import CRS

from geo.arrays import FloatArray
from geo.exports.warp import picture_address, ramp, warped
from geo.terrain.windows import in_row_windows

LIGHT_FROM_DEGREES = 315.0  # cartographers' habit: from the north-west, so that hills look high
LIGHT_HEIGHT_DEGREES = 45.0
FADE = 0.08  # of the width and of the height
EXAGGERATION = 3.0  # orchards are gentle ground
TONES = 32
LEAST_CONTRAST = 0.15  # so that level ground looks level
DARK, PALE = (176, 179, 163), (250, 247, 239)  # a greyed leaf green to the page's own paper


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
    """
    if min(elevation.shape) < 2 or not np.isfinite(elevation).any():  # noqa: PLR2004
        return None

    def lit_rows(rows: FloatArray) -> FloatArray:
        return hillshade(rows * EXAGGERATION, cell_width=cell_width, cell_height=cell_height)

    lit = in_row_windows(lit_rows, elevation, halo=1)  # the slope looks one row around
    lying = warped(
        lit, cell_width=cell_width, cell_height=cell_height, west=west, north=north, crs=crs
    )
    picture = picture_address(_shares(_faded(lying.grid)), ramp([DARK, PALE], TONES))
    return Relief(picture, lying.bounds)


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


def _shares(lit: FloatArray) -> FloatArray:
    """Return 0 for the darkest and 1 for the palest, stretched to what there is."""
    low, high = np.nanpercentile(lit, [1, 99])
    share: FloatArray = (lit - low) / max(high - low, LEAST_CONTRAST)
    return share
