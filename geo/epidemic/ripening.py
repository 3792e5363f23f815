"""How does infection ripen: hidden, then sporulating, then spent?"""

from dataclasses import replace

import numpy as np

from geo.arrays import FloatArray
from geo.epidemic.tissue import Tissue


def ripened(tissue: Tissue, latency_rate: FloatArray) -> Tissue:
    r"""
    Return the tissue after a day of latency: what has come to the end of the chain shows.

    Parameters
    ----------
    tissue : Tissue
        Of today, its new infections included; these ripen a whole day as well.
    latency_rate : [d-1]
        One over the latent period at today's temperatures, shape (block,); 0 stands still, as
        infection of green fruit does. Any rate is taken.

    Returns
    -------
    Tissue
        Hidden and sporulating together are what they were.

    Notes
    -----
    A chain of :math:`K` equal stages left at the rate :math:`K r` gives a latent period with the
    Erlang distribution of mean :math:`1 / r`. Its solution over a day is exact: a share
    :math:`e^{-Kr} (Kr)^j / j!` moves on by :math:`j` stages, and whatever passes the last one
    sporulates.
    """
    hidden = tissue.hidden
    stages = hidden.shape[0]
    steps = stages * latency_rate
    moved_by = np.exp(-steps)
    later = hidden * moved_by
    for jump in range(1, stages):
        moved_by = moved_by * steps / jump
        later[jump:] += hidden[: stages - jump] * moved_by
    # Rounding must not make a share negative.
    shown = np.maximum(hidden.sum(axis=0) - later.sum(axis=0), 0.0)
    return replace(tissue, hidden=later, sporulating=tissue.sporulating + shown)


def exhausted(tissue: Tissue, *, infectious_period: float) -> Tissue:
    """
    Return the tissue after a day of shedding: some of it is spent.

    Parameters
    ----------
    tissue : Tissue
        Of today.
    infectious_period : [d]
        Mean time that tissue sheds.

    Returns
    -------
    Tissue
        Sporulating and spent together are what they were.
    """
    return taken_out(tissue, -np.expm1(-1.0 / np.array(infectious_period)))


def taken_out(tissue: Tissue, share: FloatArray) -> Tissue:
    """
    Return the tissue after some of what sporulates stopped doing so.

    Parameters
    ----------
    tissue : Tissue
        Of today.
    share : [1]
        Of the sporulating tissue, shape (block,) or one for all.

    Returns
    -------
    Tissue
        Hidden infection is not touched: nobody sees it, and no water reaches it.
    """
    gone = tissue.sporulating * share
    return replace(tissue, sporulating=tissue.sporulating - gone, spent=tissue.spent + gone)


def acts_together(
    removals: FloatArray, washings: FloatArray, *, removal_effect: float, washing_effect: float
) -> FloatArray:
    """
    Return which share of the sporulating tissue the acts of each day take out.

    Parameters
    ----------
    removals, washings : [1]
        How often infected organs were cut out and trees washed, shape (block, day).
    removal_effect, washing_effect : [1]
        Share that one of them takes.

    Returns
    -------
    [1]
        Same shape: each act takes its share of what the others leave.

    Examples
    --------
    >>> once = np.array([[0.0, 1.0, 1.0]])
    >>> acts_together(once, once[:, ::-1], removal_effect=0.3, washing_effect=0.1).round(2)
    array([[0.1 , 0.37, 0.3 ]])
    """
    left: FloatArray = (1.0 - removal_effect) ** removals * (1.0 - washing_effect) ** washings
    return 1.0 - left
