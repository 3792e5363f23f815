"""How much of what all sources shed does each block receive?"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from geo.arrays import FloatArray


class Exchange(Protocol):
    """Whatever knows how spores travel from sources (blocks first, then neighbours) to blocks."""

    def received(self, sporulating: FloatArray) -> tuple[FloatArray, FloatArray]:
        """
        Return what blocks receive from themselves and from the other sources.

        Parameters
        ----------
        sporulating : [1]
            Share of each source's tissue that sheds, shape (source,).

        Returns
        -------
        home : [1]
            From the block itself, shape (block,).
        incoming : [1]
            From the other sources, shape (block,). Both have the unit of the background.
        """


@dataclass(frozen=True, slots=True)
class DenseExchange:
    """
    Every pair of source and block, for farms small enough to hold them all.

    Attributes
    ----------
    share : numpy.ndarray
        [1] Shape (block, source): what a block receives from each fully sporulating source.
    """

    share: FloatArray

    def received(self, sporulating: FloatArray) -> tuple[FloatArray, FloatArray]:
        """
        Return what blocks receive from themselves and from the other sources.

        Parameters
        ----------
        sporulating : [1]
            Shape (source,).

        Returns
        -------
        home : [1]
            Shape (block,).
        incoming : [1]
            Shape (block,).
        """
        own = np.arange(self.share.shape[0])
        home = self.share[own, own] * sporulating[: own.size]
        # Rounding must not make what others send negative.
        return home, np.maximum(self.share @ sporulating - home, 0.0)
