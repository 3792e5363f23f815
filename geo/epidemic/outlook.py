"""How much infection is already in and not visible yet, and how much is still to come?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.epidemic.parameters import Epidemic


@dataclass(frozen=True, slots=True)
class Outlook:
    """
    What no spray of a protectant can change any more, and what it still can; kept apart.

    Attributes
    ----------
    already_in, to_come : numpy.ndarray
        [d] Index of each, shape (block,): days of the reference hazard that would bring as much.
    share_already_in, share_to_come : numpy.ndarray
        [1] Of their sum, NaN where both are nothing.
    """

    already_in: FloatArray
    to_come: FloatArray
    share_already_in: FloatArray
    share_to_come: FloatArray


def already_in(hidden: FloatArray, *, today: int) -> FloatArray:
    """
    Return the infection that is in and does not show yet.

    Parameters
    ----------
    hidden : [1]
        Shape (block, day).
    today : int
        Index of today.

    Returns
    -------
    [1]
        Share of today's tissue, shape (block,).
    """
    return hidden[:, today]


def to_come(new_infection: FloatArray, *, today: int) -> FloatArray:
    """
    Return the infection expected on the days ahead if nothing more is sprayed.

    Parameters
    ----------
    new_infection : [1]
        Shape (block, day).
    today : int
        Index of today; all days after it are days ahead.

    Returns
    -------
    [1]
        Sum of the daily shares, shape (block,). NaN without any day ahead: that is not nothing.
    """
    ahead = new_infection[:, today + 1 :]
    if ahead.shape[1] == 0:
        return np.full(ahead.shape[0], np.nan)
    total: FloatArray = ahead.sum(axis=1)
    return total


def outlook(
    hidden: FloatArray, new_infection: FloatArray, *, today: int, epidemic: Epidemic
) -> Outlook:
    r"""
    Return what is in and what is to come, side by side.

    Parameters
    ----------
    hidden, new_infection : [1]
        Shape (block, day).
    today : int
        Index of today.
    epidemic : Epidemic
        Parameters.

    Returns
    -------
    Outlook
        An infected share :math:`x` has the index :math:`x / (\beta q_0)`: the days of hazard
        index 1 (perfect weather, fully susceptible, unsprayed, background spores only) that
        would bring it into healthy tissue. It is no probability.
    """
    shares = [already_in(hidden, today=today), to_come(new_infection, today=today)]
    total = shares[0] + shares[1]
    reference = epidemic.infection_rate * epidemic.background_inoculum
    parts = [
        np.divide(share, total, out=np.full(total.shape, np.nan), where=total > 0)
        for share in shares
    ]
    return Outlook(shares[0] / reference, shares[1] / reference, parts[0], parts[1])
