"""Blocks side by side: factors, counts, cultivars and what sprays did."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.comparison.counts import Count, counts_of
from geo.comparison.cultivars import CultivarRow, cultivar_rows
from geo.comparison.progress import area_under_curve, standardised_area
from geo.comparison.trial import TrialRow, trial_row
from geo.ranking.comparison import Comparison, ranked
from geo.reference.diseases import Disease


@dataclass(frozen=True, slots=True)
class Record:
    """
    What was counted in a block.

    Attributes
    ----------
    block : str
        Its id.
    place : int
        Among the season's blocks.
    counts : tuple of Count
        First to last.
    area : float
        Area under the disease progress curve in per cent times days; NaN for one look or none.
    mean : float
        That area over its days, in per cent.
    """

    block: str
    place: int
    counts: tuple[Count, ...]
    area: float
    mean: float


@dataclass(frozen=True, slots=True)
class SideBySide:
    """
    Blocks compared.

    Attributes
    ----------
    disease : Disease
        By which disease.
    comparisons : tuple of Comparison
        Each further block against the first.
    records : tuple of Record
        What was counted in each.
    cultivars : tuple of CultivarRow
        Of the whole farm.
    untreated : str or None
        Block that the user says got no spray.
    trials : tuple of TrialRow
        Each block against it; empty without such a block.
    """

    disease: Disease
    comparisons: tuple[Comparison, ...]
    records: tuple[Record, ...]
    cultivars: tuple[CultivarRow, ...]
    untreated: str | None
    trials: tuple[TrialRow, ...]


def side_by_side(
    season: xr.Dataset, blocks: Sequence[str], *, untreated: str | None = None
) -> SideBySide:
    """
    Return blocks side by side.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.
    blocks : sequence of str
        Two or more ids; the others are held against the first.
    untreated : str, optional
        Id of a block without sprays.

    Returns
    -------
    SideBySide
        Without a check nothing is said of sprays.
    """
    known = ranked(season)
    first, *others = blocks
    trials = (
        tuple(
            trial_row(season, known.place[block], known.place[untreated])
            for block in blocks
            if block != untreated
        )
        if untreated
        else ()
    )
    return SideBySide(
        disease=known.disease,
        comparisons=tuple(known.compare(other, first) for other in others),
        records=tuple(_record(season, block, known.place[block]) for block in blocks),
        cultivars=cultivar_rows(season),
        untreated=untreated,
        trials=trials,
    )


def _record(season: xr.Dataset, block: str, place: int) -> Record:
    counts = counts_of(season, place)
    days = np.array([count.day for count in counts], dtype=float)
    shares = np.array([count.share * 100 for count in counts])
    return Record(
        block,
        place,
        counts,
        area=area_under_curve(days, shares),
        mean=standardised_area(days, shares),
    )
