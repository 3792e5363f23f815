"""Rain brings conidia: how much, how long they last, and what never brings any."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.anthracnose_parameters import anthracnose_parameters
from geo.infection.splash import hourly_deposit, splash_share

ANTHRACNOSE = anthracnose_parameters()
DRY_OR_RAIN = st.one_of(st.just(0.0), st.floats(0.1, 30.0))
RAINS = st.lists(DRY_OR_RAIN, min_size=1, max_size=120)


def deposit(*rain: float) -> np.ndarray:
    return hourly_deposit(np.array(rain), ANTHRACNOSE)[0]


@pytest.mark.published(
    "estrada1996", "rains up to 4 mm: virtually none; above 20 mm: high; abstract"
)
def test_rain_up_to_4_millimetres_deposits_nothing_and_rain_of_20_all_it_can() -> None:
    found = splash_share(np.array([0.0, 2.0, 4.0, 20.0, 60.0, np.nan]), ANTHRACNOSE)
    np.testing.assert_allclose(found, [0.0, 0.0, 0.0, 1.0, 1.0, np.nan])


def test_between_the_two_rains_a_straight_line_is_drawn() -> None:
    found = splash_share(np.array([8.0, 12.0, 16.0]), ANTHRACNOSE)
    np.testing.assert_allclose(found, [0.25, 0.5, 0.75])


def test_a_rain_counts_by_its_total_over_short_dry_gaps() -> None:
    broken = deposit(5.0, *[0.0] * 6, 5.0, *[0.0] * 6, 10.0)
    assert broken[-1] == 1.0
    np.testing.assert_allclose(broken[[0, 7]], [1 / 16, 6 / 16])


def test_small_rains_far_apart_deposit_nothing() -> None:
    assert (deposit(*[4.0, *[0.0] * 7] * 20) == 0.0).all()


def test_a_deposit_falls_to_37_percent_within_a_week() -> None:
    left = deposit(20.0, *[0.0] * 168)
    assert left[-1] == pytest.approx(np.exp(-1.0))
    assert (np.diff(left) < 0.0).all()


def test_rains_of_different_days_add_up_to_one_deposit_at_most() -> None:
    twice = deposit(12.0, *[0.0] * 23, 12.0)
    assert twice[-1] == pytest.approx(0.5 + 0.5 * np.exp(-1.0 / 7.0))
    thrice = deposit(*[30.0, *[0.0] * 23] * 3)
    assert thrice.max() == 1.0
    assert thrice[-1] == pytest.approx(np.exp(-23.0 / 168.0))


def test_the_total_of_a_rain_is_known_until_a_gap_has_ended_it() -> None:
    _, running, _ = hourly_deposit(np.array([0.0, 3.0, 4.0, *[0.0] * 8, 2.0]), ANTHRACNOSE)
    assert running.tolist() == [0.0, 3.0, *[7.0] * 7, 0.0, 0.0, 2.0]


def test_unknown_rain_leaves_the_deposit_unknown_from_then_on() -> None:
    found = deposit(20.0, np.nan, *[0.0] * 30, 20.0)
    assert np.isnan(found).tolist() == [False, *[True] * 32]


@given(rain=RAINS)
def test_a_deposit_is_a_share(rain: list[float]) -> None:
    found = deposit(*rain)
    assert ((found >= 0.0) & (found <= 1.0)).all()


@given(rain=RAINS, data=st.data())
def test_more_rain_never_deposits_less(rain: list[float], data: st.DataObject) -> None:
    added = st.lists(DRY_OR_RAIN, min_size=len(rain), max_size=len(rain))
    more = np.array(rain) + data.draw(added)
    assert (deposit(*more) >= deposit(*rain) - 1e-12).all()


@given(rain=RAINS, split=st.integers(0, 120))
def test_carrying_the_state_over_a_split_gives_the_whole(rain: list[float], split: int) -> None:
    wet = np.array(rain)
    whole = hourly_deposit(wet, ANTHRACNOSE)
    first = hourly_deposit(wet[:split], ANTHRACNOSE)
    rest = hourly_deposit(wet[split:], ANTHRACNOSE, before=first[2])
    for place in (0, 1):
        np.testing.assert_array_equal(np.concatenate([first[place], rest[place]]), whole[place])
    assert rest[2] == whole[2]


def test_each_kind_of_array_is_taken(as_array) -> None:
    found, _, _ = hourly_deposit(as_array([0.0, 12.0]), ANTHRACNOSE)
    np.testing.assert_allclose(found, [0.0, 0.5])
