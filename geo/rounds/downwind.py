"""Which rows of a block are sprayed first, once it is known who comes when?"""

from collections.abc import Sequence
from dataclasses import replace

from geo.rounds.pieces import Piece
from geo.routing import Route, VisitProblem
from geo.routing.schedule import Leg, scheduled

LITTLE = 1e-6


def downwind_first(
    problem: VisitProblem, routes: Sequence[Route], pieces: Sequence[Piece]
) -> tuple[tuple[Route, ...], tuple[Piece, ...]]:
    """
    Return routes that begin each block at its downwind side, where tanks and hours allow.

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
        The same way to the same blocks; times differ by what rows differ in length.
    tuple of Piece
        What is sprayed at each visit: of a block the same pieces in all, in another order.
    """
    begins = {
        step.visit: step.starts
        for route in routes
        for step in route.steps
        if step.visit is not None
    }
    of_block: dict[int, list[int]] = {}
    for visit in sorted(begins, key=lambda one: begins[one]):
        of_block.setdefault(pieces[visit].place, []).append(visit)
    kept = tuple(pieces)
    timed = tuple(routes)
    for visits in of_block.values():
        tried = list(kept)
        for visit, piece in zip(visits, sorted(visits), strict=True):
            tried[visit] = pieces[piece]
        again = [_retimed(problem, route, tried) for route in timed]
        if None not in again:
            kept, timed = tuple(tried), tuple(route for route in again if route is not None)
    return timed, kept


def _retimed(problem: VisitProblem, route: Route, pieces: Sequence[Piece]) -> Route | None:
    """Return a route with other pieces at its visits; None where tank or hours do not allow it."""
    vehicle = problem.vehicles[route.vehicle]
    legs: list[Leg] = []
    used = 0.0
    for step in route.steps:
        if step.visit is None:
            legs.append((None, step.place, vehicle.refill_minutes, vehicle.shift))
            used = 0.0
            continue
        piece = pieces[step.visit]
        used += piece.litres
        if vehicle.capacity is not None and used > vehicle.capacity + LITTLE:
            return None
        window = next(
            (first, last)
            for first, last in problem.visits[step.visit].windows
            if first - LITTLE <= step.starts and step.finishes <= last + LITTLE
        )
        legs.append((step.visit, step.place, piece.minutes[route.vehicle], window))
    again = scheduled(route.vehicle, vehicle, problem.travel[vehicle.travel], legs)
    is_late = again.returns > vehicle.shift[1] + LITTLE or any(
        step.finishes > last + LITTLE
        for step, (_, _, _, (_, last)) in zip(again.steps, legs, strict=True)
    )
    is_long = again.returns - again.leaves > vehicle.minutes + LITTLE
    return None if is_late or is_long else again


def joined(route: Route, pieces: Sequence[Piece]) -> tuple[Route, tuple[Piece, ...]]:
    """
    Return a route in which rows that follow one another from one tank are one visit.

    Parameters
    ----------
    route : Route
        Its visits are numbers of pieces.
    pieces : sequence of Piece
        What is sprayed at each.

    Returns
    -------
    Route
        With fewer steps.
    tuple of Piece
        The visits' own, larger where two were joined.
    """
    steps, found = list(route.steps[:1]), list(pieces)
    for step in route.steps[1:]:
        last = steps[-1]
        if step.visit is None or last.visit is None:
            steps.append(step)
            continue
        before, after = found[last.visit], found[step.visit]
        follows = before.last_row + 1 == after.first_row or after.last_row + 1 == before.first_row
        if before.place != after.place or not follows:
            steps.append(step)
            continue
        found[last.visit] = replace(
            before,
            first_row=min(before.first_row, after.first_row),
            last_row=max(before.last_row, after.last_row),
            litres=before.litres + after.litres,
            area=before.area + after.area,
            worth=before.worth + after.worth,
        )
        steps[-1] = replace(last, finishes=step.finishes)
    return replace(route, steps=tuple(steps)), tuple(found)
