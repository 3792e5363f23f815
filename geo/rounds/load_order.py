"""In which order are the loads driven, so that a block is finished before the next is begun?"""

from collections.abc import Sequence

from geo.rounds.pieces import Piece
from geo.routing import Route, VisitProblem
from geo.routing.schedule import Leg, is_short_enough, scheduled, settled

LITTLE = 1e-6


def blocks_together(
    problem: VisitProblem, routes: Sequence[Route], pieces: Sequence[Piece]
) -> tuple[Route, ...]:
    """
    Return routes whose loads follow one another block by block, the first rank first.

    Parameters
    ----------
    problem : VisitProblem
        Its visits are the pieces.
    routes : sequence of Route
        As found.
    pieces : sequence of Piece
        What there is to visit.

    Returns
    -------
    tuple of Route
        The same loads. A route stays as it is where the other order would take longer or miss
        open hours.
    """
    return tuple(_rearranged(problem, route, pieces) for route in routes)


def _rearranged(problem: VisitProblem, route: Route, pieces: Sequence[Piece]) -> Route:
    vehicle = problem.vehicles[route.vehicle]
    loads = _loads(problem, route, pieces)
    legs = settled(
        problem, route.vehicle, [leg for load in _in_order(loads, pieces) for leg in load]
    )
    if legs is None or not is_short_enough(problem, route.vehicle, legs):
        return route
    again = scheduled(route.vehicle, vehicle, problem.travel[vehicle.travel], legs)
    is_longer = again.returns - again.leaves > route.returns - route.leaves + LITTLE
    is_late = again.returns > vehicle.shift[1] + LITTLE
    return route if is_longer or is_late else again


def _loads(problem: VisitProblem, route: Route, pieces: Sequence[Piece]) -> list[list[Leg]]:
    """Return what is done from one filling to the next."""
    vehicle = problem.vehicles[route.vehicle]
    loads: list[list[Leg]] = []
    for step in route.steps:
        if step.visit is None:
            loads.append([(None, step.place, vehicle.refill_minutes, vehicle.shift)])
            continue
        window = (step.starts, step.finishes)  # any of its own will do: it is chosen anew
        minutes = pieces[step.visit].minutes[route.vehicle]
        loads[-1].append((step.visit, step.place, minutes, window))
    return loads


def _in_order(loads: list[list[Leg]], pieces: Sequence[Piece]) -> list[list[Leg]]:
    """Return the loads by rank, each followed by those that go on in the block it ends in."""
    waiting = sorted(loads, key=lambda load: min(_ranks(load, pieces), default=(0, 0)))
    order: list[list[Leg]] = []
    while waiting:
        last = _ranks(order[-1], pieces)[-1:] if order else []
        goes_on = [load for load in waiting if last and last[0] in _ranks(load, pieces)]
        chosen = goes_on[0] if goes_on else waiting[0]
        waiting.remove(chosen)
        order.append(chosen)
    return order


def _ranks(load: Sequence[Leg], pieces: Sequence[Piece]) -> list[tuple[int, int]]:
    """Return rank and block of each visit; blocks of equal rank stay apart."""
    of_load = [pieces[leg[0]] for leg in load if leg[0] is not None]
    return [(piece.entry.rank, piece.place) for piece in of_load]
