"""Rows in the order they are sprayed: downwind first where the tank allows, joined in a tank."""

from dataclasses import replace

import numpy as np

from geo.rounds.downwind import downwind_first, joined
from geo.rounds.pieces import Piece
from geo.routing import Route, Vehicle, Visit, VisitProblem, solve
from geo.routing.schedule import Leg, scheduled
from tests.demo_run import demo_outcome

LITRES = (900.0, 800.0, 850.0)


def pieces(*litres: float) -> tuple[Piece, ...]:
    entry = demo_outcome().spray.entries[0]
    return tuple(
        Piece(
            entry=entry,
            place=0,
            first_row=4 * number + 1,
            last_row=4 * number + 4,
            rows_of_block=4 * len(litres),
            litres=one,
            area=one / 1000,
            minutes=(one / 50,),
            worth=1.0,
            sprayers=frozenset({0}),
        )
        for number, one in enumerate(litres)
    )


def problem(tank: float) -> VisitProblem:
    return VisitProblem(
        visits=tuple(
            Visit(place=1, minutes=one.minutes, windows=((0.0, 600.0),), demand=one.litres, prize=1)
            for one in pieces(*LITRES)
        ),
        vehicles=(
            Vehicle(
                start=0,
                end=0,
                shift=(0.0, 600.0),
                capacity=tank,
                refill_places=(0,),
                refill_minutes=10.0,
                starts_empty=True,
            ),
        ),
        travel=(np.array([[0.0, 5.0], [5.0, 0.0]]),),
    )


def driven(of: VisitProblem, *visits: int | None) -> Route:
    legs = [
        (None, 0, 10.0, (0.0, 600.0))
        if visit is None
        else (visit, 1, of.visits[visit].takes(0), of.visits[visit].windows[0])
        for visit in visits
    ]
    return scheduled(0, of.vehicles[0], of.travel[0], legs)


def rows_in_time(of: VisitProblem, route: Route) -> list[int]:
    routes, sprayed = downwind_first(of, [route], pieces(*LITRES))
    return [sprayed[step.visit].first_row for step in routes[0].steps if step.visit is not None]


def test_whoever_comes_first_begins_at_the_downwind_side() -> None:
    of = problem(1000.0)
    assert rows_in_time(of, driven(of, None, 2, None, 0, None, 1)) == [1, 5, 9]


def test_rows_stay_as_they_were_where_the_tank_would_not_hold_them() -> None:
    of = problem(1650.0)
    # The two smaller pieces fill the tank: the larger one would not fit in their stead.
    assert rows_in_time(of, driven(of, None, 2, 1, None, 0)) == [9, 5, 1]


def test_rows_stay_as_they_were_where_hours_would_close_before_the_end() -> None:
    morning, later = (0.0, 31.5), (60.0, 600.0)
    of = problem(1000.0)
    of = replace(of, visits=tuple(replace(one, windows=(morning, later)) for one in of.visits))
    legs: list[Leg] = [(None, 0, 10.0, (0.0, 600.0))]
    for visit, window in ((1, morning), (0, later), (2, later)):
        legs += [(visit, 1, of.visits[visit].takes(0), window), (None, 0, 10.0, (0.0, 600.0))]
    route = scheduled(0, of.vehicles[0], of.travel[0], legs[:-1])
    # Sixteen minutes fit into the morning, the eighteen of the rows at the downwind side do not.
    assert rows_in_time(of, route) == [5, 1, 9]


def test_rows_side_by_side_from_one_tank_are_one_stop() -> None:
    of = problem(2000.0)
    route, sprayed = joined(driven(of, None, 1, 0, None, 2), pieces(*LITRES))
    stops = [step for step in route.steps if step.visit is not None]
    assert [
        (sprayed[one.visit or 0].first_row, sprayed[one.visit or 0].last_row) for one in stops
    ] == [
        (1, 8),
        (9, 12),
    ]
    assert sprayed[1].litres == LITRES[0] + LITRES[1]
    assert stops[0].finishes - stops[0].starts == (LITRES[0] + LITRES[1]) / 50


def test_rows_apart_and_other_blocks_stay_stops_of_their_own() -> None:
    of = problem(2000.0)
    apart, _ = joined(driven(of, None, 0, 2), pieces(*LITRES))
    assert len(apart.steps) == 3
    moved = tuple(replace(one, place=number) for number, one in enumerate(pieces(*LITRES)))
    others, _ = joined(driven(of, None, 0, 1), moved)
    assert len(others.steps) == 3


def test_what_the_search_finds_can_be_turned_downwind() -> None:
    of = problem(1000.0)
    found = solve(of, iterations=50, stalled=20)
    assert found.prize == 3
    assert rows_in_time(of, found.routes[0]) == [1, 5, 9]
