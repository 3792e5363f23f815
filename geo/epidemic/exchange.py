"""How much of what all sources shed does each block receive?"""

from typing import Protocol

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
