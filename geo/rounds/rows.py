"""Which rows does a block have: how many, how long, and which first?"""

from dataclasses import dataclass
from math import cos, floor, isnan, radians, sin

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from geo.arrays import FloatArray

# A block as wide as its rows to the millimetre still has them all.
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Rows:
    """
    Rows of a block, the first at its downwind side.

    Attributes
    ----------
    length : numpy.ndarray
        Metres of each row within the outline, holes and gaps between parts left out; shape (row,).
    ends : numpy.ndarray
        Metres east and north of both ends of each row, shape (row, 2, 2).
    direction : float
        Degrees from north along the rows, from 0 to below 180.
    """

    length: FloatArray
    ends: FloatArray
    direction: float


def rows_of(
    outline: BaseGeometry,
    *,
    spacing: float,
    direction: float = np.nan,
    wind_from: float = np.nan,
) -> Rows:
    """
    Return the rows of a block.

    As many whole rows as fit across the outline, in its middle. They are numbered from the
    downwind side, since who starts there drives out of the cloud (common practice, no source).

    Parameters
    ----------
    outline : shapely geometry
        Of the block, in metres; may have parts and holes.
    spacing : [m]
        From row to row.
    direction : [degree]
        Along the rows, from north; NaN for along the longer side of the smallest rectangle around
        the block.
    wind_from : [degree]
        Where the wind comes from; NaN where it is not known, and then the first row is at the
        western side, or the southern one of rows that run east and west.

    Returns
    -------
    Rows
        At least one for an outline with an area: a strip narrower than a row is one row.
    """
    along = (long_side(outline) if isnan(direction) else direction) % 180.0  # there is back
    turn = radians(along)
    ahead, aside = np.array([sin(turn), cos(turn)]), np.array([cos(turn), -sin(turn)])
    corners = shapely.get_coordinates(outline)
    far, near = (corners @ ahead).max(), (corners @ ahead).min()
    right, left = (corners @ aside).max(), (corners @ aside).min()
    count = max(1, floor((right - left) / spacing + _ROUNDING))
    middle = (left + right) / 2.0 + spacing * (np.arange(count) - (count - 1) / 2.0)
    if _is_first_at_right(aside, wind_from):
        middle = middle[::-1]
    ends = np.stack(
        [middle[:, None] * aside + at * ahead for at in (near - 1.0, far + 1.0)], axis=1
    )
    inside = shapely.intersection(shapely.linestrings(ends), outline)
    length = shapely.length(inside)
    is_row = length > 0.0
    return Rows(length=length[is_row], ends=_ends(inside[is_row], ahead), direction=along)


def long_side(outline: BaseGeometry) -> float:
    """
    Return the direction of the longer side of the smallest rectangle around an outline.

    Parameters
    ----------
    outline : shapely geometry
        In metres.

    Returns
    -------
    [degree]
        From north, from 0 to below 180.

    Examples
    --------
    >>> long_side(shapely.box(0, 0, 300, 100))
    90.0
    """
    corners = shapely.get_coordinates(shapely.oriented_envelope(outline))
    sides = np.diff(corners[:3], axis=0)
    east, north = sides[np.hypot(*sides.T).argmax()]
    return float(np.degrees(np.arctan2(east, north)) % 180.0)


def _is_first_at_right(aside: FloatArray, wind_from: float) -> bool:
    """Return whether the downwind side lies where `aside` points; west or south without wind."""
    if isnan(wind_from):
        return bool(aside[0] < -_ROUNDING or (abs(aside[0]) <= _ROUNDING and aside[1] < 0.0))
    downwind = -np.array([sin(radians(wind_from)), cos(radians(wind_from))])
    return bool(downwind @ aside > 0.0)


def _ends(lines: FloatArray, ahead: FloatArray) -> FloatArray:
    """Return the first and the last corner of each line, which may have parts, along the rows."""
    corners, owner = shapely.get_coordinates(lines, return_index=True)
    order = np.lexsort([corners @ ahead, owner])
    corners, owner = corners[order], owner[order]
    first = np.flatnonzero(np.r_[True, owner[1:] != owner[:-1]])[: len(lines)]
    last = np.r_[first[1:], len(corners)] - 1
    return np.stack([corners[first], corners[last]], axis=1)
