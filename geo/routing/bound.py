"""What is the most that any tour could collect?"""

from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.routing.tank_bound import tank_time
from geo.routing.visits import Vehicle, Visit, VisitProblem

Windows = tuple[tuple[float, float], ...]

SHORTEST = 1e-9  # minutes
MOST_EDGES = 48  # our own choice: with fewer edges of time the bound is looser, never wrong


def most_prize(problem: VisitProblem) -> float:
    """
    Return a prize that no tour exceeds.

    Parameters
    ----------
    problem : VisitProblem
        Who may visit what.

    Returns
    -------
    float
        The optimum of a linear programme that every tour obeys, so never less than the best tour
        collects: visits may be made in part and by several vehicles at once, each takes its
        shortest time within its windows, vehicles drive to each place once from the nearest one, or
        there and back once a tank, fill no more often than the litres ask for, and share their
        time.
    """
    # Where some ways are straight lines a way round may be shorter: then it counts.
    problem = replace(problem, travel=tuple(_shortest(travel) for travel in problem.travel))
    visits, minutes = [], []
    for visit in problem.visits:
        least, windows = _reachable(problem, visit)
        if windows:
            visits.append((visit, windows))
            minutes.append(least)
    if not visits:
        return 0.0
    return _programme(problem, visits, np.array(minutes))


def _shortest(travel: FloatArray) -> FloatArray:
    """Return times that no way round is shorter than."""
    from scipy.sparse.csgraph import floyd_warshall

    # Places at the same spot are no pair without a way between them.
    linked: FloatArray = floyd_warshall(np.maximum(np.ascontiguousarray(travel), SHORTEST))
    return np.minimum(linked, travel)


def _out_times(vehicle: Vehicle, travel: FloatArray) -> FloatArray:
    """Return the least time from the start of the shift to each place, first filling included."""
    if not vehicle.starts_empty:
        from_start: FloatArray = travel[vehicle.start]
        return from_start
    through = [
        travel[vehicle.start, water] + vehicle.refill_minutes + travel[water]
        for water in vehicle.refill_places
    ]
    least: FloatArray = np.min(through, axis=0)
    return least


def _reachable(problem: VisitProblem, visit: Visit) -> tuple[float, Windows]:
    """Return a visit's least minutes, and the stretches in which anybody could make it."""
    least, windows = np.inf, []
    for number, vehicle in enumerate(problem.vehicles):
        takes = visit.takes(number)
        is_too_large = vehicle.capacity is not None and visit.demand > vehicle.capacity
        travel = problem.travel[vehicle.travel]
        out = float(_out_times(vehicle, travel)[visit.place])
        back = float(travel[visit.place, vehicle.end])
        if not visit.is_open_to(number) or is_too_large or out + takes + back > vehicle.minutes:
            continue
        first, last = vehicle.shift[0] + out, vehicle.shift[1] - back
        found = [
            (max(start, first), min(end, last))
            for start, end in visit.windows
            if min(end, last) - max(start, first) >= takes
        ]
        least = min(least, takes) if found else least
        windows += found
    return least, tuple(_merged(windows))


def _merged(windows: list[tuple[float, float]]) -> list[tuple[float, float]]:
    merged: list[tuple[float, float]] = []
    for start, end in sorted(windows):
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], end))
        else:
            merged.append((start, end))
    return merged


def _programme(
    problem: VisitProblem, visits: list[tuple[Visit, Windows]], minutes: FloatArray
) -> float:
    """
    Return the optimum of the linear programme.

    Its variables are the share of each visit made in each slot of time, the share of each place
    that is entered, and how many vehicles are away from when to when.
    """
    from scipy.optimize import linprog
    from scipy.sparse import coo_array, csr_array, hstack, vstack

    slots = _slots([window for _, windows in visits for window in windows])
    inside = np.array([_overlaps(windows, slots) for _, windows in visits])
    of, slot = np.nonzero((inside > 0) | (minutes[:, None] == 0))
    place_of, entering = _entering(problem, [visit for visit, _ in visits])
    places_of_visits = np.array([visit.place for visit, _ in visits])
    prize, demand = (
        np.array([float(value or 0.0) for value in column])
        for column in zip(*((visit.prize, visit.demand) for visit, _ in visits), strict=True)
    )

    tanks = tank_time(problem, places_of_visits, demand)

    def summed(values: FloatArray, rows: IntArray, count: int) -> "csr_array":
        return csr_array((values, (rows, np.arange(values.size))), shape=(count, values.size))

    away, teams = _absences(problem, slots)
    count, cells, places, absences = len(visits), of.size, entering.size, len(away)
    others = places + absences
    each = np.arange(count)
    enters = coo_array((-np.ones(count), (each, place_of)), shape=(count, others))
    on_duty = hstack([coo_array((len(slots), places)), coo_array(-away.T)])
    of_teams = np.append(np.zeros(cells + places), np.ones(absences))
    rows = [
        hstack([summed(np.ones(cells), of, count), coo_array((count, others))]),
        hstack([summed(np.ones(cells), of, count), enters]),
        hstack([summed(minutes[of], slot, len(slots)), on_duty]),
        *(
            np.r_[(minutes + one)[of], entering, np.zeros(absences)][None, :]
            for one in tanks.filling
        ),
        *(np.r_[(minutes + one)[of], np.zeros(others)][None, :] for one in tanks.round_trips),
        np.r_[demand[of], np.zeros(others)][None, :],
        of_teams[None, :],
    ]
    limits: list[Any] = [
        np.ones(count),
        np.zeros(count + len(slots)),
        np.full(len(tanks.filling), tanks.minutes_between),
        np.full(len(tanks.round_trips), tanks.minutes),
        [min(tanks.litres, demand.sum()), teams],
    ]
    within = np.divide(
        inside, minutes[:, None], out=np.ones_like(inside), where=minutes[:, None] > 0
    )
    found = linprog(
        -np.append(prize[of], np.zeros(others)),
        A_ub=vstack(rows).tocsr(),
        b_ub=np.concatenate(limits),
        bounds=np.stack(
            [
                np.zeros(cells + others),
                np.r_[np.minimum(within[of, slot], 1.0), np.ones(places), np.full(absences, teams)],
            ],
            axis=1,
        ),
        method="highs",
    )
    # A programme that did not end well bounds nothing: all prizes together always do.
    return float(min(prize.sum(), -found.fun) if found.status == 0 else prize.sum())


def _slots(windows: list[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Return stretches of time between the edges of windows, or between some of them."""
    edges = np.unique(windows)
    if edges.size > MOST_EDGES:
        edges = edges[np.linspace(0, edges.size - 1, MOST_EDGES).round().astype(int)]
    return tuple(pairwise(edges.tolist())) or ((float(edges[0]), float(edges[0])),)


def _overlaps(windows: Windows, slots: Windows) -> FloatArray:
    """Return how long the windows are open within each slot."""
    start, end = (np.array(part)[:, None] for part in zip(*windows, strict=True))
    first, last = (np.array(part) for part in zip(*slots, strict=True))
    open_for: FloatArray = np.maximum(np.minimum(end, last) - np.maximum(start, first), 0.0)
    total: FloatArray = open_for.sum(axis=0)
    return total


def _absences(problem: VisitProblem, slots: Windows) -> tuple[FloatArray, int]:
    """
    Return for each time to leave the minutes away in each slot, and how many vehicles there are.

    Minutes away in each slot change evenly between the times listed, so any other time to leave is
    a mean of two of them.
    """
    edges = np.unique(slots)
    found = []
    for vehicle in set(problem.vehicles):
        first, last = vehicle.shift[0], max(vehicle.shift[1] - vehicle.minutes, vehicle.shift[0])
        leaves = np.unique(np.clip(np.r_[first, last, edges, edges - vehicle.minutes], first, last))
        found += [_overlaps(((at, at + vehicle.minutes),), slots) for at in leaves.tolist()]
    return np.unique(found, axis=0), len(problem.vehicles)


def _entering(problem: VisitProblem, visits: list[Visit]) -> tuple[IntArray, FloatArray]:
    """Return the place of each visit, and the least way into each place from another one."""
    places, place_of = np.unique([visit.place for visit in visits], return_inverse=True)
    least = np.full(places.size, np.inf)
    for vehicle in problem.vehicles:
        travel = problem.travel[vehicle.travel]
        origins = np.union1d(places, [vehicle.start, *vehicle.refill_places])
        way = travel[np.ix_(origins, places)]
        is_itself = origins[:, None] == places[None, :]
        starts_here = np.isin(origins, [vehicle.start, *vehicle.refill_places])[:, None]
        least = np.minimum(least, np.where(is_itself & ~starts_here, np.inf, way).min(axis=0))
    return place_of, least
