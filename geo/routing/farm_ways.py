"""How far is it on the farm's tracks from shed and water to each block, and from block to block?"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from pyproj import CRS, Transformer

from geo.arrays import AnyArray, BoolArray, FloatArray, IntArray
from geo.reference.number import numbers
from geo.routing.tracks import Tracks, tracks_of
from geo.routing.ways import Ways, ways_between
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_of

TABLE = "rounds"
_MOST_NAMED = 5  # blocks that a sentence names one by one (our choice)
# What a place is called that the user gave no name.
_UNNAMED = {
    "gate": mark("gate {number}"),
    "shed": mark("shed {number}"),
    "water": mark("water {number}"),
}


@dataclass(frozen=True, slots=True)
class FarmWays:
    """
    Ways between blocks, water and shed; points stand in this order.

    Attributes
    ----------
    ways : Ways
        Points are all blocks in their own order, then every place of water, then the start.
    gates : tuple of str or None
        Name of the gate by which each block is entered; None where it has none.
    waters : tuple of int
        Points at which tanks are filled; the start itself where no water is drawn.
    water_names : tuple of str
        Of each of them.
    start : int
        Point that sprayers leave from and come back to.
    start_name : str
        Of it.
    notes : tuple of str
        Plain sentences: what was assumed, and where ways are straight lines.
    """

    ways: Ways
    gates: tuple[str | None, ...]
    waters: tuple[int, ...]
    water_names: tuple[str, ...]
    start: int
    start_name: str
    notes: tuple[str, ...]


def farm_ways(farm: Farm) -> FarmWays:
    """
    Return the ways of a farm.

    A block is entered by the gate nearest to its outline, if one is near; else where its outline
    is nearest to a track.

    Parameters
    ----------
    farm : Farm
        Outlines, tracks, gates, sheds and water.

    Returns
    -------
    FarmWays
        Straight lines only where no track leads, and then that is said.
    """
    assumed = {key: number.value for (kind, key), number in numbers(TABLE).items() if kind == "way"}
    kind, drawn = farm.places["kind"].to_numpy(), farm.places.geometry.to_numpy()
    names = farm.places["name"].to_numpy()
    tracks = tracks_of(drawn[kind == "track"], gap=assumed["track_gap"])
    outlines = farm.blocks.geometry.to_numpy()
    spots = {one: shapely.centroid(drawn[kind == one]) for one in ("gate", "shed", "water")}
    named = {one: _named(names[kind == one], one) for one in spots}
    start, start_name, notes = _start(spots, named, outlines)
    gate = _gates(outlines, spots["gate"], assumed["gate_reach"])
    entries = _entries(outlines, tracks, start)
    entries[gate >= 0] = spots["gate"][gate[gate >= 0]]
    points = np.concatenate([entries, spots["water"], [start]])
    ways = ways_between(tracks, shapely.get_coordinates(points), reach=assumed["track_reach"])
    blocks = [str(block) for block in farm.blocks.index]
    last = len(points) - 1
    if not len(spots["water"]):
        notes.append(
            phrase(
                "No place of kind water is drawn: tanks are filled at {place}.", place=start_name
            )
        )
    has_water = len(spots["water"]) > 0
    return FarmWays(
        ways=ways,
        gates=tuple(named["gate"][number] if number >= 0 else None for number in gate),
        waters=tuple(range(len(outlines), last)) if has_water else (last,),
        water_names=named["water"] if has_water else (start_name,),
        start=last,
        start_name=start_name,
        notes=(*notes, *_said(tracks, ways, blocks, assumed)),
    )


def in_degrees(metres: FloatArray, crs: CRS) -> tuple[tuple[float, float], ...]:
    """
    Return places as longitude and latitude.

    Parameters
    ----------
    metres : [m]
        East and north in the farm's system, shape (place, 2).
    crs : pyproj.CRS
        That system.

    Returns
    -------
    tuple of tuple of float
        Longitude and latitude of each, WGS 84.
    """
    across = Transformer.from_crs(crs, CRS.from_epsg(4326), always_xy=True)  # WGS 84
    longitude, latitude = across.transform(metres[:, 0], metres[:, 1])
    return tuple(zip(longitude.tolist(), latitude.tolist(), strict=True))


def _named(names: AnyArray, kind: str) -> tuple[str, ...]:
    return tuple(
        str(name) or phrase_of(_UNNAMED[kind], number=number)
        for number, name in enumerate(names, start=1)
    )


def _start(
    spots: dict[str, AnyArray], named: dict[str, tuple[str, ...]], outlines: AnyArray
) -> tuple[shapely.Point, str, list[str]]:
    """Return where sprayers leave from, its name, and a sentence if that is no shed."""
    for kind in ("shed", "gate", "water"):
        if len(spots[kind]):
            name = named[kind][0]
            said = phrase(
                "No place of kind shed is drawn: sprayers leave from {place}.", place=name
            )
            return spots[kind][0], name, [] if kind == "shed" else [said]
    said = phrase(
        "No place of kind shed, gate or water is drawn: sprayers leave from the first block."
    )
    return shapely.point_on_surface(outlines[0]), phrase("the first block"), [said]


def _gates(outlines: AnyArray, gates: AnyArray, reach: float) -> IntArray:
    """Return the number of the gate of each block, -1 where none is near."""
    if not len(gates):
        return np.full(len(outlines), -1)
    away = shapely.distance(shapely.boundary(outlines)[:, None], gates[None, :])
    return np.where(away.min(axis=1) <= reach, away.argmin(axis=1), -1)


def _entries(outlines: AnyArray, tracks: Tracks, start: shapely.Point) -> AnyArray:
    """Return the place on each outline that is nearest to a track, or to the start without one."""
    edges, goal = shapely.boundary(outlines), start
    if len(tracks.start):
        pieces = tracks.pieces
        goal = pieces[shapely.STRtree(pieces).query_nearest(edges, all_matches=False)[1]]
    entries: AnyArray = shapely.get_point(shapely.shortest_line(edges, goal), 0)
    return entries


def _said(
    tracks: Tracks, ways: Ways, blocks: list[str], assumed: dict[str, float]
) -> Iterator[str]:
    if not len(tracks.start):
        yield phrase("No place of kind track is drawn: all ways are straight lines, and too short.")
        return
    if tracks.joined:
        yield phrase(
            "Tracks that end within {gap:g} m of another were joined to it (assumed).",
            gap=assumed["track_gap"],
        )
    is_apart = ways.is_straight[-1][: len(blocks)]
    if is_apart.any():
        yield phrase(
            "No track joins {count} of {total} blocks ({blocks}) to the start: ways there are "
            "straight lines, and too short.",
            count=is_apart.sum(),
            total=len(blocks),
            blocks=_listed(blocks, is_apart),
        )
    reach = assumed["gate_reach"]
    is_off = (ways.off_track[: len(blocks)] > reach) & ~is_apart
    if is_off.any():
        yield phrase(
            "{count} of {total} blocks lie more than {reach:g} m from every track ({blocks}): from "
            "there to the track the way is a straight line.",
            count=is_off.sum(),
            total=len(blocks),
            reach=reach,
            blocks=_listed(blocks, is_off),
        )


def _listed(blocks: list[str], is_named: BoolArray) -> str:
    named = [block for block, is_one in zip(blocks, is_named, strict=True) if is_one]
    return ", ".join(named[:_MOST_NAMED]) + (", ..." if len(named) > _MOST_NAMED else "")
