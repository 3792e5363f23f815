"""Each block against itself at another time or under another condition: rank, ratio and why."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf, isnan, log

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.ranking.comparison import Comparison, compared
from geo.ranking.factor_words import zero_words
from geo.ranking.sentences import because
from geo.reference.diseases import Disease, disease_with
from geo.season.disease import disease_key
from geo.texts import listed, phrase


@dataclass(frozen=True, slots=True)
class Standing:
    """
    Where all blocks stand.

    Attributes
    ----------
    disease : Disease
        By which disease.
    blocks : tuple of str
        Ids.
    factors : numpy.ndarray
        [1] Shape (block, 8).
    hazard : numpy.ndarray
        [1] Mean daily hazard index of the days ahead, shape (block,); NaN where not known.
    """

    disease: Disease
    blocks: tuple[str, ...]
    factors: FloatArray
    hazard: FloatArray


@dataclass(frozen=True, slots=True)
class Move:
    """
    A block then and now.

    Attributes
    ----------
    block : str
        Its id.
    rank_then, rank : int or None
        By hazard among all blocks, those that a rule keeps out too; equal hazards share a rank;
        None without a hazard.
    comparison : Comparison
        Now against then: eight ratios that multiply to the ratio of the hazards.
    """

    block: str
    rank_then: int | None
    rank: int | None
    comparison: Comparison

    @property
    def is_moved(self) -> bool:
        """
        Return whether the block's hazard or rank differs.

        Returns
        -------
        bool
            What is not known both times does not.
        """
        now, then = self.comparison.hazard, self.comparison.against_hazard
        is_other = now != then and not (isnan(now) and isnan(then))
        return is_other or self.rank != self.rank_then


def standing(season: xr.Dataset) -> Standing:
    """
    Return where the blocks of a season stand.

    Parameters
    ----------
    season : xarray.Dataset
        Ranked.

    Returns
    -------
    Standing
        By the season's disease.
    """
    return Standing(
        disease_with(disease_key(season)),
        tuple(season.block.values.tolist()),
        season.factors.values,
        season.hazard_ahead.values,
    )


def moves(then: Standing, now: Standing, *, against: str) -> list[Move]:
    """
    Return each block that is in both, then and now.

    Parameters
    ----------
    then, now : Standing
        By one disease.
    against : str
        What "then" is called in sentences: said already.

    Returns
    -------
    list of Move
        By rank now, then by id.
    """
    places = {block: place for place, block in enumerate(then.blocks)}
    ranks_then, ranks = _ranks(then.hazard), _ranks(now.hazard)
    found = [
        Move(
            block,
            ranks_then[places[block]],
            ranks[place],
            compared(
                now.disease,
                (block, against),
                factors=(now.factors[place], then.factors[places[block]]),
                hazards=(float(now.hazard[place]), float(then.hazard[places[block]])),
            ),
        )
        for place, block in enumerate(now.blocks)
        if block in places
    ]
    return sorted(found, key=lambda move: (move.rank or len(now.blocks) + 1, move.block))


def largest(found: list[Move]) -> Iterator[Move]:
    """
    Return moved blocks, the largest change of hazard first, up or down.

    Parameters
    ----------
    found : list of Move
        As `moves` gives them.

    Yields
    ------
    Move
        One whose hazard began or ended comes before all others.
    """

    def size(move: Move) -> float:
        ratio = move.comparison.ratio
        return inf if isnan(ratio) or ratio == 0 else abs(log(ratio))

    yield from sorted((move for move in found if move.is_moved), key=size, reverse=True)


def move_words(move: Move) -> str:
    """
    Return why a block's hazard is what it is against then.

    Parameters
    ----------
    move : Move
        The block.

    Returns
    -------
    str
        One sentence.
    """
    comparison = move.comparison
    now, then = comparison.hazard, comparison.against_hazard
    if now == then:
        return phrase("The same hazard.")
    if now > 0 and then == 0:
        reasons = [
            zero_words(row.factor.name, comparison.disease)
            for row in comparison.rows
            if row.other == 0
        ]
        named = listed(filter(None, reasons), last="comma") or phrase("a factor was 0")
        return phrase(
            "A hazard ahead; none {then}: {reasons}.", then=comparison.against, reasons=named
        )
    if now > 0 and isnan(then):
        return phrase("A hazard ahead; not known {then}.", then=comparison.against)
    return because(comparison)


def _ranks(hazard: FloatArray) -> list[int | None]:
    some = np.sort(-hazard[hazard > 0])
    places = np.searchsorted(some, -hazard, side="left")
    return [
        int(place) + 1 if value > 0 else None
        for place, value in zip(places, hazard.tolist(), strict=True)
    ]
