"""What is in, and what is to come."""

from dataclasses import replace

import numpy as np

from geo.epidemic.outlook import outlook, to_come
from tests.epidemic.made import MILDEW, calm_drivers, run


def test_a_day_of_the_reference_hazard_has_the_index_one() -> None:
    reference = MILDEW.infection_rate * MILDEW.background_inoculum
    found = outlook(
        np.array([[2.0 * reference, 0.0]]),
        np.array([[0.0, 6.0 * reference]]),
        today=0,
        epidemic=MILDEW,
    )
    np.testing.assert_allclose([found.already_in[0], found.to_come[0]], [2.0, 6.0])
    np.testing.assert_allclose([found.share_already_in[0], found.share_to_come[0]], [0.25, 0.75])


def test_what_is_to_come_leaves_healthy_tissue() -> None:
    _, course = run(calm_drivers())
    lost = course.healthy[:, 10] - course.healthy[:, -1]
    np.testing.assert_allclose(to_come(course.new_infection, today=10), lost)


def test_a_spray_tomorrow_changes_what_is_to_come_and_nothing_that_is_in() -> None:
    drivers = calm_drivers()
    protection = drivers.protection.copy()
    protection[:, 11:] = 0.8
    found = [
        outlook(course.hidden, course.new_infection, today=10, epidemic=MILDEW)
        for _, course in (run(drivers), run(replace(drivers, protection=protection)))
    ]
    np.testing.assert_array_equal(found[0].already_in, found[1].already_in)
    assert (found[1].to_come < 0.5 * found[0].to_come).all()


def test_nothing_in_and_nothing_to_come_has_no_shares() -> None:
    found = outlook(np.zeros((1, 2)), np.zeros((1, 2)), today=0, epidemic=MILDEW)
    assert (found.already_in[0], found.to_come[0]) == (0.0, 0.0)
    assert np.isnan([found.share_already_in[0], found.share_to_come[0]]).all()


def test_without_a_day_ahead_what_is_to_come_is_unknown() -> None:
    found = outlook(np.full((1, 1), 0.1), np.zeros((1, 1)), today=0, epidemic=MILDEW)
    assert np.isnan(found.to_come).all()
    assert (found.already_in > 0).all()
