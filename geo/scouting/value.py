"""What is a look worth before a decision to spray?"""

import numpy as np
from scipy.special import ndtri

from geo.arrays import FloatArray

DRAWS = 200  # our choice: equally likely cases of a hazard; more change no order
MIDDLES = (np.arange(DRAWS) + 0.5) / DRAWS


def value_of_knowing(benefit: FloatArray, *, cost: float) -> FloatArray:
    r"""
    Return how much better one would decide if one knew.

    Parameters
    ----------
    benefit : [1]
        Of the spray, in equally likely cases, shape (case, block). Never below 0: an idle spray
        saves nothing, and its cost stands apart.
    cost : [1]
        Of the spray, in the same unit.

    Returns
    -------
    [1]
        Shape (block,): expected value of perfect information, :math:`\min(E[(B - C)^+],
        E[(C - B)^+])`. Near 0 where the spray is worth it in all cases, or in none.
    """
    gain = np.maximum(benefit - cost, 0.0).mean(axis=0)
    loss = np.maximum(cost - benefit, 0.0).mean(axis=0)
    value: FloatArray = np.minimum(gain, loss)
    return value


def chance_of_other_decision(benefit: FloatArray, *, cost: float) -> FloatArray:
    """
    Return in which share of the cases one would decide otherwise than by the mean.

    Parameters
    ----------
    benefit : [1]
        Of the spray, in equally likely cases, shape (case, block).
    cost : [1]
        Of the spray, in the same unit.

    Returns
    -------
    [1]
        Shape (block,).
    """
    is_worth_it = benefit.mean(axis=0) > cost
    chance: FloatArray = ((benefit > cost) != is_worth_it).mean(axis=0)
    return chance


def hazard_cases(hazard: FloatArray, doubt: FloatArray) -> FloatArray:
    """
    Return equally likely cases of a doubtful hazard.

    Parameters
    ----------
    hazard : [1]
        Expected, shape (block,).
    doubt : [1]
        Standard deviation of its logarithm.

    Returns
    -------
    [1]
        Shape (case, block), with the hazard as their mean: more doubt spreads the cases and
        never moves their middle, so it never lowers the value of knowing.
    """
    cases = np.exp(doubt * ndtri(MIDDLES)[:, None])
    scaled: FloatArray = hazard * cases / cases.mean(axis=0)
    return scaled
