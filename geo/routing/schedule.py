"""When does a vehicle arrive, start and finish along its way?"""

from collections.abc import Sequence
from itertools import pairwise

from geo.arrays import FloatArray
from geo.routing.visits import Route, Step, Vehicle

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
