"""Stages between visits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.phenology.flushes import Flushes
from geo.phenology.stage import average_over_portions, days_from_sight, mean_progress
from geo.season.visits import Looks, looks

DAYS = 10
SCALE = (np.array([0.0, 10.0, 20.0]), np.array([0.0, 1.0, 0.2]))


def one_block(*days: int) -> Looks:
    return looks(
        np.zeros(len(days), dtype=np.int64),
        np.array(days, dtype=np.int64),
        subject_count=1,
        day_count=DAYS,
    )


def progress(visits: dict[int, float], rate: float | np.ndarray = 1.0) -> np.ndarray:
    cumulative = np.broadcast_to(rate, (1, DAYS)).cumsum(axis=1)
    return mean_progress(one_block(*visits), np.array(list(visits.values())), cumulative)[0]


def test_one_visit_is_carried_forward_and_back_by_thermal_time() -> None:
    np.testing.assert_allclose(progress({4: 12.0}, 0.5), 12.0 + 0.5 * (np.arange(DAYS) - 4))


def test_two_visits_are_both_met_and_the_days_between_are_stretched() -> None:
    found = progress({2: 4.0, 6: 12.0})
    np.testing.assert_allclose(found[2:7], [4.0, 6.0, 8.0, 10.0, 12.0])
    np.testing.assert_allclose(found[[0, 1, 7, 9]], [2.0, 3.0, 13.0, 15.0])


def test_between_visits_warm_days_count_for_more() -> None:
    rate = np.array([1, 1, 1, 3, 1, 0, 0, 1, 1, 1.0])
    found = progress({2: 0.0, 5: 8.0}, rate)
    np.testing.assert_allclose(found[2:6], [0.0, 6.0, 8.0, 8.0])


def test_a_cold_spell_without_progress_waits_for_the_next_visit() -> None:
    found = progress({2: 4.0, 5: 6.0}, 0.0)
    np.testing.assert_allclose(found, [4.0] * 5 + [6.0] * 5)


def test_where_visits_contradict_each_other_the_newest_wins() -> None:
    found = progress({2: 14.0, 6: 8.0})
    assert found[6] == 8.0
    assert (found[:6] <= 8.0).all()


@given(
    visits=st.dictionaries(st.integers(0, DAYS - 1), st.floats(-3.0, 110.0), max_size=5),
    rates=st.lists(st.floats(0.0, 3.0), min_size=DAYS, max_size=DAYS),
)
def test_a_stage_never_goes_back(visits: dict[int, float], rates: list[float]) -> None:
    found = progress(dict(sorted(visits.items())), np.array(rates))
    assert np.isnan(found).all() if not visits else (np.diff(found) >= -1e-9).all()


@given(
    first=st.floats(0.0, 40.0),
    rise=st.floats(0.0, 40.0),
    rates=st.lists(st.floats(0.0, 3.0), min_size=DAYS, max_size=DAYS),
)
def test_visits_that_agree_are_all_met(first: float, rise: float, rates: list[float]) -> None:
    found = progress({1: first, 4: first + rise, 8: first + 2 * rise}, np.array(rates))
    np.testing.assert_allclose(found[[1, 4, 8]], [first, first + rise, first + 2 * rise])


def averaged(
    found: np.ndarray, seen: Looks, offset: list[list[float]], share: list[list[float]]
) -> np.ndarray:
    """Average over portions of one flush a block."""
    nothing = np.zeros(0, dtype=np.int64)
    portions = Flushes(
        visit_block=nothing,
        visit_day=nothing,
        block=nothing,
        seen_flush=nothing,
        seen_day=nothing,
        seen_progress=np.zeros(0),
        portion_flush=np.full(np.shape(offset), len(found) - 1),
        offset=np.array(offset),
        share=np.array(share),
    )
    following = np.where(seen.has_following, seen.following, -1)
    (average,) = average_over_portions(
        [found],
        np.where(seen.has_last, seen.last, following),
        portions,
        of_portion=lambda place: [np.interp(place, *SCALE)],
    )
    return average


def test_days_from_sight_are_thermal_days_to_the_nearest_look() -> None:
    cumulative = np.array([[1.0, 2.0, 4.0, 8.0, 9.0, 9.0, 9.0, 10.0, 11.0, 12.0]])
    found = days_from_sight(one_block(1, 4), cumulative)[0]
    np.testing.assert_allclose(found, [1.0, 0.0, 2.0, 1.0, 0.0, 0.0, 0.0, 1.0, 2.0, 3.0])
    assert np.isinf(days_from_sight(one_block(), cumulative)).all()


def test_a_mixture_is_the_mean_of_its_portions_not_the_portion_of_its_mean() -> None:
    # Half at place 0 and half at 20: the mean place 10 alone would be fully susceptible.
    found = averaged(np.full((1, DAYS), 10.0), one_block(0), [[-10.0, 10.0]], [[0.5, 0.5]])
    np.testing.assert_allclose(found, 0.1)


def test_each_visit_brings_its_own_mixture_and_the_first_holds_before_it() -> None:
    seen = one_block(3, 6)
    offset, share = [[0.0, 0.0], [-10.0, 5.0]], [[1.0, 0.0], [0.25, 0.75]]
    found = averaged(np.full((1, DAYS), 10.0), seen, offset, share)
    np.testing.assert_allclose(found[0, :6], 1.0)
    np.testing.assert_allclose(found[0, 6:], 0.75 * 0.6)


def test_beyond_the_scale_its_ends_hold() -> None:
    place = np.linspace(-50.0, 500.0, DAYS)[None, :]
    found = averaged(place, one_block(0), [[0.0]], [[1.0]])
    np.testing.assert_allclose(found[0, [0, -1]], [0.0, 0.2])


def test_a_block_without_any_visit_is_unknown() -> None:
    seen = looks(np.array([1]), np.array([0]), subject_count=2, day_count=DAYS)
    found = mean_progress(seen, np.array([5.0]), np.ones((2, DAYS)).cumsum(axis=1))
    assert np.isnan(found[0]).all()
    average = averaged(found, seen, [[0.0]], [[1.0]])
    assert np.isnan(average[0]).all()
    assert not np.isnan(average[1]).any()


@pytest.mark.parametrize("count", [0, 3])
def test_a_farm_without_visits_is_unknown(count: int) -> None:
    nothing = np.array([], dtype=np.int64)
    seen = looks(nothing, nothing, subject_count=count, day_count=DAYS)
    found = mean_progress(seen, np.array([]), np.ones((count, DAYS)))
    assert found.shape == (count, DAYS)
    assert np.isnan(found).all()
