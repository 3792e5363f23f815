"""How many trees are enough, and what do the finds prove, where disease sits in clumps?"""

import numpy as np
from scipy.special import ndtri

from geo.arrays import FloatArray

HALVINGS = 50  # of the range 0 to 1: as many digits as a number has


def design_effect(*, organs_per_tree: int, aggregation: float) -> float:
    r"""
    Return how many clumped organs tell as much as one drawn alone.

    Parameters
    ----------
    organs_per_tree : [1]
        Looked at on each tree.
    aggregation : [1]
        Likeness of the organs of a tree, 0 to 1 (intraclass correlation).

    Returns
    -------
    [1]
        :math:`1 + \rho (n - 1)`, at least 1.

    Examples
    --------
    >>> round(design_effect(organs_per_tree=10, aggregation=0.2), 6)
    2.8
    """
    return 1.0 + aggregation * (organs_per_tree - 1)


def chance_of_none(share: FloatArray, *, organs_per_tree: int, aggregation: float) -> FloatArray:
    r"""
    Return the chance that none of the organs looked at on a tree is infected.

    Parameters
    ----------
    share : [1]
        Infected share of all organs.
    organs_per_tree : [1]
        Looked at on each tree.
    aggregation : [1]
        Likeness of the organs of a tree, from 0 up to but not 1.

    Returns
    -------
    [1]
        In the shape of ``share``.

    Notes
    -----
    Of the beta-binomial distribution with :math:`\theta = \rho / (1 - \rho)`:
    :math:`\prod_{i=0}^{n-1} (1 - p + i \theta) / (1 + i \theta)`. Some programs call the inverse
    of this theta by the same name.
    """
    clumping = aggregation / (1.0 - aggregation) * np.arange(organs_per_tree)
    healthy = 1.0 - np.asarray(share, dtype=float)[..., None]
    chance: FloatArray = np.prod((healthy + clumping) / (1.0 + clumping), axis=-1)
    return chance


def trees_to_find(
    share: FloatArray, *, organs_per_tree: int, aggregation: float, confidence: float
) -> FloatArray:
    r"""
    Return how many trees a look needs so as not to miss a disease.

    Parameters
    ----------
    share : [1]
        Infected share that must not be missed, above 0.
    organs_per_tree : [1]
        Looked at on each tree.
    aggregation : [1]
        Likeness of the organs of a tree.
    confidence : [1]
        Chance of at least one find.

    Returns
    -------
    [1]
        Not rounded: :math:`\ln(1 - P) / \ln P_0`. For organs drawn one by one, with one organ
        to a tree, it is :math:`\ln(1 - P) / \ln(1 - p)`.
    """
    none = chance_of_none(share, organs_per_tree=organs_per_tree, aggregation=aggregation)
    trees: FloatArray = np.log(1.0 - confidence) / np.log(none)
    return trees


def trees_to_estimate(
    share: FloatArray, *, organs_per_tree: int, aggregation: float, relative_error: float
) -> FloatArray:
    r"""
    Return how many trees a look needs to tell the infected share.

    Parameters
    ----------
    share : [1]
        Infected share that is expected, above 0.
    organs_per_tree : [1]
        Looked at on each tree.
    aggregation : [1]
        Likeness of the organs of a tree.
    relative_error : [1]
        Standard error of the estimate over the share. An interval of half-width :math:`h` at
        :math:`z` standard errors is :math:`h / (z p)`.

    Returns
    -------
    [1]
        Not rounded: :math:`(1 - p) / (p n CV^2) \, [1 + \rho (n - 1)]` (madden1999).
    """
    effect = design_effect(organs_per_tree=organs_per_tree, aggregation=aggregation)
    trees: FloatArray = (1.0 - share) / (share * organs_per_tree * relative_error**2) * effect
    return trees


def share_left_by_none(
    trees: FloatArray, *, organs_per_tree: int, aggregation: float, confidence: float
) -> FloatArray:
    """
    Return how much may still be infected where a look found nothing.

    Parameters
    ----------
    trees : [1]
        Looked at.
    organs_per_tree : [1]
        Looked at on each.
    aggregation : [1]
        Likeness of the organs of a tree.
    confidence : [1]
        Chance that a larger share would have shown.

    Returns
    -------
    [1]
        The share that `trees_to_find` would ask just so many trees for. Never 0: nothing found
        does not prove a block clean.
    """
    low = np.zeros(np.shape(trees))
    high = np.ones(np.shape(trees))
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        none = chance_of_none(middle, organs_per_tree=organs_per_tree, aggregation=aggregation)
        would_show = none**trees < 1.0 - confidence
        low, high = np.where(would_show, low, middle), np.where(would_show, middle, high)
    return high


def wilson_bounds(
    infected: FloatArray, inspected: FloatArray, *, confidence: float
) -> tuple[FloatArray, FloatArray]:
    r"""
    Return between which shares a count leaves the true one.

    Parameters
    ----------
    infected, inspected : [1]
        Counted; both over the design effect where organs were clumped.
    confidence : [1]
        Of the interval.

    Returns
    -------
    low : [1]
        Lower bound, 0 where nothing was found.
    high : [1]
        Upper bound.

    Notes
    -----
    :math:`(\hat p + z^2 / 2n \pm z \sqrt{\hat p (1 - \hat p) / n + z^2 / 4 n^2}) / (1 + z^2 / n)`
    (wilson1927).
    """
    z = float(ndtri((1.0 + confidence) / 2.0))
    share, weight = infected / inspected, z**2 / inspected
    half = z * np.sqrt(share * (1.0 - share) / inspected + weight / inspected / 4.0)
    middle = share + weight / 2.0
    return (
        np.clip((middle - half) / (1.0 + weight), 0.0, 1.0),
        np.clip((middle + half) / (1.0 + weight), 0.0, 1.0),
    )
