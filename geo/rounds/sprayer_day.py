"""What does each sprayer do from leaving the shed to returning?"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import pairwise
from math import ceil, isnan

import numpy as np
import xarray as xr

from geo.rounds.day_round import Load, SprayerDay, Stop
from geo.rounds.day_windows import MINUTES_AN_HOUR, cautions_between
from geo.rounds.mixing import ingredients_of_load, standing_caution
from geo.rounds.pieces import Piece
from geo.rounds.ready import ReadyRound
from geo.routing.farm_ways import FarmWays, in_degrees
from geo.routing.visits import Route, Step
from geo.season.farm import Farm
from geo.season.label import Label
from geo.windows.ask_material import planned
from geo.windows.open_hours import Windows

_LITTLE = 0.5  # litres: a tank that lacks less is a full one (our choice)


@dataclass(frozen=True, slots=True)
class Known:
    """
    All that a round is told from.

    Attributes
    ----------
    farm : Farm
        Blocks, labels, settings.
    season : xarray.Dataset
        Ranked.
    windows : Windows
        The rules' verdict.
    ready : ReadyRound
        All numbers of the round.
    ways : FarmWays
        Between blocks, water and shed.
    day : datetime.date
        The day it is for.
    """

    farm: Farm
    season: xr.Dataset
    windows: Windows
    ready: ReadyRound
    ways: FarmWays
    day: date

    def clock(self, minutes: float) -> datetime:
        """
        Return a local time.

        Parameters
        ----------
        minutes : float
            Since midnight of the day.

        Returns
        -------
        datetime.datetime
            To the second.
        """
        return datetime.combine(self.day, time()) + timedelta(seconds=round(minutes * 60.0))


def sprayer_day(known: Known, route: Route, pieces: Sequence[Piece]) -> SprayerDay:
    """
    Return a sprayer's day.

    Parameters
    ----------
    known : Known
        All that the round is told from.
    route : Route
        Of the sprayer; its visits are numbers of pieces.
    pieces : sequence of Piece
        What there was to visit.

    Returns
    -------
    SprayerDay
        With its loads, stops and way.
    """
    ways = known.ways.ways
    places = [known.ways.start, *(step.place for step in route.steps), known.ways.start]
    legs = list(pairwise(places))
    filling = sum(step.finishes - step.starts for step in route.steps if step.visit is None)
    spraying = sum(step.finishes - step.starts for step in route.steps if step.visit is not None)
    waiting = route.returns - route.leaves - filling - spraying - route.driving
    loads = _loads(known, route, pieces)
    bends = np.concatenate([ways.bends(start, end) for start, end in legs])
    is_new = np.r_[True, (np.diff(bends, axis=0) != 0.0).any(axis=1)]
    return SprayerDay(
        sprayer=known.ready.sprayers[route.vehicle].name,
        leaves=known.clock(route.leaves),
        returns=known.clock(route.returns),
        kilometres=float(sum(ways.distance[start, end] for start, end in legs)) / 1000.0,
        spraying_hours=spraying / MINUTES_AN_HOUR,
        driving_hours=route.driving / MINUTES_AN_HOUR,
        filling_hours=filling / MINUTES_AN_HOUR,
        waiting_hours=max(waiting, 0.0) / MINUTES_AN_HOUR,
        loads=loads,
        stops=_stops(known, route, pieces),
        path=in_degrees(bends[is_new], known.farm.crs),
    )


def _by_load(route: Route) -> list[tuple[Step, list[Step]]]:
    """Return each refill with the visits that are sprayed from it."""
    loads: list[tuple[Step, list[Step]]] = []
    for step in route.steps:
        if step.visit is None:
            loads.append((step, []))
        else:
            loads[-1][1].append(step)
    return loads


def _loads(known: Known, route: Route, pieces: Sequence[Piece]) -> tuple[Load, ...]:
    tank = known.ready.sprayers[route.vehicle].tank_litres
    water = dict(zip(known.ways.waters, known.ways.water_names, strict=True))
    loads = []
    for number, (refill, visits) in enumerate(_by_load(route), start=1):
        sprayed = [pieces[step.visit] for step in visits if step.visit is not None]
        litres = sum(piece.litres for piece in sprayed)
        loads.append(
            Load(
                number=number,
                water=water[refill.place],
                filled_from=known.clock(refill.starts),
                filled_until=known.clock(refill.finishes),
                litres=litres,
                is_part=litres < tank - _LITTLE,
                ingredients=ingredients_of_load(
                    planned(known.farm),
                    known.farm.labels or (),
                    hectares=sum(piece.area for piece in sprayed),
                    litres=litres,
                ),
            )
        )
    return tuple(loads)


def _stops(known: Known, route: Route, pieces: Sequence[Piece]) -> tuple[Stop, ...]:
    entries = in_degrees(known.ways.ways.point, known.farm.crs)
    re_entry, pre_harvest = label_intervals(known.farm)
    stops: list[Stop] = []
    for load, (_, visits) in enumerate(_by_load(route), start=1):
        for step in visits:
            piece = pieces[step.visit or 0]
            starts, finishes = known.clock(step.starts), known.clock(step.finishes)
            stops.append(
                Stop(
                    number=len(stops) + 1,
                    block=piece.entry.block,
                    rank=piece.entry.rank,
                    load=load,
                    first_row=piece.first_row,
                    last_row=piece.last_row,
                    rows_of_block=piece.rows_of_block,
                    litres=piece.litres,
                    area=piece.area,
                    arrives=known.clock(step.arrives),
                    starts=starts,
                    finishes=finishes,
                    longitude=entries[piece.place][0],
                    latitude=entries[piece.place][1],
                    cautions=_cautions(known, piece, step, starts, finishes),
                    re_entry_ends=(
                        None if isnan(re_entry) else finishes + timedelta(hours=re_entry)
                    ),
                    pre_harvest_ends=(
                        None
                        if isnan(pre_harvest)
                        else finishes.date() + timedelta(days=ceil(pre_harvest))
                    ),
                )
            )
    return tuple(stops)


def _cautions(
    known: Known, piece: Piece, step: Step, starts: datetime, finishes: datetime
) -> tuple[str, ...]:
    """Return what warns at a stop: rules, and a loaded tank that stands too long before it."""
    standing = standing_caution(
        planned(known.farm), known.farm.labels or (), minutes=step.starts - step.arrives
    )
    rules = cautions_between(known.windows, piece.place, starts, finishes)
    return (*rules, *([] if standing is None else [standing.rstrip(".")]))


def label_intervals(farm: Farm) -> tuple[float, float]:
    """
    Return how long the planned tank keeps people and pickers out.

    Parameters
    ----------
    farm : Farm
        For the labels of what is planned.

    Returns
    -------
    float
        [h] The longest re-entry interval; NaN where one is not known.
    float
        [d] The longest pre-harvest interval; the same.
    """
    by_material = {label.material: label for label in farm.labels or ()}
    labels = [by_material.get(material, Label(material)) for material in planned(farm)]
    hours = np.max([label.re_entry_hours for label in labels])
    days = np.max([label.pre_harvest_days for label in labels])
    return float(hours), float(days)
