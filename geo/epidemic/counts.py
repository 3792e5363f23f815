"""What does a count say about the tissue that shows, and about what hides behind it?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.epidemic.tissue import Tissue
from geo.reference.jeffreys import JEFFREYS


@dataclass(frozen=True, slots=True)
class Counts:
    """
    What was counted, in any order.

    Attributes
    ----------
    block, day : numpy.ndarray
        [1] Of each count, shape (count,). A day outside those computed is left out.
    inspected, infected : numpy.ndarray
        [1] Organs looked at, and those with living disease.
    """

    block: IntArray
    day: IntArray
    inspected: FloatArray
    infected: FloatArray

    def on(self, day: int, *, block_count: int) -> tuple[FloatArray, FloatArray]:
        """
        Return what was counted in each block on a day, all counts of the day together.

        Parameters
        ----------
        day : [1]
            Index of the day.
        block_count : [1]
            Number of blocks.

        Returns
        -------
        inspected : [1]
            Shape (block,), 0 where nobody counted.
        infected : [1]
            Same shape.
        """
        today = self.day == day
        block = self.block[today]
        inspected: FloatArray = np.bincount(
            block, self.inspected[today], minlength=block_count
        ).astype(float)
        infected: FloatArray = np.bincount(
            block, self.infected[today], minlength=block_count
        ).astype(float)
        return inspected, infected


NO_COUNTS = Counts(
    block=np.zeros(0, dtype=np.int64),
    day=np.zeros(0, dtype=np.int64),
    inspected=np.zeros(0),
    infected=np.zeros(0),
)


def corrected(
    tissue: Tissue, strength: FloatArray, *, inspected: FloatArray, infected: FloatArray
) -> Tissue:
    r"""
    Return the tissue after a count.

    Parameters
    ----------
    tissue : Tissue
        As computed for today.
    strength : [1]
        What the computed sporulating share is worth in inspected organs, shape (block,).
    inspected, infected : [1]
        Of today, shape (block,), 0 where nobody counted.

    Returns
    -------
    Tissue
        Unchanged where nobody counted.

    Notes
    -----
    The sporulating share :math:`y`, worth :math:`m` organs, has the prior
    :math:`Beta(m y + 1/2, m (1 - y) + 1/2)`, with Jeffreys' halves (jeffreys1946) so that neither
    0 nor 1 is ever certain. After :math:`k` infected of :math:`n` it becomes the posterior mean
    :math:`(m y + 1/2 + k) / (m + 1 + n)`.

    Two things are assumed of what a count cannot see. Hidden infection is the offspring of what
    shows, so its odds against healthy tissue are multiplied by the factor by which the count
    moved the odds of the sporulating share. Spent tissue stays what it was as far as there is
    room; healthy tissue takes the rest.
    """
    before = strength * tissue.sporulating + JEFFREYS
    missed = strength * (1.0 - tissue.sporulating) + JEFFREYS
    sporulating = (before + infected) / (before + missed + inspected)
    odds_ratio = (before + infected) / (missed + inspected - infected) * missed / before
    spent = np.minimum(tissue.spent, 1.0 - sporulating)
    room = 1.0 - sporulating - spent
    weight = tissue.hidden * odds_ratio
    total = weight.sum(axis=0) + tissue.healthy
    # Where neither hidden nor healthy tissue is left, nothing is shared out.
    hidden = room * (weight / np.maximum(total, np.finfo(float).tiny))
    counted = inspected > 0
    return Tissue(
        healthy=np.where(counted, np.maximum(room - hidden.sum(axis=0), 0.0), tissue.healthy),
        hidden=np.where(counted, hidden, tissue.hidden),
        sporulating=np.where(counted, sporulating, tissue.sporulating),
        spent=np.where(counted, spent, tissue.spent),
    )


def strength_tomorrow(
    strength: FloatArray, latency_rate: FloatArray, *, scouting_worth: float
) -> FloatArray:
    """
    Return what the computed share is worth a day later: counts age, the model does not.

    Parameters
    ----------
    strength : [1]
        In inspected organs, shape (block,): the model's own worth and what is left of counts.
    latency_rate : [d-1]
        Shape (block,): each latent period brings out what no count has seen, so counts fade with
        it, and keep their worth where it stands still.
    scouting_worth : [1]
        What the model alone is worth.

    Returns
    -------
    [1]
        Shape (block,), falling to the model's own worth.
    """
    faded: FloatArray = scouting_worth + (strength - scouting_worth) * np.exp(-latency_rate)
    return faded
