"""Hours into local days, also of 23 and 25 hours."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.season.days import day_extremes, day_mean, day_starts, day_sum

lengths = st.lists(st.sampled_from([23, 24, 25]), min_size=1, max_size=6)


@settings(max_examples=40)
@given(lengths=lengths, seed=st.integers(0, 999))
def test_days_agree_with_a_plain_loop(lengths: list[int], seed: int) -> None:
    hour_day = np.repeat(np.arange(len(lengths)), lengths)
    hourly = np.random.default_rng(seed).normal(size=(2, hour_day.size))
    starts = day_starts(hour_day)
    of_day = [hourly[:, hour_day == day] for day in range(len(lengths))]
    np.testing.assert_allclose(
        day_sum(hourly, starts), np.stack([one.sum(axis=1) for one in of_day], axis=1)
    )
    np.testing.assert_allclose(
        day_mean(hourly, starts), np.stack([one.mean(axis=1) for one in of_day], axis=1)
    )
    lowest, highest = day_extremes(hourly, starts)
    np.testing.assert_array_equal(lowest, np.stack([one.min(axis=1) for one in of_day], axis=1))
    np.testing.assert_array_equal(highest, np.stack([one.max(axis=1) for one in of_day], axis=1))


def test_an_unknown_hour_makes_its_day_unknown_and_no_other() -> None:
    hourly = np.ones(6)
    hourly[1] = np.nan
    starts = np.array([0, 3])
    lowest, _ = day_extremes(hourly, starts)
    for found in (day_sum(hourly, starts), day_mean(hourly, starts), lowest):
        assert np.isnan(found).tolist() == [True, False]
