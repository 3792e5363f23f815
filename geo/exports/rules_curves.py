"""A small drawing of one rule's season: the median block of the farm, day by day."""

import warnings
from dataclasses import dataclass
from math import isnan

import numpy as np

from geo.arrays import FloatArray
from geo.exports.page_classes import NOT_KNOWN_WORD
from geo.texts import phrase_of

WIDTH, HEIGHT = 320.0, 84.0


@dataclass(frozen=True, slots=True)
class Curve:
    """
    A curve ready to be drawn.

    Attributes
    ----------
    path : str
        SVG path; gaps where the median is not known.
    top : str
        Value at the upper edge, in words.
    now : str
        Median of today, in words.
    today_x : float
        Where today lies.
    width, height : float
        Of the drawing.
    """

    path: str
    top: str
    now: str
    today_x: float
    width: float = WIDTH
    height: float = HEIGHT


def curve(by_day: FloatArray, *, today: int) -> Curve:
    """
    Return the season's curve of the median block.

    Parameters
    ----------
    by_day : ndarray
        [any] Shape (block, day).
    today : int
        Index of today.

    Returns
    -------
    Curve
        From 0 to its own highest day.
    """
    median = _median(by_day)
    known = median[~np.isnan(median)]
    top = float(known.max()) if known.size else 0.0
    across = WIDTH / max(1, median.size - 1)
    pieces, is_down = [], False
    for day, value in enumerate(median.tolist()):
        if isnan(value):
            is_down = False
            continue
        up = HEIGHT * (1.0 - (value / top if top else 0.0))
        pieces.append(f"{'L' if is_down else 'M'}{across * day:.1f} {up:.1f}")
        is_down = True
    return Curve("".join(pieces), figures(top), figures(float(median[today])), across * today)


def figures(value: float) -> str:
    """
    Return a reading in few digits.

    Parameters
    ----------
    value : float
        A reading.

    Returns
    -------
    str
        Such as ``0.52`` or ``40``, or that it is not known.

    Examples
    --------
    >>> figures(0.5234), figures(40.0), figures(float("nan")), figures(0.0004)
    ('0.52', '40', 'Not known', '0')
    """
    if isnan(value):
        return phrase_of(NOT_KNOWN_WORD)
    if value >= 100:  # noqa: PLR2004 - three digits are enough of any reading
        return f"{value:.0f}"
    return f"{round(value, 2 if value < 10 else 1):g}"  # noqa: PLR2004 - two or three digits


def _median(by_day: FloatArray) -> FloatArray:
    with warnings.catch_warnings():
        # A day that no block knows stays unknown.
        warnings.simplefilter("ignore", RuntimeWarning)
        median: FloatArray = np.nanmedian(by_day, axis=0)
    return median
