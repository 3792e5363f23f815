"""In which condition is each block's tissue, and what does growth do to it?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray


@dataclass(frozen=True, slots=True)
class Tissue:
    """
    Shares of today's tissue of each block; they sum to 1.

    Attributes
    ----------
    healthy : numpy.ndarray
        [1] Shape (block,): not infected.
    hidden : numpy.ndarray
        [1] Shape (stage, block): infected and not visible yet, youngest first.
    sporulating : numpy.ndarray
        [1] Shape (block,): visible and shedding. What a count finds.
    spent : numpy.ndarray
        [1] Shape (block,): sheds no more: dried up, dropped, cut out or washed. A count of
        living disease no longer finds it.
    """

    healthy: FloatArray
    hidden: FloatArray
    sporulating: FloatArray
    spent: FloatArray


def first_tissue(start_visible: FloatArray, *, latent_stages: float) -> Tissue:
    """
    Return the tissue before the first day: some of it sporulates, the rest is healthy.

    Parameters
    ----------
    start_visible : [1]
        Sporulating share, shape (block,): from the block's status and from last season.
    latent_stages : [1]
        Steps of the latent chain.

    Returns
    -------
    Tissue
        Nothing hidden and nothing spent.
    """
    nothing = np.zeros_like(start_visible, dtype=float)
    return Tissue(
        healthy=1.0 - start_visible,
        hidden=np.zeros((round(latent_stages), start_visible.size)),
        sporulating=start_visible + nothing,
        spent=nothing,
    )


def old_share(size: FloatArray) -> FloatArray:
    """
    Return which share of each day's tissue was there the day before.

    Parameters
    ----------
    size : [1]
        Size of the organ, in any unit, shape (block, day).

    Returns
    -------
    [1]
        Same shape, at most 1: what shrinks stays old, and so does what has no size yet. 1 on
        the first day.

    Examples
    --------
    >>> old_share(np.array([[0.0, 0.0, 0.5, 1.0, 0.8]])).tolist()
    [[1.0, 1.0, 0.0, 0.5, 1.0]]
    """
    before = np.concatenate([size[:, :1], size[:, :-1]], axis=1)
    share = np.divide(before, size, out=np.ones_like(before, dtype=float), where=size != 0)
    at_most_all: FloatArray = np.minimum(share, 1.0)
    return at_most_all


def grown(tissue: Tissue, old_share: FloatArray) -> Tissue:
    """
    Return the tissue after a day's growth: what is new is healthy.

    Parameters
    ----------
    tissue : Tissue
        Of yesterday.
    old_share : [1]
        Share of today's tissue that was there yesterday, shape (block,).

    Returns
    -------
    Tissue
        Every infected share is thinned by the same factor.
    """
    return Tissue(
        healthy=tissue.healthy * old_share + (1.0 - old_share),
        hidden=tissue.hidden * old_share,
        sporulating=tissue.sporulating * old_share,
        spent=tissue.spent * old_share,
    )
