"""Which blocks to walk in the time there is, in which order: an orienteering round on foot."""

from collections.abc import Sequence
from datetime import datetime, timedelta

import numpy as np
import xarray as xr
from pyproj import Transformer

from geo.arrays import FloatArray
from geo.routing.solver import solve
from geo.routing.visits import Tour, Vehicle, Visit, VisitProblem
from geo.scouting.candidates import Candidate, candidates_of
from geo.scouting.inside_walk import MINUTES_AN_HOUR
from geo.scouting.order import DRAWN, ScoutingEntry, ScoutingOrder
from geo.scouting.paths import Paths, Start
from geo.scouting.walk import Morning, NotWalked, Walk, WalkStop, WalkVisit
from geo.season.farm import Farm
from geo.texts import phrase
from geo.texts.days import short_day_words

SECONDS_A_MINUTE = 60.0  # by definition


def plan_walk(
    farm: Farm,
    season: xr.Dataset,
    order: ScoutingOrder,
    *,
    morning: Morning,
    hours: float,
    starts: Sequence[Start],
) -> Walk:
    """
    Return the walk that collects the most value of looking in the time there is.

    Parameters
    ----------
    farm : Farm
        For outlines and tracks.
    season : xarray.Dataset
        Of the order's disease, ranked.
    order : ScoutingOrder
        What a look at each block is worth, and how many trees it takes.
    morning : Morning
        When to look, in which block.
    hours : float
        Time there is, above 0.
    starts : sequence of tuple
        Name and point of each gate where a walk may begin and then ends too; one at least.

    Returns
    -------
    Walk
        From the gate that collects most, then on the shortest way. Pure: the same for the same
        arguments.

    Notes
    -----
    A block is one visit, with all its trees: half a sample would not prove what the order counts
    on, and a tally that is broken off cannot be told from a finished one. Blocks that are due or
    drawn by lot stand ahead in the order, and the walk heeds it.
    """
    paths = Paths(farm, starts)
    candidates, later = candidates_of(
        farm, season, order, hours=hours, towards=paths.towards, day=morning.opens.date()
    )
    paths.lead_to([one.gate for one in candidates])
    tours = [
        (
            solve(_problem(candidates, paths.minutes(start), morning=morning, hours=hours)),
            start,
        )
        for start in range(len(starts))
    ]
    tour, start = max(tours, key=lambda found: _merit(found[0]))
    visits, way = _visits(farm, candidates, tour, paths, start=start, morning=morning)
    route = tour.routes[0] if tour.routes else None
    total = sum(one.value for one in candidates)
    found = sum(one.value for i, one in enumerate(candidates) if i not in tour.left_out)
    name, point = starts[start]
    return Walk(
        day=morning.opens.date(),
        morning=morning,
        hours=hours,
        chosen_among=len(candidates),
        start=name,
        start_place=(float(point.x), float(point.y)),
        leaves=_clock(morning.opens, route.leaves) if route else morning.opens,
        returns=_clock(morning.opens, route.returns) if route else morning.opens,
        metres=float(np.hypot(*np.diff(np.array(way), axis=0).T).sum()) if way else 0.0,
        value_share=found / total if total else 0.0,
        is_proven=tour.is_proven,
        ways=paths.words,
        visits=visits,
        left_out=_left_out(
            candidates, tour, later, travel=paths.minutes(start), morning=morning, hours=hours
        ),
        way=way,
    )


def _merit(tour: Tour) -> tuple[float, float]:
    """Return what a tour is judged by: first what it collects, then how soon it is back."""
    return tour.prize, -sum(route.returns - route.leaves for route in tour.routes)


def _problem(
    candidates: tuple[Candidate, ...], travel: FloatArray, *, morning: Morning, hours: float
) -> VisitProblem:
    closes = _minutes(morning, morning.closes)
    return VisitProblem(
        visits=tuple(
            Visit(
                place=place,
                minutes=one.walk.minutes,
                windows=_windows(one.entry.block, morning),
                prize=one.prize,
            )
            for place, one in enumerate(candidates, start=1)
        ),
        vehicles=(
            Vehicle(start=0, end=0, shift=(0.0, closes), most_minutes=hours * MINUTES_AN_HOUR),
        ),
        travel=(travel,),
    )


def _windows(block: str, morning: Morning) -> tuple[tuple[float, float], ...]:
    """Return the stretch of the morning in which a block may be walked, in minutes; or none."""
    if block not in morning.hours:
        return ()
    first, last = morning.hours[block]
    return ((_minutes(morning, first), _minutes(morning, last)),)


def _minutes(morning: Morning, moment: datetime) -> float:
    return (moment - morning.opens).total_seconds() / SECONDS_A_MINUTE


def _visits(
    farm: Farm,
    candidates: tuple[Candidate, ...],
    tour: Tour,
    paths: Paths,
    *,
    start: int,
    morning: Morning,
) -> tuple[tuple[WalkVisit, ...], tuple[tuple[float, float], ...]]:
    """Return the blocks in walking order with numbered trees, and every bend of the way."""
    if not tour.routes:
        return (), ()
    to_degrees = Transformer.from_crs(farm.crs, "EPSG:4326", always_xy=True)
    visits: list[WalkVisit] = []
    way, before, count = [], 0, 0
    for number, step in enumerate(tour.routes[0].steps, start=1):
        one = candidates[step.place - 1]
        stops = []
        for stop in one.walk.stops:
            count += 1
            longitude, latitude = to_degrees.transform(stop.east, stop.north)
            stops.append(WalkStop(count, stop, longitude, latitude))
        way += paths.bends(start, before, step.place)
        way += [*((stop.east, stop.north) for stop in one.walk.stops), one.gate]
        visits.append(
            WalkVisit(
                number=number,
                entry=one.entry,
                arrives=_clock(morning.opens, step.starts),
                leaves=_clock(morning.opens, step.finishes),
                metres_to=float(paths.metres(start)[before, step.place]),
                metres_inside=one.walk.metres,
                gate=one.gate,
                stops=tuple(stops),
            )
        )
        before = step.place
    way += paths.bends(start, before, 0)
    return tuple(visits), tuple(way)


def _left_out(
    candidates: tuple[Candidate, ...],
    tour: Tour,
    later: tuple[ScoutingEntry, ...],
    *,
    travel: FloatArray,
    morning: Morning,
    hours: float,
) -> tuple[NotWalked, ...]:
    taken = [one.entry for visit, one in enumerate(candidates) if visit not in tour.left_out]
    lots = ", ".join(entry.block for entry in taken if entry.chosen == DRAWN)
    # A lot may stand for little value: then the others are not worth more, but go first.
    others = phrase("In the time there is, others together are worth more.")
    if lots and all(entry.chosen == DRAWN for entry in taken):
        others = phrase(
            "Drawn by lot and kept: {blocks}. With that, it does not fit in the time.", blocks=lots
        )
    elif lots:
        others = phrase(
            "Drawn by lot and kept: {blocks}. With that, others fit the time better.", blocks=lots
        )
    found = []
    for visit in tour.left_out:
        one, place = candidates[visit], visit + 1
        round_trip = one.walk.minutes + float(travel[0, place] + travel[place, 0])
        why = _why_not(one, round_trip, morning=morning, hours=hours) or others
        found.append(NotWalked(one.entry, why))
    far = phrase("Further down the order than the time reaches.")
    found += [NotWalked(entry, far) for entry in later]
    return tuple(sorted(found, key=lambda one: one.entry.rank))


def _why_not(one: Candidate, round_trip: float, *, morning: Morning, hours: float) -> str:
    """Return why a block cannot be walked at all; empty where it could be, in place of others."""
    block, minutes = one.entry.block, one.walk.minutes
    if block not in morning.hours:
        return one.entry.when or phrase("Nobody should walk there in these hours.")
    if minutes > hours * MINUTES_AN_HOUR:
        return phrase("Its look takes {minutes:.0f} minutes alone.", minutes=minutes)
    if _open_minutes(block, morning) < minutes:
        if ends := morning.re_entry_ends.get(block):
            return phrase(
                "Its look takes {minutes:.0f} minutes, and it is not open so long: do not enter "
                "before {day} {hour:%H:%M}.",
                minutes=minutes,
                day=short_day_words(ends.date()),
                hour=ends,
            )
        return phrase(
            "Its look takes {minutes:.0f} minutes, and it is not open so long.", minutes=minutes
        )
    if round_trip > hours * MINUTES_AN_HOUR:
        return phrase(
            "Its look takes {minutes:.0f} minutes, {round_trip:.0f} with the way there and back.",
            minutes=minutes,
            round_trip=round_trip,
        )
    return ""


def _open_minutes(block: str, morning: Morning) -> float:
    first, last = morning.hours[block]
    return _minutes(morning, last) - _minutes(morning, first)


def _clock(opens: datetime, minutes: float) -> datetime:
    return opens + timedelta(minutes=minutes)
