"""How fast do panicles develop?"""

import numpy as np

from geo.arrays import FloatArray


def thermal_days(
    day_mean_temperature: FloatArray, *, base_temperature: float, reference_temperature: float
) -> FloatArray:
    r"""
    Return the development of each day, in days at the reference warmth.

    Parameters
    ----------
    day_mean_temperature : [degC]
        Any shape.
    base_temperature : [degC]
        At and below it nothing moves.
    reference_temperature : [degC]
        A day as warm as this counts as one.

    Returns
    -------
    [d]
        Same shape, never negative: :math:`\max(0, (T - T_b) / (T_r - T_b))`.

    Examples
    --------
    >>> thermal_days(
    ...     np.array([10.0, 17.5, 22.5]), base_temperature=12.5, reference_temperature=22.5
    ... )
    array([0. , 0.5, 1. ])
    """
    span = reference_temperature - base_temperature
    return np.maximum((day_mean_temperature - base_temperature) / span, 0.0)
