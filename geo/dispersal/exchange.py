"""What does every block receive from every source, without a table of all with all?"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from scipy.sparse import csr_array

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.dispersal.far_grid import FarGrid, SectorArray


@dataclass(frozen=True)
class Exchange:
    """
    The way of spores between outlines, as a linear map from sources to blocks.

    Attributes
    ----------
    block_count, source_count : int
        The first sources are the blocks themselves, in their order.
    first : numpy.ndarray
        Place of each block's first near pair, and the number of pairs; shape (block + 1,).
    source : numpy.ndarray
        Source of each near pair, rising within a block.
    share : numpy.ndarray
        [1] What a block receives from the source at full sporulation.
    still : numpy.ndarray
        [1] The part of the pair's far share that does not follow the wind.
    turning : numpy.ndarray
        [1] The part that does. Both are on the grid already and leave the near share.
    sector : numpy.ndarray
        Sector of the wind that flies from source to block.
    apart : numpy.ndarray
        [m] Distance between the middles of the two.
    home_share : numpy.ndarray
        [1] What a block receives from itself, shape (block,).
    far : FarGrid or None
        All pairs that are not near; None if every pair is.
    sector_weight : numpy.ndarray or None
        Weight of each sector of the wind, mean 1; None for no direction.
    """

    block_count: int
    source_count: int
    first: IntArray
    source: IntArray
    share: FloatArray
    still: FloatArray
    turning: FloatArray
    sector: SectorArray
    apart: FloatArray
    home_share: FloatArray
    far: FarGrid | None
    sector_weight: FloatArray | None = None

    @cached_property
    def near(self) -> csr_array:
        """
        Return what the near pairs add to the far part.

        Returns
        -------
        scipy.sparse.csr_array
            Shape (block, source).
        """
        weight = self.pair_weight
        net = weight * (self.share - self.turning) - self.still
        # Places of 32 bits: half as much to read on each of the days.
        places = (self.source.astype(np.int32), self.first.astype(np.int32))
        return csr_array((net, *places), shape=(self.block_count, self.source_count))

    @property
    def pair_share(self) -> FloatArray:
        """
        Return what the block of each near pair receives from its source at full sporulation.

        Returns
        -------
        [1]
            Shape (pair,).
        """
        return self.pair_weight * self.share

    @cached_property
    def pair_weight(self) -> FloatArray:
        """
        Return the weight of each near pair by the wind.

        Returns
        -------
        [1]
            Shape (pair,); 1 for a block's own spores.
        """
        if self.sector_weight is None:
            return np.ones(self.share.size)
        return np.where(self.is_home, 1.0, self.sector_weight[self.sector])

    @cached_property
    def pair_block(self) -> IntArray:
        """
        Return the block of each near pair.

        Returns
        -------
        [1]
            Shape (pair,), never falling.
        """
        return np.repeat(np.arange(self.block_count), np.diff(self.first))

    @property
    def is_home(self) -> BoolArray:
        """
        Return whether each near pair is a block with itself.

        Returns
        -------
        [1]
            Shape (pair,).
        """
        is_home: BoolArray = self.source == self.pair_block
        return is_home

    def received(self, sporulating: FloatArray) -> tuple[FloatArray, FloatArray]:
        """
        Return what each block receives from itself and from others.

        Parameters
        ----------
        sporulating : [1]
            Share of each source's organs that shed spores, shape (source,).

        Returns
        -------
        home : [1]
            Shape (block,). 1 is what endless fields of sporulating organs would give.
        incoming : [1]
            Shape (block,), in the same unit.
        """
        home = self.home_share * sporulating[: self.block_count]
        total = self.near @ sporulating
        if self.far is not None:
            total = total + self.far.received(sporulating)
        # Rounding must not make what others send negative.
        return home, np.maximum(total - home, 0.0)

    def given_back(self, weight: FloatArray) -> FloatArray:
        """
        Return the weighted sum, over blocks, of what each source gives: the transpose.

        Parameters
        ----------
        weight : [1]
            Of what each block receives in all, shape (block,).

        Returns
        -------
        [1]
            Shape (source,): a block's own spores are part of it.
        """
        given: FloatArray = self.near.T @ weight
        if self.far is not None:
            given = given + self.far.given_back(weight)
        return given

    def turned(self, sector_weight: FloatArray) -> "Exchange":
        """
        Return the exchange on a day of wind.

        Parameters
        ----------
        sector_weight : [1]
            Weight of spores flown by wind from each sector, mean 1, shape (sector,).

        Returns
        -------
        Exchange
            The same pairs. A block's own spores have no direction.
        """
        far = None if self.far is None else replace(self.far, sector_weight=sector_weight)
        return replace(self, far=far, sector_weight=sector_weight)
