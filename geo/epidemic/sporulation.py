"""What share of each source's panicles sheds spores, as far as anyone has seen?"""

import numpy as np

from geo.arrays import FloatArray
from geo.reference.jeffreys import JEFFREYS
from geo.season.visits import Looks


def infected_share(infected: FloatArray, inspected: FloatArray) -> FloatArray:
    """
    Return the share of panicles infected, never quite 0 and never quite 1.

    Parameters
    ----------
    infected, inspected : [1]
        Panicles counted.

    Returns
    -------
    [1]
        Mean of the posterior under Jeffreys' prior.

    Examples
    --------
    >>> infected_share(np.array([0.0, 5.0]), np.array([50.0, 50.0])).round(4)
    array([0.0098, 0.1078])
    """
    share: FloatArray = (infected + JEFFREYS) / (inspected + 2.0 * JEFFREYS)
    return share


def sporulating_share(looks: Looks, seen: FloatArray, unseen: FloatArray) -> FloatArray:
    """
    Return the sporulating share of each source and day: the last look, held.

    Parameters
    ----------
    looks : Looks
        Last and next look at each source and day.
    seen : [1]
        Infected share at each look, shape (visit,).
    unseen : [1]
        What is taken for a source nobody looked at, shape (source,).

    Returns
    -------
    [1]
        Shape (source, day). Before a source's first look that first look is taken.
    """
    padded = np.append(seen, np.nan)
    share: FloatArray = np.select(
        [looks.has_last, looks.has_following],
        [padded[looks.last], padded[looks.following]],
        default=unseen[:, None],
    )
    return share
