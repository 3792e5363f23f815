"""Is a visit that was left out worth more than one that is made in its stead?"""

from math import inf

from geo.routing.completion import completed, gaps_of, inserted, worth
from geo.routing.schedule import Leg
from geo.routing.visits import Vehicle, VisitProblem

# Our own choices: how many visits a left-out one is held against, and how many trials in all.
NEAREST, MOST_TRIALS = 8, 400


def exchanged(problem: VisitProblem, routes: list[list[Leg]]) -> list[list[Leg]]:
    """
    Return routes in which no near visit is worth less than a left-out one that fits in its stead.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    routes : list of list
        What each vehicle does, in driving order.

    Returns
    -------
    list of list
        With a larger prize, or the same routes.
    """
    routes = completed(problem, routes)
    trials, is_better = MOST_TRIALS, True
    while is_better and trials > 0:
        is_better = False
        left = sorted(_left_out(problem, routes), key=lambda one: -worth(problem.visits[one]))
        for i in left:
            if i not in _left_out(problem, routes):
                continue
            for number, j in _near(problem, i, routes)[: min(NEAREST, trials)]:
                trials -= 1
                better = _with_instead(problem, i, routes, number=number, other=j)
                if better is not None:
                    routes, is_better = completed(problem, better), True
                    break
    return routes


def _left_out(problem: VisitProblem, routes: list[list[Leg]]) -> list[int]:
    made = {leg[0] for legs in routes for leg in legs}
    return [i for i in range(len(problem.visits)) if i not in made]


def _near(problem: VisitProblem, i: int, routes: list[list[Leg]]) -> list[tuple[int, int]]:
    """Return the vehicles and visits made, the nearest to a left-out one first."""
    place, found = problem.visits[i].place, []
    for number, legs in enumerate(routes):
        travel = problem.travel[problem.vehicles[number].travel]
        for visit, at, _, _ in legs:
            if visit is not None:
                found.append((float(travel[place, at]), number, visit))
    return [(number, visit) for _, number, visit in sorted(found)]


def _with_instead(
    problem: VisitProblem, i: int, routes: list[list[Leg]], *, number: int, other: int
) -> list[list[Leg]] | None:
    """Return routes with a visit and without the other, or with both, where that is worth more."""
    without = routes.copy()
    without[number] = [leg for leg in routes[number] if leg[0] != other]
    gaps = {number: gaps_of(problem, number, without[number])}
    found = inserted(problem, i, without, gaps)
    if found is None:
        return None
    without[number] = found[1]
    if _prize(problem, i) > _prize(problem, other):
        return without
    all_gaps = [gaps_of(problem, vehicle, legs) for vehicle, legs in enumerate(without)]
    again = inserted(problem, other, without, all_gaps)
    if again is None:
        return None
    without[again[0]] = again[1]
    return without


def _prize(problem: VisitProblem, i: int) -> float:
    prize = problem.visits[i].prize
    return inf if prize is None else prize


def tidied(problem: VisitProblem, routes: list[list[Leg]]) -> list[list[Leg]]:
    """
    Return routes without refills that the tank does not need.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.
    routes : list of list
        What each vehicle does, in driving order.

    Returns
    -------
    list of list
        No visit is made later for it, since a way without a detour is no longer.
    """
    return [
        _without_needless(problem, problem.vehicles[number], legs)
        for number, legs in enumerate(routes)
    ]


def _without_needless(problem: VisitProblem, vehicle: Vehicle, legs: list[Leg]) -> list[Leg]:
    kept: list[Leg] = []
    capacity = inf if vehicle.capacity is None else vehicle.capacity
    used = 0.0
    for at, leg in enumerate(legs):
        if leg[0] is not None:
            used += problem.visits[leg[0]].demand
        elif not (at == 0 and vehicle.starts_empty):
            if used + _until_refill(problem, legs[at + 1 :]) <= capacity:
                continue
            used = 0.0
        kept.append(leg)
    return kept


def _until_refill(problem: VisitProblem, legs: list[Leg]) -> float:
    demand = 0.0
    for visit, *_ in legs:
        if visit is None:
            break
        demand += problem.visits[visit].demand
    return demand
