"""Visits that belong together are made all or none, and nothing else is lost by it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.routing import Vehicle, Visit, VisitProblem, solve
from tests.routing.every_tour import best_prize
from tests.routing.small_farms import farms

LITTLE = 1e-6


def on_a_line(prizes: list[float], *, hours: float, groups: tuple[tuple[int, ...], ...]):
    """Return visits of an hour each, next to the start, and a day of some hours."""
    return VisitProblem(
        visits=tuple(
            Visit(place=0, minutes=60.0, windows=((0.0, 600.0),), prize=prize) for prize in prizes
        ),
        vehicles=(Vehicle(start=0, end=0, shift=(0.0, hours * 60.0)),),
        travel=(np.zeros((1, 1)),),
        groups=groups,
    )


def made(problem: VisitProblem) -> set[int]:
    tour = solve(problem, iterations=100, stalled=50)
    return {step.visit for route in tour.routes for step in route.steps if step.visit is not None}


def test_a_group_that_does_not_fit_whole_gives_its_time_to_one_that_does() -> None:
    # Without groups the two dear ones and one of the three of 5 would fill the three hours.
    problem = on_a_line([5.0, 5.0, 5.0, 5.0, 4.0], hours=3.0, groups=((0, 1, 2, 3), (4,)))
    assert made(problem) == {4}


def test_a_group_that_fits_is_made_whole() -> None:
    problem = on_a_line([5.0, 5.0, 4.0], hours=2.0, groups=((0, 1), (2,)))
    assert made(problem) == {0, 1}


def test_two_groups_begun_become_one_finished() -> None:
    problem = on_a_line([6.0, 1.0, 6.0, 1.0], hours=2.0, groups=((0, 1), (2, 3)))
    assert made(problem) in ({0, 1}, {2, 3})


@settings(max_examples=60)
@given(farms(), st.data())
def test_no_group_is_ever_begun_and_not_finished(
    problem: VisitProblem, data: st.DataObject
) -> None:
    count = len(problem.visits)
    label = data.draw(st.lists(st.integers(0, 2), min_size=count, max_size=count))
    groups = tuple(tuple(i for i in range(count) if label[i] == one) for one in sorted(set(label)))
    grouped = replace(problem, groups=groups)
    tour = solve(grouped, iterations=60, stalled=30)
    found = {s.visit for route in tour.routes for s in route.steps if s.visit is not None}
    for group in groups:
        assert set(group) <= found or not set(group) & found
    assert tour.prize <= best_prize(problem) + LITTLE
    assert tour.bound >= tour.prize - LITTLE
    assert tour.prize == pytest.approx(sum(problem.visits[i].prize or 0.0 for i in found))
