"""In which order are the loads driven, so that a block is finished before the next is begun?"""

from collections.abc import Sequence

from geo.arrays import FloatArray
from geo.rounds.pieces import Piece
from geo.routing import Route, VisitProblem
from geo.routing.schedule import Leg, is_short_enough, scheduled, settled

LITTLE = 1e-6


def blocks_together(
    problem: VisitProblem,
    routes: Sequence[Route],
    pieces: Sequence[Piece],
    *,
    upwind: FloatArray | None,
) -> tuple[Route, ...]:
    """
    Return routes whose loads follow one another block by block, the farthest downwind first.

    Parameters
    ----------
    problem : VisitProblem
        Its visits are the pieces.
    routes : sequence of Route
        As found.
    pieces : sequence of Piece
        What there is to visit.
    upwind : [m] or None
        How far upwind each block lies; None where the wind is not known.

    Returns
    -------
    tuple of Route
        The same loads, upwind from block to block so that the driver leaves the cloud behind
        (common practice); by rank where the wind is not known. A route stays as it is where the
        other order would take longer or miss open hours.
    """
    first: dict[int, float] = {
        piece.place: piece.entry.rank if upwind is None else float(upwind[piece.place])
        for piece in pieces
    }
    return tuple(_rearranged(problem, route, pieces, first) for route in routes)


def _rearranged(
    problem: VisitProblem, route: Route, pieces: Sequence[Piece], first: dict[int, float]
) -> Route:
    vehicle = problem.vehicles[route.vehicle]
    order = _in_order(_loads(problem, route, pieces), pieces, first)
    legs = settled(problem, route.vehicle, [leg for load in order for leg in load])
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


def _in_order(
    loads: list[list[Leg]], pieces: Sequence[Piece], first: dict[int, float]
) -> list[list[Leg]]:
    """Return the loads, each followed by those that go on in the block it ends in."""

    def blocks(load: Sequence[Leg]) -> list[int]:
        return [pieces[leg[0]].place for leg in load if leg[0] is not None]

    waiting = sorted(loads, key=lambda load: min(first[block] for block in blocks(load)))
    order: list[list[Leg]] = []
    while waiting:
        last = blocks(order[-1])[-1] if order else None
        goes_on = [load for load in waiting if last in blocks(load)]
        chosen = goes_on[0] if goes_on else waiting[0]
        waiting.remove(chosen)
        order.append(chosen)
    return order
