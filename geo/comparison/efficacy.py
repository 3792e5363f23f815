"""What did a spray do, held against trees that got none?"""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri

from geo.arrays import FloatArray
from geo.reference.jeffreys import JEFFREYS


@dataclass(frozen=True, slots=True)
class Efficacy:
    """
    Share of the disease that a treatment kept away.

    Attributes
    ----------
    share : float
        1 is all of it, 0 none; below 0 where the treated trees had more.
    low, high : float
        What the counts leave open.
    """

    share: float
    low: float
    high: float


def abbott(
    treated: tuple[float, float],
    check: tuple[float, float],
    *,
    confidence: float,
    effect: float = 1.0,
) -> Efficacy | None:
    r"""
    Return the efficacy by one count on each side, after the treatment.

    Parameters
    ----------
    treated, check : tuple of two float
        Infected and inspected organs of the treated and of the untreated trees.
    confidence : [1]
        Of the interval.
    effect : [1]
        Design effect: how much more the counts vary than organs drawn one by one.

    Returns
    -------
    Efficacy or None
        None where the check shows no disease: nothing was there to be kept away.

    Notes
    -----
    :math:`1 - p_t / p_c` (abbott1925). It takes both to have begun alike. The interval is that of
    a ratio of two shares by its logarithm (katz1978).
    """
    return _one_less_ratio((treated,), (check,), confidence=confidence, effect=effect)


def henderson_tilton(
    treated: tuple[tuple[float, float], tuple[float, float]],
    check: tuple[tuple[float, float], tuple[float, float]],
    *,
    confidence: float,
    effect: float = 1.0,
) -> Efficacy | None:
    r"""
    Return the efficacy by counts before and after, where the two sides did not begin alike.

    Parameters
    ----------
    treated, check : tuple of two tuples of two float
        Infected and inspected organs, before and after the treatment.
    confidence : [1]
        Of the interval.
    effect : [1]
        Design effect of the counts.

    Returns
    -------
    Efficacy or None
        None where the treated trees had no disease before, or the check has none after.

    Notes
    -----
    :math:`1 - (p_{ta} / p_{tb}) (p_{cb} / p_{ca})` (henderson1955, formula from memory). The
    interval is Katz's for four shares: by the delta method, the variance of the logarithm of a
    product of independent shares is the sum of theirs.
    """
    above, below = (treated[1], check[0]), (treated[0], check[1])
    return _one_less_ratio(above, below, confidence=confidence, effect=effect)


def _one_less_ratio(
    above: tuple[tuple[float, float], ...],
    below: tuple[tuple[float, float], ...],
    *,
    confidence: float,
    effect: float,
) -> Efficacy | None:
    over, under = np.array(above, dtype=float), np.array(below, dtype=float)
    if (under[:, 0] == 0).any():
        return None
    ratio = np.prod(_shares(over)) / np.prod(_shares(under))
    # A logarithm of nothing found has no interval: half an organ is added to each count then.
    added = JEFFREYS if (over[:, 0] == 0).any() else 0.0
    middle = np.prod(_shares(over + added)) / np.prod(_shares(under + added))
    variance = effect * sum(_variance(side + added) for side in (over, under))
    reach = float(np.exp(ndtri((1.0 + confidence) / 2.0) * np.sqrt(variance)))
    return Efficacy(
        share=float(1.0 - ratio),
        low=float(1.0 - middle * reach),
        high=1.0 if added else float(1.0 - middle / reach),
    )


def _shares(counts: FloatArray) -> FloatArray:
    return counts[:, 0] / counts[:, 1]


def _variance(counts: FloatArray) -> float:
    """Return the variance of the logarithm of a product of shares (katz1978)."""
    return float((1.0 / counts[:, 0] - 1.0 / counts[:, 1]).sum())
