"""Which share of a cultivar is infected, by counts in several blocks that differ?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.scouting.sampling import wilson_bounds


@dataclass(frozen=True, slots=True)
class Pooled:
    """
    A share over several blocks.

    Attributes
    ----------
    share : float
        Infected over inspected, all blocks together.
    low, high : float
        What counts and the difference between blocks leave open.
    effect : float
        Design effect: how much more the counts vary than organs drawn one by one.
    """

    share: float
    low: float
    high: float
    effect: float


def pooled_share(
    infected: FloatArray, inspected: FloatArray, *, least_effect: float, confidence: float
) -> Pooled:
    r"""
    Return the share infected over blocks as clusters.

    Parameters
    ----------
    infected, inspected : [1]
        Of each block, shape (block,).
    least_effect : [1]
        Design effect by clumping within a block, which one block alone cannot show.
    confidence : [1]
        Of the interval.

    Returns
    -------
    Pooled
        With the interval of Wilson on the organs that would tell as much, were they drawn one by
        one.

    Notes
    -----
    The variance of the ratio :math:`\hat p = \sum x / \sum n` over :math:`m` blocks is
    :math:`\frac{m}{m - 1} \sum (x - \hat p n)^2 / (\sum n)^2` (Cochran, Sampling techniques, on
    ratios; from memory); over :math:`\hat p (1 - \hat p) / \sum n` it is the design effect. With
    few blocks it is itself a rough guess.
    """
    organs, blocks = float(inspected.sum()), len(inspected)
    share = float(infected.sum()) / organs
    plain = share * (1.0 - share) / organs
    effect = least_effect
    if blocks > 1 and plain > 0.0:
        apart = float(((infected - share * inspected) ** 2).sum()) / organs**2
        effect = max(effect, apart * blocks / (blocks - 1) / plain)
    low, high = wilson_bounds(
        np.asarray(share * organs / effect), np.asarray(organs / effect), confidence=confidence
    )
    return Pooled(share, float(low), float(high), effect)
