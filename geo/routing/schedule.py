"""When does a vehicle arrive, start and finish along its way?"""

from collections.abc import Sequence
from itertools import pairwise

from geo.arrays import FloatArray
from geo.routing.visits import Route, Step, Vehicle, VisitProblem

ROUNDING = 1e-9
Window = tuple[float, float]
# A visit or a refill (None) with its place, its minutes and the window it lies in.
Leg = tuple[int | None, int, float, Window]


def first_refill(vehicle: Vehicle, travel: FloatArray, place: int) -> int:
    """
    Return where to fill on the way from the start to the first visit.

    Parameters
    ----------
    vehicle : Vehicle
        With places to fill at.
    travel : [min]
        Its travel times.
    place : int
        Of the first visit.

    Returns
    -------
    int
        The place with the least detour.
    """
    return min(
        vehicle.refill_places,
        key=lambda water: float(travel[vehicle.start, water] + travel[water, place]),
    )


def scheduled(number: int, vehicle: Vehicle, travel: FloatArray, legs: Sequence[Leg]) -> Route:
    """
    Return the route of a vehicle with its times.

    Parameters
    ----------
    number : int
        Of the vehicle.
    vehicle : Vehicle
        For its start, end and shift.
    travel : [min]
        Its travel times.
    legs : sequence
        What it does, in driving order.

    Returns
    -------
    Route
        It finishes as early as can be, and leaves as late as that allows: so it waits least.
    """
    places = [vehicle.start, *(place for _, place, _, _ in legs), vehicle.end]
    drive = [float(travel[a, b]) for a, b in pairwise(places)]
    _, end = _forward(legs, drive, leaves=vehicle.shift[0])
    leaves = _latest_leave(legs, drive, end=end)
    steps, end = _forward(legs, drive, leaves=max(leaves, vehicle.shift[0]))
    return Route(
        vehicle=number,
        leaves=max(leaves, vehicle.shift[0]),
        returns=end,
        driving=sum(drive),
        steps=steps,
    )


def is_short_enough(problem: VisitProblem, number: int, legs: list[Leg]) -> bool:
    """
    Return whether a vehicle is back in the time it has.

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
    bool
        Counted from when it leaves.
    """
    vehicle = problem.vehicles[number]
    route = scheduled(number, vehicle, problem.travel[vehicle.travel], legs)
    return route.returns - route.leaves <= vehicle.minutes + ROUNDING


def settled(problem: VisitProblem, number: int, legs: Sequence[Leg]) -> list[Leg] | None:
    """
    Return a route with each visit in the first of its windows that it can be made in.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    number : int
        Of the vehicle.
    legs : sequence
        What it does, in driving order.

    Returns
    -------
    list or None
        None where a visit comes too late for all of its windows.
    """
    vehicle = problem.vehicles[number]
    travel = problem.travel[vehicle.travel]
    clock, at, found = vehicle.shift[0], vehicle.start, []
    for visit, place, minutes, window in legs:
        arrives = clock + float(travel[at, place])
        starts, chosen = min(
            (
                (max(arrives, first), (first, last))
                for first, last in windows_of(problem, visit, window)
                if max(arrives, first) + minutes <= last + ROUNDING
            ),
            default=(0.0, None),
        )
        if chosen is None:
            return None
        found.append((visit, place, minutes, chosen))
        clock, at = starts + minutes, place
    return found


def windows_of(problem: VisitProblem, visit: int | None, window: Window) -> tuple[Window, ...]:
    """
    Return the windows of a leg.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    visit : int or None
        None for a refill.
    window : tuple of float
        That it lies in now.

    Returns
    -------
    tuple of tuple of float
        All that a visit has; a refill has the one.
    """
    return (window,) if visit is None else problem.visits[visit].windows


def _forward(
    legs: Sequence[Leg], drive: Sequence[float], *, leaves: float
) -> tuple[tuple[Step, ...], float]:
    clock, steps = float(leaves), []
    for (visit, place, minutes, window), way in zip(legs, drive[:-1], strict=True):
        arrives = clock + way
        starts = max(arrives, float(window[0]))
        clock = starts + minutes
        steps.append(Step(visit, place, arrives, starts, clock))
    return tuple(steps), clock + drive[-1]


def _latest_leave(legs: Sequence[Leg], drive: Sequence[float], *, end: float) -> float:
    latest = end - drive[-1]
    for (_, _, minutes, window), way in zip(reversed(legs), drive[-2::-1], strict=True):
        latest = min(latest, float(window[1])) - minutes - way
    return latest
