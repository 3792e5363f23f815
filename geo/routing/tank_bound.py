"""How much time do tanks take at the least, whoever fills them with whatever?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.routing.visits import Vehicle, VisitProblem

ROUNDING = 1e-6
# Parts of a tank: see `shares_of_tank`. More of them make the bound no tighter for our tanks.
PARTS = (1, 2)


@dataclass(frozen=True, slots=True)
class TankTime:
    """
    What each visit takes of the time of all vehicles, besides itself, reckoned in several ways.

    Attributes
    ----------
    filling : list of numpy.ndarray
        [min] For filling and driving to the water, shape (visit,) each.
    minutes_between : float
        Minutes of all vehicles, for visits, ways to their places and that.
    round_trips : list of numpy.ndarray
        [min] For filling and driving there and back, shape (visit,) each.
    minutes : float
        Minutes of all vehicles, for visits and that.
    litres : float
        What all tanks together hold, if none may be refilled; else infinite.
    """

    filling: list[FloatArray]
    minutes_between: float
    round_trips: list[FloatArray]
    minutes: float
    litres: float


def tank_time(problem: VisitProblem, place: IntArray, demand: FloatArray) -> TankTime:
    """
    Return what tanks take at the least.

    Parameters
    ----------
    problem : VisitProblem
        For its vehicles.
    place : numpy.ndarray
        [1] Of each visit, shape (visit,).
    demand : numpy.ndarray
        [1] Of each visit.

    Returns
    -------
    TankTime
        Of each vehicle's way to reckon the least.
    """
    filling = [np.full(place.size, np.inf) for _ in range(len(PARTS) + 1)]
    trips = [np.full(place.size, np.inf) for _ in range(len(PARTS) + 1)]
    between = minutes = litres = 0.0
    for vehicle in problem.vehicles:
        travel = problem.travel[vehicle.travel]
        minutes += vehicle.minutes
        between += max(vehicle.minutes - float(travel[place, vehicle.end].min()), 0.0)
        if vehicle.capacity is None or not vehicle.refill_places:
            litres += np.inf if vehicle.capacity is None else vehicle.capacity
            filling, trips = ([np.zeros(place.size) for _ in rows] for rows in (filling, trips))
            continue
        litres = np.inf
        once, trip = _once(vehicle, travel, place)
        if not vehicle.starts_empty:
            between, minutes = between + once, minutes + vehicle.refill_minutes
        shares = shares_of_tank(demand / vehicle.capacity)
        filling = [
            np.minimum(row, share * once) for row, share in zip(filling, shares, strict=True)
        ]
        trips = [np.minimum(row, share * trip) for row, share in zip(trips, shares, strict=True)]
    return TankTime(filling, between, trips, minutes, litres)


def _once(vehicle: Vehicle, travel: FloatArray, place: IntArray) -> tuple[float, FloatArray]:
    """Return the least minutes of a filling, and of one that is driven to each visit and back."""
    water = list(vehicle.refill_places)
    to_water = travel[np.append(place, vehicle.start)][:, water].min()
    out = travel[water if vehicle.starts_empty else [*water, vehicle.start]][:, place]
    back = travel[:, [*water, vehicle.end]][place]
    once = vehicle.refill_minutes + float(to_water)
    return once, vehicle.refill_minutes + out.min(axis=0) + back.min(axis=1)


def shares_of_tank(filled: FloatArray) -> list[FloatArray]:
    r"""
    Return shares of a tank that sum to no more than 1 for whatever fits into one together.

    Parameters
    ----------
    filled : numpy.ndarray
        [1] What each visit takes of a full tank, from 0 to 1.

    Returns
    -------
    list of numpy.ndarray
        [1] Of the same shape: what it takes; and for each number of parts :math:`k` the larger
        share :math:`\\lfloor (k + 1) x \\rfloor / k`, or :math:`x` where :math:`(k + 1) x` is
        whole: two loads of more than half a tank are two tanks.

    Notes
    -----
    Dual feasible functions, from memory: Fekete and Schepers, "New classes of fast lower bounds
    for bin packing problems". That they never sum to more than 1 is held by a test.

    Examples
    --------
    >>> [share.tolist() for share in shares_of_tank(np.array([0.6, 0.5, 0.4]))]
    [[0.6, 0.5, 0.4], [1.0, 0.5, 0.0], [0.5, 0.5, 0.5]]
    """
    shares = [filled]
    for parts in PARTS:
        scaled = (parts + 1) * filled
        is_whole = np.abs(scaled - np.round(scaled)) < ROUNDING
        shares.append(np.where(is_whole, filled, np.floor(scaled) / parts))
    return shares
