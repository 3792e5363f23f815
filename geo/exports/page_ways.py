"""The round of the day and the morning's walk, as the map draws them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from pyproj import Transformer

from geo.exports.round_gpx import sprayer_letters
from geo.rounds.day_round import DayRound
from geo.scouting.walk import Walk
from geo.season.farm import Farm
from geo.texts import isolated, listed, phrase, phrases

DECIMALS = 6  # a tenth of a metre on the ground


@dataclass(frozen=True, slots=True)
class Ways:
    """
    What is planned, as far as it is.

    Attributes
    ----------
    day_round : DayRound or None
        Who sprays what today.
    walk : Walk or None
        Where to look.
    """

    day_round: DayRound | None = None
    walk: Walk | None = None


def ways_data(farm: Farm, ways: Ways) -> dict[str, list[dict[str, Any]]]:
    """
    Return the ways to draw.

    Parameters
    ----------
    farm : Farm
        Whose metric system the walk is in.
    ways : Ways
        What is planned.

    Returns
    -------
    dict
        ``round`` with one entry a sprayer and ``walk`` with one entry, both empty where nothing is
        planned. An entry has ``name``; ``way`` as [latitude, longitude] pairs; ``stops`` with
        ``number``, ``at`` and ``words``; a walk has ``trees`` too.
    """
    return {
        "round": [] if ways.day_round is None else _round(ways.day_round),
        "walk": [] if ways.walk is None else _walk(farm, ways.walk),
    }


def lettered(names: Sequence[str]) -> str:
    """
    Return which letter stands for which sprayer.

    Parameters
    ----------
    names : sequence of str
        Of the sprayers, in the order of the round.

    Returns
    -------
    str
        Empty where one letter would tell nothing.

    Examples
    --------
    >>> lettered(["Large sprayer", "Small sprayer"])
    'A Large sprayer, B Small sprayer'
    """
    letters = sprayer_letters(len(names))
    told = [
        f"{letter} {isolated(name)}" for letter, name in zip(letters, names, strict=True) if letter
    ]
    return listed(told, last="comma")


def _round(day_round: DayRound) -> list[dict[str, Any]]:
    return [
        {
            "name": sprayer.sprayer,
            "way": _pairs(sprayer.path),
            "stops": [
                {
                    "number": stop.number,
                    "at": _pair(stop.longitude, stop.latitude),
                    "words": phrase(
                        "{block}: rows {first} to {last}, {start:%H:%M} to {finish:%H:%M}, "
                        "{litres:.0f} L",
                        block=isolated(stop.block),
                        first=stop.first_row,
                        last=stop.last_row,
                        start=stop.starts,
                        finish=stop.finishes,
                        litres=stop.litres,
                    ),
                }
                for stop in sprayer.stops
            ],
        }
        for sprayer in day_round.sprayers
    ]


def _walk(farm: Farm, walk: Walk) -> list[dict[str, Any]]:
    to_degrees = Transformer.from_crs(farm.crs, "EPSG:4326", always_xy=True)
    visits = [
        {
            "number": visit.number,
            "at": _pair(*to_degrees.transform(*visit.gate)),
            "words": phrases(
                "{block}: {count} tree, {start:%H:%M} to {end:%H:%M}",
                "{block}: {count} trees, {start:%H:%M} to {end:%H:%M}",
                len(visit.stops),
                block=isolated(visit.entry.block),
                start=visit.arrives,
                end=visit.leaves,
            ),
        }
        for visit in walk.visits
    ]
    trees = [_pair(tree.longitude, tree.latitude) for one in walk.visits for tree in one.stops]
    way = _pairs(to_degrees.transform(east, north) for east, north in walk.way)
    return [{"name": phrase("Walk"), "way": way, "stops": visits, "trees": trees}]


def _pairs(places: Iterable[tuple[float, float]]) -> list[list[float]]:
    return [_pair(east, north) for east, north in places]


def _pair(longitude: float, latitude: float) -> list[float]:
    return [round(float(latitude), DECIMALS), round(float(longitude), DECIMALS)]
