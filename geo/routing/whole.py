"""Which visits are kept, if some belong together and are of use only all at once?"""

from collections.abc import Sequence
from math import inf

from geo.routing.completion import gaps_of, inserted
from geo.routing.exchange import tidied
from geo.routing.schedule import Leg
from geo.routing.visits import VisitProblem

Legs = list[list[Leg]]


def whole_groups(problem: VisitProblem, routes: Legs) -> Legs:
    """
    Return routes in which every group of visits is made whole or not at all.

    Parameters
    ----------
    problem : VisitProblem
        With its groups.
    routes : list of list
        What each vehicle does, in driving order; groups may be begun and not finished.

    Returns
    -------
    list of list
        Groups that were whole stay. The others are taken out and put in again as far as they fit
        whole: once those worth most by the minute first, once those begun first, and the better
        is kept.
    """
    made = {leg[0] for legs in routes for leg in legs}
    lacking = [group for group in problem.groups if not set(group) <= made]
    begun = [group for group in lacking if set(group) & made]
    if not begun:
        return routes
    gone = {visit for group in begun for visit in group}
    kept = tidied(problem, [[leg for leg in legs if leg[0] not in gone] for legs in routes])
    by_worth = sorted(lacking, key=lambda group: -_worth(problem, group))
    by_share = sorted(lacking, key=lambda group: -len(set(group) & made) / len(group))
    found = [_filled(problem, kept, order) for order in (by_worth, by_share)]
    return max(found, key=lambda one: _prize(problem, one))


def _filled(problem: VisitProblem, routes: Legs, groups: Sequence[tuple[int, ...]]) -> Legs:
    """Return routes with each group put in that fits whole, in the order given."""
    for group in groups:
        fuller = _with_group(problem, routes, group)
        routes = routes if fuller is None else fuller
    return routes


def _with_group(problem: VisitProblem, routes: Legs, group: Sequence[int]) -> Legs | None:
    routes = list(routes)
    gaps = [gaps_of(problem, number, legs) for number, legs in enumerate(routes)]
    for visit in group:
        found = inserted(problem, visit, routes, gaps)
        if found is None:
            return None
        number, legs = found
        routes[number], gaps[number] = legs, gaps_of(problem, number, legs)
    return routes


def _worth(problem: VisitProblem, group: Sequence[int]) -> float:
    visits = [problem.visits[one] for one in group]
    minutes = sum(visit.least_minutes for visit in visits)
    if any(visit.prize is None for visit in visits):
        return inf
    return sum(visit.prize or 0.0 for visit in visits) / max(minutes, 1.0)


def _prize(problem: VisitProblem, routes: Legs) -> float:
    made = [problem.visits[leg[0]] for legs in routes for leg in legs if leg[0] is not None]
    return sum(visit.prize or 0.0 for visit in made)
