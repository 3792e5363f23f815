"""How doubtful is a block's hazard, and which part of it would a look settle?"""

import numpy as np
from scipy.special import polygamma

from geo.arrays import FloatArray
from geo.reference.jeffreys import JEFFREYS

MIDDLE_80_PERCENT = 1.2816  # standard deviations either side that hold 80 % of a normal


def spread(doubt: FloatArray) -> FloatArray:
    """
    Return how many times larger or smaller a hazard may be: the middle 80 % of its doubt.

    Parameters
    ----------
    doubt : [1]
        Standard deviation of the hazard's logarithm.

    Returns
    -------
    [1]
        At least 1.
    """
    factor: FloatArray = np.exp(MIDDLE_80_PERCENT * doubt)
    return factor


def count_doubt(infected: FloatArray, inspected: FloatArray) -> FloatArray:
    r"""
    Return how doubtful the logarithm of a counted share is.

    Parameters
    ----------
    infected, inspected : [1]
        Organs counted, or what a computed share is worth in counted ones.

    Returns
    -------
    [1]
        Standard deviation of the logarithm of a share with the posterior
        Beta(infected + 1/2, missed + 1/2): :math:`\sqrt{\psi_1(a) - \psi_1(a + b)}`.

    Examples
    --------
    >>> count_doubt(np.array([0.0, 50.0]), np.array([50.0, 500.0])).round(2)
    array([2.22, 0.13])
    """
    found = infected + JEFFREYS
    variance = polygamma(1, found) - polygamma(1, inspected + 2.0 * JEFFREYS)
    doubt: FloatArray = np.sqrt(variance)
    return doubt
