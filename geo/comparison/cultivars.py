"""Which cultivar of the farm shows more disease, and how unlike are the places it stands in?"""

from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.comparison.counts import Count, clumping, confidence, counts_of
from geo.comparison.pooled import Pooled, pooled_share
from geo.comparison.sprays import sprays_so_far
from geo.season.today import today_index, today_of

RECENT_DAYS = 14  # our own choice: older counts tell of another stage


@dataclass(frozen=True, slots=True)
class CultivarRow:
    """
    What was counted in the blocks of one cultivar, and how these blocks lie.

    Attributes
    ----------
    cultivar : str
        Its name.
    blocks : tuple of str
        Counted of late, and of no other cultivar.
    infected, inspected : int
        Newest count of each, added up.
    pooled : Pooled
        The share, with its interval.
    favourability, pool_depth, sprays : float
        Means over these blocks: weather from the first day to today, metres, sprays so far.
    """

    cultivar: str
    blocks: tuple[str, ...]
    infected: int
    inspected: int
    pooled: Pooled
    favourability: float
    pool_depth: float
    sprays: float


def cultivar_rows(season: xr.Dataset) -> tuple[CultivarRow, ...]:
    """
    Return the cultivars of the farm by what was counted in them, the most infected first.

    Parameters
    ----------
    season : xarray.Dataset
        Of one disease, ranked.

    Returns
    -------
    tuple of CultivarRow
        Blocks of one cultivar whose newest count is at most two weeks old. In a mixed block
        nobody noted which tree was counted: it stands nowhere.
    """
    today = today_of(season)
    groups: dict[str, list[tuple[int, Count]]] = {}
    for place, text in enumerate(season["cultivar_share_text"].values.tolist()):
        cultivar = sole_cultivar(text)
        counts = counts_of(season, place)
        if cultivar and counts and today - counts[-1].day <= RECENT_DAYS:
            groups.setdefault(cultivar, []).append((place, counts[-1]))
    rows = [_row(season, cultivar, group) for cultivar, group in groups.items()]
    return tuple(sorted(rows, key=lambda row: (-row.pooled.share, row.cultivar)))


def sole_cultivar(text: str) -> str:
    """
    Return the cultivar of a block that has one.

    Parameters
    ----------
    text : str
        Cultivars and shares, as the season holds them.

    Returns
    -------
    str
        Its name, empty for a block of several.

    Examples
    --------
    >>> sole_cultivar("Keitt:1"), sole_cultivar("Keitt:0.6;Kent:0.4")
    ('Keitt', '')
    """
    return "" if ";" in text else text.rpartition(":")[0]


def _row(season: xr.Dataset, cultivar: str, group: list[tuple[int, Count]]) -> CultivarRow:
    places = np.array([place for place, _ in group])
    infected = np.array([count.infected for _, count in group], dtype=float)
    inspected = np.array([count.inspected for _, count in group], dtype=float)
    days = slice(0, today_index(season) + 1)
    sprays = sprays_so_far(season)
    return CultivarRow(
        cultivar=cultivar,
        blocks=tuple(str(block) for block in season["block"].values[places]),
        infected=int(infected.sum()),
        inspected=int(inspected.sum()),
        pooled=pooled_share(
            infected,
            inspected,
            least_effect=clumping(float(inspected.max())),
            confidence=confidence(),
        ),
        favourability=float(season["favourability"].values[places, days].mean()),
        pool_depth=float(season["pool_depth"].values[places].mean()),
        sprays=float(sprays[places].mean()),
    )
