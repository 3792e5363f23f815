"""Who sprays what today, in which order, in which hours and from which tank?"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import time
from math import cos, isnan, radians, sin

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.rounds.asked import asked_round
from geo.rounds.crew_ways import apart_from_crews
from geo.rounds.day_round import STRAIGHT, TRACKS, DayRound, LeftOut
from geo.rounds.day_windows import MINUTES_AN_HOUR, open_stretches, wind_of_day
from geo.rounds.downwind import downwind_first, joined
from geo.rounds.load_order import blocks_together
from geo.rounds.mixing import label_notes
from geo.rounds.open_words import open_words
from geo.rounds.order import SprayEntry, SprayOrder
from geo.rounds.pieces import Piece, able_sprayers, pieces_of
from geo.rounds.ready import ReadyRound, ready_round
from geo.rounds.round_words import assumed_words, beyond_words, day_notes, left_out_words
from geo.rounds.setup_words import setup_words
from geo.rounds.sprayer_day import Known, sprayer_day
from geo.rounds.work import minutes_of_way
from geo.routing import Tour, Vehicle, Visit, VisitProblem, solve
from geo.routing.farm_ways import FarmWays, farm_ways
from geo.season.farm import Farm
from geo.windows.ask_material import planned
from geo.windows.open_hours import Windows

MINUTES_A_DAY = 24.0 * MINUTES_AN_HOUR


def plan_day_round(
    farm: Farm,
    season: xr.Dataset,
    order: SprayOrder,
    windows: Windows,
    *,
    hours: float | None = None,
    start: time | None = None,
    sprayers: int | None = None,
) -> DayRound:
    """
    Return the round of the day.

    Parameters
    ----------
    farm : Farm
        Blocks, tracks, labels and settings.
    season : xarray.Dataset
        Ranked.
    order : SprayOrder
        Of today: what each block loses if it is left. The round changes none of its ranks.
    windows : Windows
        The rules' verdict on each block and hour.
    hours : float or None
        Of work for each sprayer; None for the farm's own.
    start : datetime.time or None
        Local time before which none leaves; None for the farm's own.
    sprayers : int or None
        How many of the farm's sprayers go, the first ones; None for all.

    Returns
    -------
    DayRound
        The loss it avoids is as large as was found, and then the time away as short: with the most
        that any round could avoid beside it.

    Raises
    ------
    InputError
        If sprayers, rows or spray volume are not known, or an option cannot be.
    """
    ready = asked_round(ready_round(farm), hours=hours, start=start, sprayers=sprayers)
    ways = farm_ways(farm)
    able = able_sprayers(farm, ready)
    place = {block: i for i, block in enumerate(season.block.values.tolist())}
    wind_from = wind_of_day(season, windows)
    pieces = tuple(
        piece
        for entry in order.entries
        for piece in pieces_of(farm, entry, place[entry.block], ready=ready, wind_from=wind_from)
    )
    known = Known(farm, season, windows, ready, ways, windows.day or farm.today)
    open_hours, crew_notes = apart_from_crews(
        known, {i: open_stretches(windows, i) for i in {piece.place for piece in pieces}}
    )
    problem = _problem(ready, ways, pieces, open_hours)
    tour = _toured(problem)
    ordered = blocks_together(problem, tour.routes, pieces, upwind=_upwind(farm, wind_from))
    routes, sprayed = downwind_first(problem, ordered, pieces)
    days = tuple(sprayer_day(known, *joined(route, sprayed)) for route in routes)
    stops = [one for day in days for one in day.stops]
    left = [pieces[i] for i in tour.left_out]
    is_straight = bool(ways.ways.is_straight[-1, : len(place)].any())
    return DayRound(
        day=known.day,
        materials=planned(farm),
        sprayers=days,
        left_out=_left_out(order, pieces, left, ready, open_hours, has_sprayer=bool(able)),
        avoided=tour.prize,
        bound=tour.bound,
        is_proven=tour.is_proven,
        ways=STRAIGHT if is_straight else TRACKS,
        notes=(
            *day_notes(farm, order, windows, ready, able),
            *open_words(windows, [piece.place for piece in pieces]),
            *beyond_words(order, stops),
            *crew_notes,
            *ways.notes,
            *setup_words(ready),
            *label_notes(planned(farm), farm.labels or ()),
            *assumed_words(ready.assumed),
        ),
    )


def _upwind(farm: Farm, wind_from: float) -> FloatArray | None:
    """Return how far upwind each block lies in m; None where the wind is not known."""
    if isnan(wind_from):
        return None
    middle = farm.blocks.geometry.centroid
    turn = radians(wind_from)
    return np.asarray(middle.x * sin(turn) + middle.y * cos(turn), dtype=float)


def _toured(problem: VisitProblem) -> Tour:
    """Return a tour of whole blocks; of parts of them only where none can be finished."""
    tour = solve(problem)
    return tour if tour.routes else solve(replace(problem, groups=()))


def _problem(
    ready: ReadyRound,
    ways: FarmWays,
    pieces: Sequence[Piece],
    open_hours: dict[int, tuple[tuple[float, float], ...]],
) -> VisitProblem:
    metres = ways.ways.distance
    leaves = _minute_of_start(ready)
    return VisitProblem(
        visits=tuple(
            Visit(
                place=piece.place,
                minutes=piece.minutes,
                windows=open_hours[piece.place],
                demand=piece.litres,
                prize=piece.worth,
                vehicles=piece.sprayers,
            )
            for piece in pieces
        ),
        vehicles=tuple(
            Vehicle(
                start=ways.start,
                end=ways.start,
                shift=(leaves, MINUTES_A_DAY),
                most_minutes=ready.hours * MINUTES_AN_HOUR,
                travel=number,
                capacity=sprayer.tank_litres,
                refill_places=ways.waters,
                refill_minutes=sprayer.refill_minutes,
                starts_empty=True,
            )
            for number, sprayer in enumerate(ready.sprayers)
        ),
        groups=tuple(
            tuple(i for i, piece in enumerate(pieces) if piece.place == place)
            for place in dict.fromkeys(piece.place for piece in pieces)
        ),
        travel=tuple(
            metres * minutes_of_way(1.0, speed=sprayer.travel_speed) for sprayer in ready.sprayers
        ),
    )


def _left_out(
    order: SprayOrder,
    pieces: Sequence[Piece],
    left: Sequence[Piece],
    ready: ReadyRound,
    open_hours: dict[int, tuple[tuple[float, float], ...]],
    *,
    has_sprayer: bool,
) -> tuple[LeftOut, ...]:
    found = []
    for entry in order.entries:
        its = [piece for piece in pieces if piece.entry.block == entry.block]
        lacking = [piece for piece in left if piece.entry.block == entry.block]
        if its and not lacking:
            continue
        found.append(_one_left_out(entry, its, lacking, open_hours, ready, has_sprayer=has_sprayer))
    return tuple(sorted(found, key=lambda one: (-one.cost, one.rank)))


def _minute_of_start(ready: ReadyRound) -> float:
    return ready.start.hour * MINUTES_AN_HOUR + ready.start.minute


def _one_left_out(
    entry: SprayEntry,
    its: Sequence[Piece],
    lacking: Sequence[Piece],
    open_hours: dict[int, tuple[tuple[float, float], ...]],
    ready: ReadyRound,
    *,
    has_sprayer: bool,
) -> LeftOut:
    first = _minute_of_start(ready)
    stretches = open_hours[its[0].place] if its else ()
    return LeftOut(
        block=entry.block,
        rank=entry.rank,
        cost=sum(piece.worth for piece in lacking) if its else entry.avoidable,
        reason=left_out_words(
            is_begun=0 < len(lacking) < len(its),
            has_pieces=bool(its),
            has_sprayer=has_sprayer,
            has_hours=ready.hours > 0.0,
            minutes=min((min(piece.minutes) for piece in lacking), default=0.0),
            longest=max((end - max(start, first) for start, end in stretches), default=0.0),
        ),
    )
