"""In which order are the trees of a block walked, and what does the block take?"""

from dataclasses import dataclass

import numpy as np
import shapely

from geo.arrays import FloatArray
from geo.reference.number import values
from geo.routing.solver import solve
from geo.routing.visits import Vehicle, Visit, VisitProblem
from geo.scouting.stops import Stop

# Of the search within a block, of twenty trees at most: our own choice.
ITERATIONS = 300
MINUTES_AN_HOUR = 60.0  # by definition
METRES_A_KILOMETRE = 1000.0  # by definition


@dataclass(frozen=True, slots=True)
class BlockWalk:
    """
    A block as one visit: in and out at the same place, past every tree.

    Attributes
    ----------
    stops : tuple of Stop
        In walking order.
    metres : float
        From the way in past the trees and back.
    minutes : float
        With the looking.
    """

    stops: tuple[Stop, ...]
    metres: float
    minutes: float


def walking_minutes(metres: FloatArray) -> FloatArray:
    """
    Return how long a way takes on foot.

    Parameters
    ----------
    metres : [m]
        Any shape.

    Returns
    -------
    [min]
        Same shape.
    """
    speed = values("scouting", "walk")["speed"]
    minutes: FloatArray = metres / METRES_A_KILOMETRE / speed * MINUTES_AN_HOUR
    return minutes


def apart(places: FloatArray) -> FloatArray:
    """
    Return straight distances between places.

    Parameters
    ----------
    places : [m]
        Shape (place, 2).

    Returns
    -------
    [m]
        Shape (place, place).
    """
    step = places[:, None] - places[None]
    distance: FloatArray = np.hypot(step[..., 0], step[..., 1])
    return distance


def way_in(outline: shapely.Geometry, towards: shapely.Geometry) -> tuple[float, float]:
    """
    Return where a block is entered and left on foot.

    Parameters
    ----------
    outline : shapely.Geometry
        Of the block.
    towards : shapely.Geometry
        Tracks, or the gate of the farm.

    Returns
    -------
    tuple of float
        East and north of the outline's point that is nearest to it.
    """
    east, north = shapely.get_coordinates(shapely.shortest_line(outline, towards))[0].tolist()
    return east, north


def block_walk(stops: tuple[Stop, ...], way: tuple[float, float]) -> BlockWalk:
    """
    Return the shortest way past all trees of a block and back.

    Parameters
    ----------
    stops : tuple of Stop
        Trees, in any order; one at least.
    way : tuple of float
        East and north of the way in and out.

    Returns
    -------
    BlockWalk
        In straight lines: one walks between trees and through rows.
    """
    distance = apart(np.array([way, *((stop.east, stop.north) for stop in stops)]))
    travel = walking_minutes(distance)
    look = values("scouting", "look")["hours_per_tree"] * MINUTES_AN_HOUR
    # Long enough for any order.
    end = float(travel.sum()) + look * len(stops) + 1.0
    problem = VisitProblem(
        visits=tuple(
            Visit(place=place, minutes=look, windows=((0.0, end),))
            for place in range(1, len(stops) + 1)
        ),
        vehicles=(Vehicle(start=0, end=0, shift=(0.0, end)),),
        travel=(travel,),
    )
    (route,) = solve(problem, iterations=ITERATIONS, stalled=ITERATIONS).routes
    order = [step.place for step in route.steps]
    metres = float(distance[[0, *order], [*order, 0]].sum())
    return BlockWalk(
        stops=tuple(stops[place - 1] for place in order),
        metres=metres,
        minutes=look * len(stops) + float(walking_minutes(np.array(metres))),
    )
