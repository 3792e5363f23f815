"""Hazards of many blocks in equal steps of their logarithm, each told from the day before."""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray

# Up to here a hazard is told as the very 32-bit number; of more blocks in steps of 0.03 %, so that
# two blocks closer than that share a rank.
EXACT_BLOCKS, LOWEST, STEPS = 2000, 1e-6, 65_533
UNKNOWN_STEP, ZERO_STEP, FIRST_STEP = 0, 1, 2


@dataclass(frozen=True)
class Steps:
    """
    Numbers over several decades, by block and day.

    Attributes
    ----------
    values : numpy.ndarray
        [1] Not negative; NaN where not known.
    edges : tuple of float
        Numbers that none of the values may change its side of.
    """

    values: FloatArray
    edges: tuple[float, ...]


@dataclass(frozen=True)
class Stepped:
    """
    The same as whole numbers.

    Attributes
    ----------
    step : float
        [1] Of the natural logarithm.
    middle : numpy.ndarray
        [1] The middle block's step on each day: 0 stands for not known, 1 for nothing at all, 2 for
        `LOWEST`.
    away : numpy.ndarray
        [1] Shape (day, block): how far from the middle, as the difference from the day before.
    """

    step: float
    middle: IntArray
    away: IntArray


def stepped(steps: Steps) -> Stepped:
    """
    Return numbers in steps.

    Parameters
    ----------
    steps : Steps
        By block and day.

    Returns
    -------
    Stepped
        Where rounding would cross an edge, a step further on its own side.
    """
    values = steps.values
    top = np.log(max(float(np.nanmax(values, initial=1.0)), 1.0) / LOWEST)
    step = float(top) / STEPS
    known, positive = ~np.isnan(values), values > 0.0
    code = np.where(known, ZERO_STEP, UNKNOWN_STEP)
    place = np.log(np.maximum(values[positive], LOWEST) / LOWEST) / step
    code[positive] = FIRST_STEP + np.round(place).astype(np.int64)
    back = np.where(code >= FIRST_STEP, LOWEST * np.exp(step * (code - FIRST_STEP)), 0.0)
    side, was = (np.searchsorted(steps.edges, one, side="right") for one in (back, values))
    code += np.where(positive, np.sign(was - side), 0)
    middle = np.median(code, axis=0).astype(np.int64)
    return Stepped(step, middle, np.diff(code - middle, axis=1, prepend=0).T)


def shortened(values: FloatArray) -> FloatArray:
    """
    Return numbers of many blocks with four and a half figures, of few with all that 32 bits hold.

    Parameters
    ----------
    values : [1]
        The last dimension is the blocks.

    Returns
    -------
    [1]
        In 32 bits, of many blocks the last eight of them 0.
    """
    told: FloatArray = values.astype("<f4")
    if values.shape[-1] <= EXACT_BLOCKS:
        return told
    bits = told.view("<u4")
    rounded = ((bits + np.uint32(128)) & np.uint32(0xFFFFFF00)).view("<f4")
    return np.where(np.isfinite(told), rounded, told)


def on_its_side(told: FloatArray, steps: Steps) -> FloatArray:
    """
    Return rounded numbers, none of which has changed its side of an edge.

    Parameters
    ----------
    told : [1]
        The numbers as they are told.
    steps : Steps
        The numbers as they are.

    Returns
    -------
    [1]
        Moved by the last digit where rounding crossed an edge.
    """
    side, was = (
        np.searchsorted(steps.edges, one.astype(float), side="right")
        for one in (told, steps.values)
    )
    towards = np.where(was > side, np.inf, -np.inf).astype(told.dtype)
    return np.where((was == side) | np.isnan(told), told, np.nextafter(told, towards))
