"""Which blocks may a walk choose among, what is each worth, and which trees would be looked at?"""

from dataclasses import dataclass
from datetime import date

import geopandas as gpd
import numpy as np
import shapely
import xarray as xr

from geo.arrays import BoolArray, FloatArray
from geo.reference.number import values
from geo.scouting.coolest import coolest_tenth
from geo.scouting.inside_walk import BlockWalk, block_walk, way_in
from geo.scouting.order import DRAWN, DUE, ScoutingEntry, ScoutingOrder
from geo.scouting.stops import chance_of, stops_in, strongest_source
from geo.season.farm import Farm

# Our own choices. Blocks of the order whose looking alone fills the time so often are chosen among.
TIMES_THE_HOURS = 3.0
# An hour in a block that is in the order for no value of its own, beside the best block's 1.
LEAST_WORTH = 0.01
# What an hour in a block that is due counts for, on top of its own worth: as much as the best.
DUE_WORTH = 1.0


@dataclass(frozen=True, slots=True)
class Candidate:
    """
    A block that a walk may take.

    Attributes
    ----------
    entry : ScoutingEntry
        Its place in the order.
    value : float
        Value of looking an hour, as in the order, times the hours of looking.
    prize : float
        What the walk counts it for: with what the order's places ask for.
    gate : tuple of float
        East and north of where it is entered and left.
    walk : BlockWalk
        Its trees in walking order, and what they take.
    """

    entry: ScoutingEntry
    value: float
    prize: float
    gate: tuple[float, float]
    walk: BlockWalk


def candidates_of(
    farm: Farm,
    season: xr.Dataset,
    order: ScoutingOrder,
    *,
    hours: float,
    towards: shapely.Geometry,
    day: date,
) -> tuple[tuple[Candidate, ...], tuple[ScoutingEntry, ...]]:
    """
    Return the blocks to choose among, and those further down the order.

    Parameters
    ----------
    farm : Farm
        For the outlines.
    season : xarray.Dataset
        Of the order's disease, ranked.
    order : ScoutingOrder
        What a look at each block is worth, and how many trees it takes.
    hours : float
        Time there is.
    towards : shapely.Geometry
        Tracks or gates that blocks are entered from.
    day : datetime.date
        Of the walk: trees are drawn by it.

    Returns
    -------
    tuple of Candidate
        In scouting order: so many that looking alone fills the time three times.
    tuple of ScoutingEntry
        The rest.
    """
    looking = np.array([_looking_hours(entry) for entry in order.entries])
    before = np.cumsum(looking) - looking
    many = int((before < TIMES_THE_HOURS * hours).sum())
    prizes = _prizes(order, looking, is_within=before < hours)
    cool = coolest_tenth(farm, season).geometry if many else gpd.GeoSeries()
    place_of = {block: place for place, block in enumerate(season.block.values.tolist())}
    found = []
    for entry, prize, takes in zip(order.entries[:many], prizes, looking, strict=False):
        outline = farm.blocks.geometry.loc[entry.block]
        stops = stops_in(
            outline,
            entry.trees,
            chance=chance_of(day, entry.block),
            coolest=cool.get(entry.block),
            facing=strongest_source(farm, season, place_of[entry.block]),
            row_spacing=_row_spacing(farm, entry.block),
        )
        gate = way_in(outline, towards)
        value = float(entry.score * takes)
        found.append(Candidate(entry, value, float(prize), gate, block_walk(stops, gate)))
    return tuple(found), order.entries[many:]


def _prizes(order: ScoutingOrder, looking: FloatArray, *, is_within: BoolArray) -> FloatArray:
    """
    Return what the walk counts each block for.

    An hour is never worth less than in any block behind it in the order that is due as well, or is
    not due either; in a block that is due it counts more by the best hour there is. A block drawn
    by lot that the time would reach, were the order walked as it stands, counts more than all
    others: a lot that is only kept where it is on the way tells nothing.
    """
    score = np.array([entry.score for entry in order.entries])
    chosen = np.array([entry.chosen for entry in order.entries])
    is_due = chosen == DUE
    # Apart, or the best block that is not due would make all due ones before it worth the same.
    ahead = np.where(is_due, _best_from_here(score * is_due), _best_from_here(score * ~is_due))
    worth = np.maximum(ahead, LEAST_WORTH) + DUE_WORTH * is_due
    prizes: FloatArray = worth * looking
    return prizes + np.where((chosen == DRAWN) & is_within, prizes.sum(), 0.0)


def _best_from_here(score: FloatArray) -> FloatArray:
    return np.maximum.accumulate(score[::-1])[::-1]


def _looking_hours(entry: ScoutingEntry) -> float:
    return entry.trees * values("scouting", "look")["hours_per_tree"]


def _row_spacing(farm: Farm, block: str) -> float | None:
    """Return the metres from row to row, where the block's outline or the farm says so."""
    own = farm.blocks["row_spacing"].get(block) if "row_spacing" in farm.blocks else None
    return farm.settings.day_round.row_spacing if own is None or np.isnan(own) else float(own)
