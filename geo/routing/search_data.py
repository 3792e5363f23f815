"""How is the problem told to the search, in whole numbers?"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.routing.schedule import Leg, first_refill
from geo.routing.visits import Vehicle, VisitProblem

if TYPE_CHECKING:
    import pyvrp

# All of these are our own choices.
TICKS_A_MINUTE = 60  # whole seconds, rounded so that nothing planned is shorter than it takes
UNITS_OF_DEMAND = 100  # a hundredth of a litre
# The largest prize in whole numbers, and what a second away costs beside it: prizes come first. A
# visit is left out for its time only where it is worth less than about 1 : 50 000 of the largest.
LARGEST_PRIZE, COST_OF_DUTY, COST_OF_DRIVING = 1_000_000_000, 10, 1
ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Option:
    """
    One way to make a visit: within one window, by vehicles that take the same time for it.

    Attributes
    ----------
    visit, place : int
        Which visit, and where.
    minutes : float
        What it takes.
    window : tuple of float
        One of the visit's.
    vehicles : frozenset of int
        Who may make it so.
    """

    visit: int
    place: int
    minutes: float
    window: tuple[float, float]
    vehicles: frozenset[int]


def options_of(problem: VisitProblem) -> tuple[Option, ...]:
    """
    Return every way to make each visit.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.

    Returns
    -------
    tuple of Option
        None for a visit that lies within nobody's shift.
    """
    options = []
    for i, visit in enumerate(problem.visits):
        by_minutes: dict[float, set[int]] = {}
        for number in range(len(problem.vehicles)):
            if visit.is_open_to(number):
                by_minutes.setdefault(visit.takes(number), set()).add(number)
        for minutes, vehicles in by_minutes.items():
            shifts = [problem.vehicles[number].shift for number in vehicles]
            first, last = min(start for start, _ in shifts), max(end for _, end in shifts)
            options += [
                Option(i, visit.place, minutes, window, frozenset(vehicles))
                for window in visit.windows
                if min(window[1], last) - max(window[0], first) >= minutes
                and _early(window) <= _late(window, minutes)
            ]
    return tuple(options)


def _early(window: tuple[float, float]) -> int:
    return int(np.ceil(window[0] * TICKS_A_MINUTE - ROUNDING))


def _late(window: tuple[float, float], minutes: float) -> int:
    """Return the last second to start in, counted with the rounded duration."""
    return int(np.floor(window[1] * TICKS_A_MINUTE + ROUNDING)) - _ticks(minutes)


def _ticks(minutes: float) -> int:
    return int(np.ceil(minutes * TICKS_A_MINUTE - ROUNDING))


@dataclass(frozen=True, slots=True)
class Places:
    """
    Where the search's locations lie: starts, ends, places to fill, then the options.

    Attributes
    ----------
    depots : tuple
        Place and minutes of filling of each start, end and place to fill.
    refills : tuple of tuple of int
        Which of them each vehicle is filled at.
    of : numpy.ndarray
        [1] Place of each location.
    """

    depots: tuple[tuple[int, float], ...]
    refills: tuple[tuple[int, ...], ...]
    of: IntArray


def locations(problem: VisitProblem, options: tuple[Option, ...]) -> Places:
    """
    Return where the search's locations lie.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    options : tuple of Option
        The ways to make its visits.

    Returns
    -------
    Places
        Each vehicle has a start, an end and places to fill of its own.
    """
    depots: list[tuple[int, float]] = []
    for vehicle in problem.vehicles:
        depots += [(vehicle.start, 0.0), (vehicle.end, 0.0)]
    refills = []
    for vehicle in problem.vehicles:
        its = [(place, vehicle.refill_minutes) for place in vehicle.refill_places]
        refills.append(tuple(range(len(depots), len(depots) + len(its))))
        depots += its
    of = np.array([place for place, _ in depots] + [option.place for option in options])
    return Places(tuple(depots), tuple(refills), of)


def _ways(
    problem: VisitProblem, number: int, places: Places, options: tuple[Option, ...]
) -> IntArray:
    """Return a vehicle's travel times in whole seconds between the search's locations."""
    vehicle = problem.vehicles[number]
    travel = problem.travel[vehicle.travel]
    ways = travel[np.ix_(places.of, places.of)].copy()
    start = 2 * number
    if vehicle.starts_empty:
        ways[start] = [_first_way(vehicle, travel, place) for place in places.of.tolist()]
    far = vehicle.minutes + 1.0
    is_barred = np.array([number not in option.vehicles for option in options])
    ways[:, len(places.depots) :][:, is_barred] = far
    np.fill_diagonal(ways, 0.0)
    # A place that cannot be reached is as far as one that may not be.
    ways = np.minimum(ways, far)
    ticks: IntArray = np.ceil(ways * TICKS_A_MINUTE - ROUNDING).astype(np.int64)
    return ticks


def _first_way(vehicle: Vehicle, travel: FloatArray, place: int) -> float:
    """Return the least time from the start over a place to fill to the first visit."""
    water = first_refill(vehicle, travel, place)
    return float(travel[vehicle.start, water] + vehicle.refill_minutes + travel[water, place])


def data_of(
    problem: VisitProblem, options: tuple[Option, ...], places: Places
) -> "pyvrp.ProblemData":
    """
    Return the problem as the search takes it.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    options : tuple of Option
        The ways to make its visits: one of them is taken.
    places : Places
        Of the search.

    Returns
    -------
    pyvrp.ProblemData
        In whole seconds, hundredths of litres and whole prizes.
    """
    import pyvrp

    # The search's own annotations of arrays are not ours.
    ways: list[Any] = [
        _ways(problem, number, places, options) for number in range(len(problem.vehicles))
    ]
    largest = max((visit.prize or 0.0 for visit in problem.visits), default=0.0)
    groups: dict[int, list[int]] = {}
    for client, option in enumerate(options):
        groups.setdefault(option.visit, []).append(client)
    shared = [visit for visit, members in groups.items() if len(members) > 1]
    clients = []
    for client, option in enumerate(options):
        visit = problem.visits[option.visit]
        is_shared = len(groups[option.visit]) > 1
        clients.append(
            pyvrp.Client(
                location=len(places.depots) + client,
                delivery=[int(np.ceil(visit.demand * UNITS_OF_DEMAND - ROUNDING))],
                service_duration=_ticks(option.minutes),
                tw_early=max(_early(option.window), 0),
                tw_late=_late(option.window, option.minutes),
                prize=round((visit.prize or 0.0) / (largest or 1.0) * LARGEST_PRIZE),
                required=visit.prize is None and not is_shared,
                group=shared.index(option.visit) if is_shared else None,
            )
        )
    return pyvrp.ProblemData(
        locations=[pyvrp.Location(0, 0) for _ in places.of],
        clients=clients,
        depots=[
            pyvrp.Depot(location=number, service_duration=_ticks(minutes))
            for number, (_, minutes) in enumerate(places.depots)
        ],
        vehicle_types=[
            _vehicle_type(problem, number, places) for number in range(len(problem.vehicles))
        ],
        distance_matrices=ways,
        duration_matrices=ways,
        groups=[
            pyvrp.ClientGroup(groups[visit], required=problem.visits[visit].prize is None)
            for visit in shared
        ],
    )


def _vehicle_type(problem: VisitProblem, number: int, places: Places) -> "pyvrp.VehicleType":
    import pyvrp

    vehicle = problem.vehicles[number]
    # Without a tank there is nothing to run out of.
    everything = sum(visit.demand for visit in problem.visits) + 1.0
    capacity = everything if vehicle.capacity is None else vehicle.capacity
    return pyvrp.VehicleType(
        capacity=[int(np.floor(capacity * UNITS_OF_DEMAND + ROUNDING))],
        start_depot=2 * number,
        end_depot=2 * number + 1,
        tw_early=_early(vehicle.shift),
        tw_late=int(np.floor(vehicle.shift[1] * TICKS_A_MINUTE)),
        shift_duration=int(np.floor(vehicle.minutes * TICKS_A_MINUTE)),
        unit_distance_cost=COST_OF_DRIVING,
        unit_duration_cost=COST_OF_DUTY if problem.is_waiting_counted else 0,
        profile=number,
        reload_depots=list(places.refills[number]),
    )


def solution_of(
    data: "pyvrp.ProblemData",
    problem: VisitProblem,
    options: tuple[Option, ...],
    places: Places,
    routes: list[list[Leg]],
) -> "pyvrp.Solution":
    """
    Return routes as the search takes them.

    Parameters
    ----------
    data : pyvrp.ProblemData
        The problem as the search takes it.
    problem : VisitProblem
        Who may visit what.
    options : tuple of Option
        The ways to make its visits.
    places : Places
        Of the search.
    routes : list of list
        What each vehicle does.

    Returns
    -------
    pyvrp.Solution
        To begin with.
    """
    import pyvrp

    client = {(one.visit, one.minutes, one.window): i for i, one in enumerate(options)}
    found = []
    for number, legs in enumerate(routes):
        water = dict(
            zip(problem.vehicles[number].refill_places, places.refills[number], strict=True)
        )
        activities = [
            pyvrp.Activity(pyvrp.ActivityType.DEPOT, water[place])
            if visit is None
            else pyvrp.Activity(pyvrp.ActivityType.CLIENT, client[visit, minutes, window])
            for visit, place, minutes, window in legs[problem.vehicles[number].starts_empty :]
        ]
        if activities:
            found.append(pyvrp.Route(data, activities, number))
    return pyvrp.Solution(data, found)
