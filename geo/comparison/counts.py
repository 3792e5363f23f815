"""What was counted in a block, look by look, and what does each count leave open?"""

from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.reference.number import values
from geo.scouting.sampling import design_effect, wilson_bounds


@dataclass(frozen=True, slots=True)
class Count:
    """
    One look at a block.

    Attributes
    ----------
    day : int
        Days from the season's first; below 0 for a look before it.
    infected, inspected : int
        Organs.
    share, low, high : float
        Infected share, and what the count leaves open.
    """

    day: int
    infected: int
    inspected: int
    share: float
    low: float
    high: float

    @property
    def pair(self) -> tuple[float, float]:
        """
        Return the bare count.

        Returns
        -------
        tuple of two float
            Infected and inspected.
        """
        return float(self.infected), float(self.inspected)


def confidence() -> float:
    """
    Return the confidence of every interval.

    Returns
    -------
    float
        As in the table of scouting.
    """
    return values("scouting", "look")["confidence"]


def clumping(inspected: float) -> float:
    """
    Return how much organs of the same trees tell less than organs drawn one by one.

    Parameters
    ----------
    inspected : [1]
        Organs of one look; few cannot clump more than all of them together.

    Returns
    -------
    [1]
        Design effect, for as many organs to a tree as the table of scouting asks for.
    """
    table = values("scouting", "look")
    organs = int(min(table["organs_per_tree"], inspected))
    return design_effect(organs_per_tree=organs, aggregation=table["aggregation"])


def counts_of(season: xr.Dataset, place: int) -> tuple[Count, ...]:
    """
    Return the looks at one block, first to last.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease.
    place : int
        Of the block.

    Returns
    -------
    tuple of Count
        Intervals after Wilson, with clumping on trees counted in.
    """
    mine = np.flatnonzero(season["visit_block"].values == place)
    mine = mine[np.argsort(season["visit_day"].values[mine], kind="stable")]
    looks = zip(
        season["visit_day"].values[mine].tolist(),
        season["visit_infected"].values[mine].tolist(),
        season["visit_inspected"].values[mine].tolist(),
        strict=True,
    )
    return tuple(_count(*look) for look in looks)


def _count(day: float, infected: float, inspected: float) -> Count:
    effect = clumping(inspected)
    low, high = wilson_bounds(
        np.asarray(infected / effect), np.asarray(inspected / effect), confidence=confidence()
    )
    return Count(
        day=int(day),
        infected=int(infected),
        inspected=int(inspected),
        share=infected / inspected,
        low=float(low),
        high=float(high),
    )
