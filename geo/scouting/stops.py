"""Which trees of a block to look at: in its coolest part, facing its strongest source, by lot."""

from dataclasses import dataclass
from datetime import date

import numpy as np
import shapely
import xarray as xr

from geo.arrays import FloatArray
from geo.ranking.sentences import two_digits
from geo.reference.number import values
from geo.scouting.inside import drawn_places, edge_places, inner
from geo.season.farm import Farm
from geo.season.sectors import COMPASS_POINTS, FULL_CIRCLE_DEGREES
from geo.texts import mark, phrase, phrase_of

COOL, EDGE, LOT = "coolest", "edge", "lot"
LEAST_TO_SHARE = 3  # trees: fewer are all drawn by lot but one of each kind; our choice
WORTH_AN_EDGE = 0.005  # our choice, as in the words on arrivals: share of all spores of today
# Our own choice: places keep so much of the distance apart that they would have in a square grid.
SPREAD = 0.4
LOT_WORDS = mark("Drawn by lot, so that the map is checked too.")
COOL_WORDS = mark("In the coolest tenth of the block.")


@dataclass(frozen=True, slots=True)
class Stop:
    """
    A tree to look at, or the one nearest to the place.

    Attributes
    ----------
    kind : str
        `COOL`, `EDGE` or `LOT`.
    east, north : float
        Metres in the farm's system.
    reason : str
        One plain sentence.
    """

    kind: str
    east: float
    north: float
    reason: str


@dataclass(frozen=True, slots=True)
class Facing:
    """
    The side that most of the day's spores from elsewhere come from.

    Attributes
    ----------
    towards : numpy.ndarray
        [1] East and north, of length 1.
    reason : str
        One plain sentence for a tree at that edge.
    """

    towards: FloatArray
    reason: str


def stops_in(
    outline: shapely.Geometry,
    count: int,
    *,
    chance: np.random.Generator,
    coolest: shapely.Geometry | None = None,
    facing: Facing | None = None,
    row_spacing: float | None = None,
) -> tuple[Stop, ...]:
    """
    Return the trees of an outline to look at.

    Parameters
    ----------
    outline : shapely.Geometry
        Of the block, in metres.
    count : int
        Trees wanted.
    chance : numpy.random.Generator
        Seeded.
    coolest : shapely.Geometry, optional
        Its coolest tenth; without one, those trees are drawn by lot too.
    facing : Facing, optional
        Its strongest source; without one likewise.
    row_spacing : float, optional
        Metres from row to row; else the table's.

    Returns
    -------
    tuple of Stop
        As many as wanted, each at least half a row inside the outline and away from its holes
        (in narrow outlines as far as there is room). The same for the same seed.
    """
    table = values("scouting", "stops")
    row = row_spacing or table["row_spacing"]
    region = inner(outline, row / 2.0)
    places = np.empty((0, 2))
    stops: list[Stop] = []
    if facing is not None and (wanted := _part(count, table["edge_share"])):
        places = edge_places(region, facing.towards, wanted, chance)
        stops += [Stop(EDGE, east, north, facing.reason) for east, north in places.tolist()]
    cool = None if coolest is None else shapely.intersection(coolest, region)
    if cool is not None and cool.area > 0 and (wanted := _part(count, table["cool_share"])):
        apart = _apart(cool, wanted, row)
        found = drawn_places(cool, wanted, chance, apart=apart, taken=places)
        words = phrase_of(COOL_WORDS)
        stops += [Stop(COOL, east, north, words) for east, north in found.tolist()]
        places = np.concatenate([places, found])
    apart = _apart(region, count, row)
    found = drawn_places(region, count - len(stops), chance, apart=apart, taken=places)
    words = phrase_of(LOT_WORDS)
    stops += [Stop(LOT, east, north, words) for east, north in found.tolist()]
    return tuple(stops)


def chance_of(day: date, block: str) -> np.random.Generator:
    """
    Return the lot of a block on a day.

    Parameters
    ----------
    day : datetime.date
        Of the walk.
    block : str
        Its id.

    Returns
    -------
    numpy.random.Generator
        The same on every machine for the same day and block.
    """
    return np.random.default_rng([day.toordinal(), *block.encode()])


def strongest_source(farm: Farm, season: xr.Dataset, block: int) -> Facing | None:
    """
    Return the side of a block that most of today's spores from elsewhere come from.

    Parameters
    ----------
    farm : Farm
        For outlines and names.
    season : xarray.Dataset
        After the epidemic layer.
    block : int
        Place of the block.

    Returns
    -------
    Facing or None
        Towards the outline with the largest share, else the strongest side of the compass; None
        where hardly any spores come from other outlines, or nothing is known.
    """
    is_in = season["arrival_block"].values == block
    is_in &= season["arrival_source"].values != block
    share = np.where(is_in, np.nan_to_num(season["arrival_share"].values), 0.0)
    pair = int(share.argmax()) if share.size else 0
    if share.size and share[pair] >= WORTH_AN_EDGE:
        return _towards_outline(
            farm, block, int(season["arrival_source"].values[pair]), share=float(share[pair])
        )
    by_side = np.nan_to_num(season["arrival_from_compass"].values[block])
    if by_side.sum() < WORTH_AN_EDGE:
        return None
    point = int(by_side.argmax())
    turn = np.deg2rad(point * FULL_CIRCLE_DEGREES / len(COMPASS_POINTS))
    words = phrase(
        "At the edge towards the {point}, whence {share} % of today's spores.",
        point=phrase_of(COMPASS_POINTS[point]),
        share=two_digits(float(by_side[point]) * 100),
    )
    return Facing(np.array([np.sin(turn), np.cos(turn)]), words)


def _towards_outline(farm: Farm, block: int, source: int, *, share: float) -> Facing | None:
    blocks, neighbours = farm.blocks, farm.neighbours
    is_own = source < len(blocks)
    frame, place = (blocks, source) if is_own else (neighbours, source - len(blocks))
    middle = blocks.geometry.iloc[block].representative_point()
    line = shapely.get_coordinates(shapely.shortest_line(middle, frame.geometry.iloc[place]))
    step = line[1] - line[0]
    if not (length := np.hypot(*step)):
        return None  # it lies around the block: no side is its own
    name = str(frame.index[place]) if is_own else str(frame["name"].iloc[place])
    words = phrase(
        "At the edge towards {outline}, whence {share} % of today's spores.",
        outline=name,
        share=two_digits(share * 100),
    )
    return Facing(step / length, words)


def _apart(region: shapely.Geometry, count: int, row: float) -> float:
    """Return how far apart places shall be: a row at least, more where there is room."""
    grid = float(np.sqrt(region.area / max(count, 1)))
    return max(row, SPREAD * grid)


def _part(count: int, share: float) -> int:
    """Return how many of the trees make up a share: one at least, unless there are too few."""
    return max(1, int(count * share)) if count >= LEAST_TO_SHARE else 0
