"""How much wind do drawn windbreaks keep from a block?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray


@dataclass(frozen=True, slots=True)
class WindbreakLaw:
    """
    What a belt of trees does to the wind behind it.

    Attributes
    ----------
    dense_porosity, dense_reduction : float
        [1] Share of sky seen through a dense belt, and the share of wind it takes.
    open_porosity, open_reduction : float
        [1] The same of an open one.
    quiet_heights, fading_heights, reach_heights : float
        [1] Up to so many heights behind it all of that is taken; beyond it fades by a factor e
        with each so many; nothing beyond the last.
    """

    dense_porosity: float
    dense_reduction: float
    open_porosity: float
    open_reduction: float
    quiet_heights: float
    fading_heights: float
    reach_heights: float


@dataclass(frozen=True, slots=True)
class Windbreaks:
    """
    Straight pieces of windbreaks.

    Attributes
    ----------
    start, end : numpy.ndarray
        [m] Shape (windbreak, 2), east and north.
    height : numpy.ndarray
        [m] Shape (windbreak,).
    porosity : numpy.ndarray
        [1] Shape (windbreak,).
    """

    start: FloatArray
    end: FloatArray
    height: FloatArray
    porosity: FloatArray


def wind_reduction(
    distance: FloatArray, windbreak_height: float, windbreak_porosity: float, law: WindbreakLaw
) -> FloatArray:
    r"""
    Return the share of wind taken at a distance behind a windbreak.

    Parameters
    ----------
    distance : [m]
        Along the wind.
    windbreak_height : [m]
        Of the trees.
    windbreak_porosity : [1]
        Share of sky seen through it.
    law : WindbreakLaw
        Of the reference table.

    Returns
    -------
    [1]
        :math:`r_0 \exp(-\max(x / H - 4, 0) / 8)` for wind square to it, 0 beyond its reach;
        :math:`r_0` lies on straight lines between a dense belt, an open one and none
        (moravia_belts).
    """
    full = float(
        np.interp(
            windbreak_porosity,
            [law.dense_porosity, law.open_porosity, 1.0],
            [law.dense_reduction, law.open_reduction, 0.0],
        )
    )
    heights = distance / windbreak_height
    fading = np.exp(-np.maximum(heights - law.quiet_heights, 0.0) / law.fading_heights)
    return np.where(heights <= law.reach_heights, full * fading, 0.0)


def windbreak_factor(
    breaks: Windbreaks,
    law: WindbreakLaw,
    *,
    point_block: IntArray,
    point_x: FloatArray,
    point_y: FloatArray,
    point_share: FloatArray,
    block_count: int,
    wind_from_direction: FloatArray,
) -> FloatArray:
    """
    Return the share of wind that windbreaks leave to each block.

    Parameters
    ----------
    breaks : Windbreaks
        All of them.
    law : WindbreakLaw
        Of the reference table.
    point_block : [1]
        Block that a sample point stands for.
    point_x, point_y : [m]
        Where it is.
    point_share : [1]
        Share of its block it stands for.
    block_count : [1]
        Number of blocks.
    wind_from_direction : [degree]
        Shape (sector,), clockwise from north.

    Returns
    -------
    [1]
        Shape (block, sector), mean over the block. Behind several the one that takes most
        counts; wind along a belt is not weakened by it.
    """
    left = np.ones((point_x.size, wind_from_direction.size))
    place = np.column_stack([point_x, point_y])
    turn = np.radians(wind_from_direction)
    upwind = np.column_stack([np.sin(turn), np.cos(turn)])
    pieces = zip(breaks.start, breaks.end, breaks.height, breaks.porosity, strict=True)
    for start, end, height, porosity in pieces:
        reach = law.reach_heights * height
        is_near = (place >= np.minimum(start, end) - reach).all(axis=1)
        is_near &= (place <= np.maximum(start, end) + reach).all(axis=1)
        near = np.flatnonzero(is_near)
        along, square = _upwind(place[near], start, end, upwind)
        taken = square * wind_reduction(along, float(height), float(porosity), law)
        left[near] = np.minimum(left[near], 1.0 - taken)
    factor: FloatArray = np.empty((block_count, turn.size))
    for sector in range(turn.size):
        factor[:, sector] = np.bincount(
            point_block, point_share * left[:, sector], minlength=block_count
        )
    # The shares of a block's points add up to 1 but for the last digit.
    return np.minimum(factor, 1.0)


def _upwind(
    place: FloatArray, start: FloatArray, end: FloatArray, upwind: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return how far upwind a line lies, inf if it does not, and how squarely wind meets it."""
    line = end - start
    to_start = start - place
    across = upwind[:, 0] * line[1] - upwind[:, 1] * line[0]
    is_met = np.abs(across) > 1e-12 * np.hypot(*line)  # a rounding error: wind along the line
    divisor = np.where(is_met, across, 1.0)
    along = (to_start[:, :1] * line[1] - to_start[:, 1:] * line[0]) / divisor
    part = (to_start[:, :1] * upwind[:, 1] - to_start[:, 1:] * upwind[:, 0]) / divisor
    is_met = is_met & (along >= 0.0) & (part >= 0.0) & (part <= 1.0)
    square = np.abs(across) / max(float(np.hypot(*line)), np.finfo(float).tiny)
    return np.where(is_met, along, np.inf), np.broadcast_to(square, along.shape)
