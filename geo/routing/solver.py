"""Which visits are made, by whom and in which order?"""

from typing import TYPE_CHECKING
from warnings import catch_warnings, simplefilter

from geo.routing.bound import most_prize
from geo.routing.exchange import exchanged, tidied
from geo.routing.schedule import Leg, first_refill, scheduled
from geo.routing.search_data import (
    LARGEST_PRIZE,
    Option,
    Places,
    data_of,
    locations,
    options_of,
    solution_of,
)
from geo.routing.visits import Route, Tour, VisitProblem
from geo.routing.whole import whole_groups

if TYPE_CHECKING:
    import pyvrp

# All of these are our own choices.
ITERATIONS, STALLED_ITERATIONS = 1_000, 300
FUSE_SECONDS = 120.0  # stops a search on a very slow machine; the result may then depend on it
# Penalties while searching: where they begin, in largest prizes; how often they are looked at
# anew; and what they never exceed.
PRIZES_A_TANK_TOO_MUCH, PRIZES_A_SECOND_LATE, ITERATIONS_A_PENALTY = 0.3, 0.0001, 50
LARGEST_PENALTY = 10_000_000.0
ROUNDING, DECIMALS = 1e-6, 9


def solve(
    problem: VisitProblem,
    *,
    seed: int = 1,
    iterations: int = ITERATIONS,
    stalled: int = STALLED_ITERATIONS,
) -> Tour:
    """
    Return the best tour that was found: the largest prize, and then the shortest time.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    seed : int
        Of the chance in the search: the same seed gives the same tour on any machine.
    iterations, stalled : int
        Of the search, in all and without a better tour.

    Returns
    -------
    Tour
        With a bound on the prize that holds for every tour.
    """
    options = options_of(problem)
    routes = exchanged(problem, [[] for _ in problem.vehicles])
    if options:
        # What is to be chosen from begins with a choice; what must all be made, anywhere.
        begin = routes if any(visit.prize for visit in problem.visits) else None
        found = _searched(problem, options, begin, seed=seed, limits=(iterations, stalled))
        routes = max(
            (whole_groups(problem, one) for one in (routes, exchanged(problem, found))),
            key=lambda one: _merit(problem, one),
        )
    timed = _timed(problem, tidied(problem, routes))
    return _judged(problem, timed)


def _timed(problem: VisitProblem, routes: list[list[Leg]]) -> tuple[Route, ...]:
    return tuple(
        scheduled(number, vehicle, problem.travel[vehicle.travel], legs)
        for number, (vehicle, legs) in enumerate(zip(problem.vehicles, routes, strict=True))
        if any(leg[0] is not None for leg in legs)
    )


def _merit(problem: VisitProblem, routes: list[list[Leg]]) -> tuple[int, float, float]:
    """Return what makes routes better: required visits, then the prize, then less time."""
    timed = _timed(problem, routes)
    made = [problem.visits[leg[0]] for legs in routes for leg in legs if leg[0] is not None]
    away = sum(
        route.returns - route.leaves if problem.is_waiting_counted else route.driving
        for route in timed
    )
    required = sum(visit.prize is None for visit in made)
    return required, round(sum(visit.prize or 0.0 for visit in made), DECIMALS), -away


def _judged(problem: VisitProblem, routes: tuple[Route, ...]) -> Tour:
    made = {step.visit for route in routes for step in route.steps}
    left_out = tuple(i for i in range(len(problem.visits)) if i not in made)
    prize = sum(visit.prize or 0.0 for i, visit in enumerate(problem.visits) if i in made)
    bound = max(most_prize(problem), prize)
    return Tour(
        routes=routes,
        left_out=left_out,
        is_complete=all(problem.visits[i].prize is not None for i in left_out),
        prize=prize,
        bound=bound,
        is_proven=bound - prize <= ROUNDING * bound,
    )


def _searched(
    problem: VisitProblem,
    options: tuple[Option, ...],
    first: list[list[Leg]] | None,
    *,
    seed: int,
    limits: tuple[int, int],
) -> list[list[Leg]]:
    places = locations(problem, options)
    data = data_of(problem, options, places)
    begin = None if first is None else solution_of(data, problem, options, places, first)
    found = _best(data, begin, seed=seed, limits=limits)
    routes: list[list[Leg]] = [[] for _ in problem.vehicles]
    if not found.is_feasible():
        return routes
    for route in found.routes():
        number = route.vehicle_type()
        vehicle = problem.vehicles[number]
        activities = list(route)[1:-1]
        legs = [_leg(problem, options, places, activity, number) for activity in activities]
        if vehicle.starts_empty:
            water = first_refill(vehicle, problem.travel[vehicle.travel], legs[0][1])
            legs.insert(0, (None, water, vehicle.refill_minutes, vehicle.shift))
        routes[number] = legs
    return routes


def _leg(
    problem: VisitProblem,
    options: tuple[Option, ...],
    places: Places,
    activity: "pyvrp.Activity",
    number: int,
) -> Leg:
    if activity.is_client():
        option = options[activity.idx]
        return option.visit, option.place, option.minutes, option.window
    place, minutes = places.depots[activity.idx]
    return None, place, minutes, problem.vehicles[number].shift


def _best(
    data: "pyvrp.ProblemData",
    first: "pyvrp.Solution | None",
    *,
    seed: int,
    limits: tuple[int, int],
) -> "pyvrp.Solution":
    """Return the best solution of a search that begins with penalties our prizes ask for."""
    import pyvrp
    from pyvrp.exceptions import PenaltyBoundWarning
    from pyvrp.search import OPERATORS, LocalSearch, compute_neighbours
    from pyvrp.stop import MaxIterations, MaxRuntime, MultipleCriteria, NoImprovement

    chance = pyvrp.RandomNumberGenerator(seed=seed)
    search = LocalSearch(data, chance, compute_neighbours(data))
    for operator in OPERATORS:
        if operator.supports(data):
            search.add_operator(operator(data))
    penalties = _penalties(data)
    if first is None:
        anywhere = pyvrp.Solution.make_random(data, chance)
        first = search(anywhere, penalties.max_cost_evaluator(), exhaustive=True)
    stop = MultipleCriteria(
        [MaxIterations(limits[0]), NoImprovement(limits[1]), MaxRuntime(FUSE_SECONDS)]
    )
    algorithm = pyvrp.IteratedLocalSearch(data, penalties, search, first)
    with catch_warnings():
        # It warns that much was tried which is too late or too much: what it finds is not.
        simplefilter("ignore", PenaltyBoundWarning)
        return algorithm.run(stop, collect_stats=False).best


def _penalties(data: "pyvrp.ProblemData") -> "pyvrp.PenaltyManager":
    """Return what a search pays for being late or taking too much, in prizes if there are any."""
    import pyvrp

    params = pyvrp.PenaltyParams()
    if not any(client.prize for client in data.clients()):
        return pyvrp.PenaltyManager(params.midpoint_penalties(data), params)
    tank = max(vehicle.capacity[0] for vehicle in data.vehicle_types())
    late = LARGEST_PRIZE * PRIZES_A_SECOND_LATE
    return pyvrp.PenaltyManager(
        ([LARGEST_PRIZE * PRIZES_A_TANK_TOO_MUCH / tank], late, late),
        pyvrp.PenaltyParams(
            max_penalty=LARGEST_PENALTY, solutions_between_updates=ITERATIONS_A_PENALTY
        ),
    )
