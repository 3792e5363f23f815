"""Which visits that were left out still fit, with a refill before or after them if need be?"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.routing.schedule import ROUNDING, Leg, is_short_enough, settled, windows_of
from geo.routing.visits import Vehicle, Visit, VisitProblem


@dataclass(frozen=True, slots=True)
class Gaps:
    """
    Between which stops of a route something could be put in, a value for each gap.

    Attributes
    ----------
    place, following : numpy.ndarray
        [1] The places before and after.
    finishes, latest : numpy.ndarray
        [min] When the stop before is done at the earliest, and when the one after must begin.
    used_before, used_after : numpy.ndarray
        [1] Taken from the tank since the refill before, and until the refill after.
    """

    place: IntArray
    following: IntArray
    finishes: FloatArray
    latest: FloatArray
    used_before: FloatArray
    used_after: FloatArray


@dataclass(frozen=True, slots=True)
class _Insertion:
    cost: float
    vehicle: int
    gap: int
    legs: tuple[Leg, ...]


def completed(problem: VisitProblem, routes: list[list[Leg]]) -> list[list[Leg]]:
    """
    Return routes with every visit put in that still fits.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    routes : list of list
        What each vehicle does, in driving order.

    Returns
    -------
    list of list
        The same visits in the same order, and more between them: those worth most by the minute
        first, each where it costs the least time.
    """
    routes = list(routes)
    made = {leg[0] for legs in routes for leg in legs}
    left = [i for i in range(len(problem.visits)) if i not in made]
    gaps = [gaps_of(problem, number, legs) for number, legs in enumerate(routes)]
    for i in sorted(left, key=lambda one: -worth(problem.visits[one])):
        found = inserted(problem, i, routes, gaps)
        if found is not None:
            number, legs = found
            routes[number], gaps[number] = legs, gaps_of(problem, number, legs)
    return routes


def inserted(
    problem: VisitProblem, i: int, routes: list[list[Leg]], gaps: Mapping[int, Gaps] | list[Gaps]
) -> tuple[int, list[Leg]] | None:
    """
    Return the route that a visit lengthens least, with the visit in it.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    i : int
        The visit.
    routes : list of list
        What each vehicle does.
    gaps : mapping or list
        Of those vehicles that may be asked.

    Returns
    -------
    tuple of int and list, or None
        The vehicle and its new route; None where the visit fits nowhere.
    """
    numbers = gaps.keys() if isinstance(gaps, Mapping) else range(len(gaps))
    # Of each vehicle and window the cheapest: only time away could still bar it.
    found: dict[tuple[int, tuple[float, float]], _Insertion] = {}
    for number in numbers:
        if problem.visits[i].is_open_to(number):
            for window, insertion in _insertions(problem, i, number, gaps[number]):
                known = found.get((number, window))
                if known is None or insertion.cost < known.cost:
                    found[number, window] = insertion
    for insertion in sorted(found.values(), key=lambda one: one.cost):
        number = insertion.vehicle
        legs = routes[number].copy()
        legs[insertion.gap : insertion.gap] = insertion.legs
        timely = settled(problem, number, legs)
        if timely is not None and is_short_enough(problem, number, timely):
            return number, timely
    return None


def worth(visit: Visit) -> float:
    """
    Return what a visit is worth by the minute.

    Parameters
    ----------
    visit : Visit
        One of the problem.

    Returns
    -------
    float
        Infinite for what must be made.
    """
    if visit.prize is None:
        return np.inf
    return visit.prize / max(visit.least_minutes, 1.0)


def gaps_of(problem: VisitProblem, number: int, legs: list[Leg]) -> Gaps:
    """
    Return the gaps of a route.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    number : int
        Of the vehicle.
    legs : list
        What it does.

    Returns
    -------
    Gaps
        With how early each may begin and how late it must end.
    """
    vehicle = problem.vehicles[number]
    travel = problem.travel[vehicle.travel]
    places = np.array([vehicle.start, *(leg[1] for leg in legs), vehicle.end])
    drive = travel[places[:-1], places[1:]]
    finishes, latest = [vehicle.shift[0]], [vehicle.shift[1]]
    timely = settled(problem, number, legs) or []
    for (_, _, minutes, window), way in zip(timely, drive[:-1], strict=True):
        finishes.append(max(finishes[-1] + float(way), window[0]) + minutes)
    for (visit, _, minutes, window), way in zip(reversed(legs), drive[:0:-1], strict=True):
        end = latest[-1] - float(way)
        latest.append(
            max(
                min(last, end) - minutes
                for first, last in windows_of(problem, visit, window)
                if min(last, end) - minutes >= first - ROUNDING
            )
        )
    demand = [0.0 if leg[0] is None else problem.visits[leg[0]].demand for leg in legs]
    is_refill = [leg[0] is None for leg in legs]
    # An empty tank is a full use of it: nothing fits before the first filling.
    empty = np.inf if vehicle.starts_empty else 0.0
    return Gaps(
        place=places[:-1],
        following=places[1:],
        finishes=np.array(finishes),
        latest=np.array(latest[::-1]),
        used_before=_used(demand, is_refill, first=empty),
        used_after=_used(demand[::-1], is_refill[::-1], first=0.0)[::-1],
    )


def _used(demand: list[float], is_refill: list[bool], *, first: float) -> FloatArray:
    used = [first]
    for one, fills in zip(demand, is_refill, strict=True):
        used.append(0.0 if fills else used[-1] + one)
    return np.array(used)


def _insertions(
    problem: VisitProblem, i: int, number: int, gaps: Gaps
) -> Iterator[tuple[tuple[float, float], _Insertion]]:
    """Yield the cheapest gap for each window and each way to refill around the visit."""
    visit, vehicle = problem.visits[i], problem.vehicles[number]
    capacity = np.inf if vehicle.capacity is None else vehicle.capacity
    waters = (None, *vehicle.refill_places)
    for before, after, window in product(waters, waters, visit.windows):
        used = (
            visit.demand
            + (gaps.used_before if before is None else 0.0)
            + (gaps.used_after if after is None else 0.0)
        )
        chain = _chain(i, visit.place, visit.takes(number), window, vehicle, (before, after))
        ends, cost = _driven(problem.travel[vehicle.travel], chain, gaps)
        fits = np.isfinite(used) & (used <= capacity + ROUNDING) & (ends <= gaps.latest + ROUNDING)
        cost = np.where(fits, cost, np.inf)
        gap = int(cost.argmin())
        if np.isfinite(cost[gap]):
            yield window, _Insertion(float(cost[gap]), number, gap, chain)


def _chain(
    i: int,
    place: int,
    minutes: float,
    window: tuple[float, float],
    vehicle: Vehicle,
    waters: tuple[int | None, int | None],
) -> tuple[Leg, ...]:
    refills = [
        [] if water is None else [(None, water, vehicle.refill_minutes, vehicle.shift)]
        for water in waters
    ]
    visit: Leg = (i, place, minutes, window)
    return (*refills[0], visit, *refills[1])


def _driven(
    travel: FloatArray, chain: tuple[Leg, ...], gaps: Gaps
) -> tuple[FloatArray, FloatArray]:
    """Return when each gap's next stop is reached after the chain, and the minutes it adds."""
    clock, at = gaps.finishes, gaps.place
    cost = -travel[gaps.place, gaps.following]
    for _, place, minutes, window in chain:
        way = travel[at, place]
        clock = np.maximum(clock + way, window[0]) + minutes
        clock = np.where(clock <= window[1] + ROUNDING, clock, np.inf)
        cost = cost + way + minutes
        at = np.full_like(gaps.place, place)
    way = travel[at, gaps.following]
    return clock + way, cost + way
