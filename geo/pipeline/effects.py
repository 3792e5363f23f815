"""What would come of it? Each block as it is and as supposed."""

from dataclasses import dataclass

import xarray as xr

from geo.ranking.layer import days_ahead
from geo.ranking.then_and_now import Move, moves, standing
from geo.texts import phrase_for


@dataclass(frozen=True, slots=True)
class Effect:
    """
    A block as it is and as supposed.

    Attributes
    ----------
    move : Move
        Its hazard, rank and factors: "then" is as it is.
    protection_before, protection : float
        Left at noon of the last day looked at.
    """

    move: Move
    protection_before: float
    protection: float

    @property
    def is_any(self) -> bool:
        """
        Return whether anything differs.

        Returns
        -------
        bool
            Of its hazard, rank, factors or protection.
        """
        return self.move.is_moved or self.protection != self.protection_before

    def crosses(self, line: float) -> int:
        """
        Return whether its protection crosses a line.

        Parameters
        ----------
        line : float
            Such as the reapply line.

        Returns
        -------
        int
            -1 if it falls to the line or below, 1 if it comes above it, 0 if it does neither.
        """
        return int(self.protection > line) - int(self.protection_before > line)


def effects(before: xr.Dataset, after: xr.Dataset) -> list[Effect]:
    """
    Return what a supposition does to each block.

    Parameters
    ----------
    before, after : xarray.Dataset
        Ranked, of one disease and the same blocks.

    Returns
    -------
    list of Effect
        By rank as supposed.
    """
    last = days_ahead(before).stop - 1
    places = {block: place for place, block in enumerate(before.block.values.tolist())}
    left_before, left = (
        season.protection_left.values[:, last].tolist() for season in (before, after)
    )
    return [
        Effect(move, left_before[places[move.block]], left[places[move.block]])
        for move in moves(standing(before), standing(after), against=phrase_for("a time", "now"))
    ]
