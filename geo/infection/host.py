"""How susceptible is a block's mixture of cultivars?"""

from collections.abc import Mapping

import numpy as np

from geo.reference.cultivars import FIRST, cultivar


def cultivar_shares(text: str) -> dict[str, float]:
    """
    Return the cultivars of a block with their shares.

    Parameters
    ----------
    text : str
        As the season carries it: ``"Keitt:0.6;Kent:0.4"``.

    Returns
    -------
    dict of str to float
        [1] Shares, summing to 1 as read.

    Examples
    --------
    >>> cultivar_shares("Keitt:0.6;Kent:0.4")
    {'Keitt': 0.6, 'Kent': 0.4}
    """
    pairs = (part.rpartition(":") for part in text.split(";"))
    return {name.strip(): float(share) for name, _, share in pairs}


def block_susceptibility(shares: Mapping[str, float], disease: str = FIRST) -> tuple[float, float]:
    """
    Return a block's susceptibility to a disease, and its doubt.

    Parameters
    ----------
    shares : [1]
        Share of each cultivar.
    disease : str
        Key of the disease.

    Returns
    -------
    [1]
        Mean of the priors, weighted by share.
    [1]
        Standard deviation of its logarithm: the cultivars' own doubts, taken as independent and
        weighted by what each adds.
    """
    ratings = [cultivar(name, disease) for name in shares]
    parts = np.array(list(shares.values())) * [rating.susceptibility for rating in ratings]
    mean = float(parts.sum())
    doubts = np.array([rating.doubt for rating in ratings])
    return mean, float(np.sqrt(np.sum((parts / mean * doubts) ** 2)))
