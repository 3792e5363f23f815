"""The search: printed optima of public instances, every tour of small farms, and what must hold."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings

from geo.routing import Tour, Vehicle, Visit, VisitProblem, solve
from tests.routing.every_tour import best_prize
from tests.routing.instances import DATA, public_problem
from tests.routing.small_farms import farms

LITTLE = 1e-6
NOTHING = Tour(routes=(), left_out=(), is_complete=True, prize=0.0, bound=0.0, is_proven=True)


def _driving(tour: Tour) -> float:
    return sum(route.driving for route in tour.routes)


def test_e_n22_k4_takes_the_375_its_file_prints_as_optimal() -> None:
    assert "Optimal value: 375" in (DATA / "E-n22-k4.txt").read_text("utf-8")
    tour = solve(public_problem("E-n22-k4.txt", rounding="round", vehicles=4))
    assert tour.is_complete
    assert _driving(tour) == 375


def test_rc208_takes_the_cost_that_its_solution_file_prints() -> None:
    problem = public_problem("RC208.vrp", rounding="dimacs", vehicles=25)
    tour = solve(problem, iterations=6_000, stalled=3_000)
    printed = (DATA / "RC208.sol").read_text("utf-8").split("Cost ")[1]
    assert tour.is_complete
    assert _driving(tour) / 10 == float(printed)


def test_two_places_to_fill_at_give_a_way_no_longer_than_the_printed_one() -> None:
    problem = public_problem("OkSmallMultipleReloadDepots.txt", rounding="round", vehicles=1)
    tour = solve(problem)
    travel, places = problem.travel[0], [0, 2, 1, 3, 4, 0]
    assert (DATA / "OkSmallMultipleReloadDepots.sol").read_text("utf-8").strip() == (
        "Route #1: 2 1 3 4"
    )
    assert tour.is_complete
    assert _driving(tour) <= sum(travel[places[:-1], places[1:]])
    assert any(step.visit is None for step in tour.routes[0].steps)


def test_two_trips_of_two_vehicles_do_what_one_tank_each_cannot() -> None:
    problem = public_problem("OkSmallMultipleTrips.txt", rounding="round", vehicles=1)
    assert solve(problem).is_complete
    single = replace(problem, vehicles=(replace(problem.vehicles[0], refill_places=()),))
    assert not solve(single).is_complete


def test_all_prizes_are_collected_where_vehicles_suffice() -> None:
    problem = public_problem("OkSmallPrizes.txt", rounding="round", vehicles=3)
    tour = solve(problem)
    assert (tour.prize, tour.bound, tour.is_proven, tour.is_complete) == (35, 35, True, True)
    alone = solve(replace(problem, vehicles=problem.vehicles[:1]))
    assert alone.prize < 35
    assert alone.is_complete


@settings(max_examples=150)
@given(farms())
def test_a_small_farm_collects_what_the_best_of_all_tours_does(problem: VisitProblem) -> None:
    best = best_prize(problem)
    tour = solve(problem, iterations=300, stalled=150)
    assert tour.prize == pytest.approx(best)
    assert tour.bound >= best - LITTLE
    assert tour.is_complete


@settings(max_examples=60)
@given(farms())
def test_every_tour_keeps_to_windows_shifts_and_tanks(problem: VisitProblem) -> None:
    tour = solve(problem, iterations=100, stalled=50)
    made = [step.visit for route in tour.routes for step in route.steps if step.visit is not None]
    assert sorted([*made, *tour.left_out]) == list(range(len(problem.visits)))
    for route in tour.routes:
        vehicle = problem.vehicles[route.vehicle]
        tank = -1.0 if vehicle.starts_empty else np.inf
        place, clock = vehicle.start, route.leaves
        assert vehicle.shift[0] - LITTLE <= route.leaves <= route.returns
        assert route.returns <= vehicle.shift[1] + LITTLE
        for step in route.steps:
            assert step.arrives == pytest.approx(clock + problem.travel[0][place, step.place])
            assert step.starts >= step.arrives - LITTLE
            if step.visit is None:
                tank = np.inf if vehicle.capacity is None else vehicle.capacity
            else:
                visit = problem.visits[step.visit]
                tank -= visit.demand
                assert tank >= -LITTLE
                assert visit.is_open_to(route.vehicle)
                assert any(
                    start - LITTLE <= step.starts and step.finishes <= end + LITTLE
                    for start, end in visit.windows
                )
            place, clock = step.place, step.finishes


def _walk(hours: float, *, most: float | None = None) -> VisitProblem:
    """Return ten spots on a line, five minutes apart, each worth more the farther it is."""
    places = np.arange(11.0)
    return VisitProblem(
        visits=tuple(
            Visit(place=i, minutes=6.0, windows=((0.0, 600.0),), prize=float(i))
            for i in range(1, 11)
        ),
        vehicles=(Vehicle(start=0, end=0, shift=(0.0, hours * 60.0), most_minutes=most),),
        travel=(5.0 * np.abs(places[:, None] - places[None]),),
    )


def test_a_walk_takes_the_spots_that_are_worth_most_within_its_hours() -> None:
    whole = solve(_walk(4.0))
    assert whole.prize == 55
    assert whole.is_proven
    # To the tenth and back are 100 minutes; 20 more are three visits.
    short = solve(_walk(2.0))
    assert short.prize == 10 + 9 + 8
    assert [step.visit for step in short.routes[0].steps] in ([7, 8, 9], [9, 8, 7])
    assert solve(_walk(9.0, most=120.0)).prize == short.prize


def test_a_place_that_cannot_be_reached_is_left_out() -> None:
    problem = _walk(4.0)
    cut = problem.travel[0].copy()
    cut[10, :10] = cut[:10, 10] = np.inf
    tour = solve(replace(problem, travel=(cut,)))
    assert tour.left_out == (9,)
    assert tour.prize == tour.bound == 45


def test_the_same_seed_gives_the_same_tour() -> None:
    problem = _walk(1.5)
    assert solve(problem, seed=7) == solve(problem, seed=7)


def test_time_of_each_vehicle_counts_where_one_is_slower() -> None:
    problem = _walk(2.0)
    slow = tuple(replace(visit, minutes=(600.0, visit.minutes)) for visit in problem.visits)
    tour = solve(replace(problem, visits=slow, vehicles=problem.vehicles * 2))
    assert [route.vehicle for route in tour.routes] == [1]


def test_nothing_to_visit_is_a_tour_of_nothing() -> None:
    assert solve(replace(_walk(1.0), visits=())) == NOTHING
    never = solve(replace(_walk(1.0), vehicles=()))
    assert (never.prize, never.bound, len(never.left_out)) == (0.0, 0.0, 10)


def test_data_carry_their_licence() -> None:
    assert "MIT License" in Path(DATA / "LICENSE-of-pyvrp.md").read_text("utf-8")


def test_more_time_away_never_collects_less() -> None:
    prizes = [solve(_walk(9.0, most=most)).prize for most in (15.0, 30.0, 60.0, 90.0, 150.0)]
    assert prizes == sorted(prizes)


def test_a_way_round_that_is_shorter_than_a_straight_line_never_lowers_the_bound() -> None:
    problem = _walk(2.0)
    longer = problem.travel[0] + 50.0 * (
        np.abs(np.subtract.outer(np.arange(11), np.arange(11))) > 1
    )
    tour = solve(replace(problem, travel=(np.asfortranarray(longer),)))
    assert tour.bound >= tour.prize > 0
