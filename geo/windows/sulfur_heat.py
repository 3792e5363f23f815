"""Is it too hot for sulfur on the day of the spray or soon after it?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray


@dataclass(frozen=True, slots=True)
class HeatGate:
    """
    The sulfur heat rule for each block and possible spray day.

    Attributes
    ----------
    is_closed : numpy.ndarray
        [1] Shape (block, day).
    closing_day : numpy.ndarray
        [1] Shape (block, day): first day at or above the limit, or first unknown day if there
        is none; -1 where the gate is open. May lie past the last known day.
    closing_value : numpy.ndarray
        [degC] Shape (block, day): what was forecast there, NaN where it is unknown.
    """

    is_closed: BoolArray
    closing_day: IntArray
    closing_value: FloatArray


def sulfur_heat_gate(
    day_maximum_temperature: FloatArray, *, limit: float, days_after: int
) -> HeatGate:
    """
    Return on which days heat keeps sulfur out.

    Parameters
    ----------
    day_maximum_temperature : [degC]
        Shape (block, day), NaN where unknown.
    limit : [degC]
        At or above it sulfur may scorch.
    days_after : [d]
        How many days after the spray must stay below it too.

    Returns
    -------
    HeatGate
        A day is open only if it and all ``days_after`` days are known and below the limit:
        a forecast that ends too soon is unknown, and unknown is closed.

    Notes
    -----
    Common practice, no source: 85 degF (29.4 degC) on the day and the three days after.
    Published limits run from 26.7 to 35 degC and the label of the product holds.

    Examples
    --------
    >>> gate = sulfur_heat_gate(np.array([[28.0, 28.0, 29.5, 28.0]]), limit=29.4, days_after=1)
    >>> gate.is_closed.tolist(), gate.closing_day.tolist()
    ([[False, True, True, True]], [[-1, 2, 2, 4]])
    """
    block_count, day_count = day_maximum_temperature.shape
    unknown_future = np.full((block_count, days_after), np.nan)
    padded = np.concatenate([day_maximum_temperature, unknown_future], axis=1)
    ahead = np.lib.stride_tricks.sliding_window_view(padded, days_after + 1, axis=1)
    is_hot, is_unknown = ahead >= limit, np.isnan(ahead)
    is_closed = (is_hot | is_unknown).any(axis=2)
    # Heat is named before ignorance: it is the stronger reason.
    closer = np.where(is_hot.any(axis=2), is_hot.argmax(axis=2), is_unknown.argmax(axis=2))
    value = np.take_along_axis(ahead, closer[:, :, None], axis=2)[:, :, 0]
    return HeatGate(
        is_closed=is_closed,
        closing_day=np.where(is_closed, np.arange(day_count)[None, :] + closer, -1),
        closing_value=np.where(is_closed, value, np.nan),
    )
