"""What drives one day."""

import numpy as np

from geo.epidemic.drivers import Day
from tests.epidemic.made import calm_drivers, made_drivers


def test_a_day_is_a_column() -> None:
    drivers = made_drivers(1)
    day = drivers.on(7)
    np.testing.assert_array_equal(day.protection, drivers.protection[:, 7])
    np.testing.assert_array_equal(day.neighbours, drivers.neighbours[:, 7])


def test_what_is_not_given_does_nothing() -> None:
    day = calm_drivers().on(0)
    assert (day.old_share, day.release) == (1.0, 1.0)
    assert not any([day.cured, day.reach, day.removed, day.neighbours.size, day.inspected.any()])


def test_a_day_out_of_some_days_is_the_same_day() -> None:
    drivers = made_drivers(1)
    few = drivers.between(5, 9)
    assert few.favourability.shape[1] == 4
    for name in Day.__dataclass_fields__:
        np.testing.assert_array_equal(getattr(few.on(2), name), getattr(drivers.on(7), name))
    assert few.favourability[:, 2].flags.c_contiguous
