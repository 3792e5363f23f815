"""How unsure is a stage, and how unsure does that make the susceptibility?"""

import numpy as np

from geo.arrays import FloatArray

# Three-point Gauss-Hermite rule for a normal, exact for polynomials up to the fifth degree: where
# its outer points lie,
POINT = float(np.sqrt(3.0))
# and what each point weighs.
WEIGHT_OF_MIDDLE, WEIGHT_OF_SIDE = 2.0 / 3.0, 1.0 / 6.0


def progress_doubt(
    thermal_days_from_sight: FloatArray, *, when_seen: float, of_rate: float
) -> FloatArray:
    r"""
    Return how unsure the place of a flush is.

    Parameters
    ----------
    thermal_days_from_sight : [d]
        To the nearest observation.
    when_seen : [d]
        Standard deviation on the day of an observation.
    of_rate : [1]
        Standard deviation of the rate of development, as a share of it.

    Returns
    -------
    [d]
        Standard deviation: :math:`\sqrt{s_0^2 + (r\,t)^2}`. NaN where nothing was ever seen.

    Examples
    --------
    >>> progress_doubt(np.array([0.0, 20.0]), when_seen=3.0, of_rate=0.2)
    array([3., 5.])
    """
    doubt: FloatArray = np.hypot(when_seen, of_rate * thermal_days_from_sight)
    return np.where(np.isinf(doubt), np.nan, doubt)


def logarithm_doubt(early: FloatArray, middle: FloatArray, late: FloatArray) -> FloatArray:
    r"""
    Return how unsure the logarithm of a susceptibility is.

    Parameters
    ----------
    early, middle, late : [1]
        Susceptibility at the place, and `POINT` standard deviations to either side of it.

    Returns
    -------
    [1]
        Standard deviation of the logarithm of a log-normal with their mean and variance:
        :math:`\sqrt{\ln(1 + v / m^2)}`, 0 where all three are 0. It holds for a stage without
        any susceptibility too, whose logarithm itself would not.

    Examples
    --------
    >>> one = np.array([1.0, 0.0])
    >>> logarithm_doubt(one, one, one)
    array([0., 0.])
    """
    mean = WEIGHT_OF_SIDE * (early + late) + WEIGHT_OF_MIDDLE * middle
    # Each over the mean before it is squared: shares near 0 would vanish.
    sides, centre = (
        np.square(np.divide(share, mean, out=np.ones_like(share), where=mean != 0.0) - 1.0)
        for share in (np.stack([early, late]), middle)
    )
    variance = WEIGHT_OF_SIDE * sides.sum(axis=0) + WEIGHT_OF_MIDDLE * centre
    doubt: FloatArray = np.sqrt(np.log1p(variance))
    return doubt
