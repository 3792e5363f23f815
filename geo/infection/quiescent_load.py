"""How much anthracnose does the fruit carry hidden in its peel towards harvest?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import BoolArray, FloatArray
from geo.infection.anthracnose_parameters import LateRain


@dataclass(frozen=True, slots=True)
class QuiescentLoad:
    """
    Hidden infection of fruit, should it be picked that day.

    Attributes
    ----------
    load : ndarray
        [1] Shape (block, day): hazard added up since fruit set, today's included.
    late_extra : ndarray
        [1] Shape (block, day): what late heavy rains weigh on top, apart since its size is
        assumed.
    late_rains : ndarray
        [1] Shape (day,): days of heavy rain among the last ones.
    """

    load: FloatArray
    late_extra: FloatArray
    late_rains: FloatArray


def quiescent_load(
    daily_hazard: FloatArray,
    has_fruit: BoolArray,
    event_rain: FloatArray,
    late: LateRain,
    *,
    before: FloatArray | None = None,
) -> QuiescentLoad:
    r"""
    Return the hidden load of fruit from fruit set up to each day.

    Parameters
    ----------
    daily_hazard : [1]
        Of anthracnose on fruit, shape (block, day).
    has_fruit : [1]
        Shape (block, day): from fruit set to harvest. Outside it nothing adds up, and the load
        stands as it was.
    event_rain : [mm]
        Largest total of a rain up to each day, shape (day,), as `anthracnose_days` gives it.
    late : LateRain
        What is heavy, what is late, and what it weighs.
    before : [1]
        Load of each block before the first day, shape (block,); nothing if it is not given.

    Returns
    -------
    QuiescentLoad
        The plain load and the extra of late heavy rain, each on its own.

    Notes
    -----
    Three rains of more than 20 mm within a month before harvest went with relatively high
    infection, and rains up to 4 mm with virtually none (estrada1996). The plain load is
    :math:`Z_d = \sum_{i \le d} h_i`; the extra is :math:`(w - 1) \sum h_i` over the days of heavy
    rain among the last 30 up to :math:`d`: a picking that day would have them within its month.
    Infection on a dewy day after a heavy rain counts in the plain load only.
    """
    hazard = np.where(has_fruit, daily_hazard, 0.0)
    started = np.zeros(hazard.shape[0]) if before is None else before
    is_heavy = event_rain > late.late_rain
    window = int(late.late_rain_days)
    extra = (late.late_rain_weight - 1.0) * _sum_of_last(np.where(is_heavy, hazard, 0.0), window)
    return QuiescentLoad(
        started[:, None] + np.cumsum(hazard, axis=1),
        extra,
        _sum_of_last(is_heavy.astype(np.float64)[None], window)[0],
    )


def _sum_of_last(daily: FloatArray, days: int) -> FloatArray:
    """Return the sum of so many days up to each day."""
    if daily.shape[1] <= days:
        return np.cumsum(daily, axis=1)
    padded = np.concatenate([np.zeros((daily.shape[0], days - 1)), daily], axis=1)
    # Windows are views; added up one by one, an unknown day leaves with its window.
    total: FloatArray = np.lib.stride_tricks.sliding_window_view(padded, days, axis=1).sum(axis=-1)
    return total
