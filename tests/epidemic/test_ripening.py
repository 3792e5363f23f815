"""From hidden to sporulating to spent."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.linalg import expm
from scipy.special import gammaincc

from geo.epidemic.ripening import acts_together, exhausted, ripened, taken_out
from geo.epidemic.tissue import Tissue, first_tissue
from geo.infection.latency import latency_rate, shortest_latency
from geo.infection.panicle_mildew import panicle_mildew_parameters
from tests.epidemic.made import made_tissue, total

seeds = st.integers(0, 2**32 - 1)


def caught_at_once(stages: int, blocks: int = 1) -> Tissue:
    """Return tissue that was all infected a moment ago."""
    tissue = first_tissue(np.zeros(blocks), latent_stages=stages)
    return replace(tissue, healthy=np.zeros(blocks), hidden=tissue.hidden + np.eye(stages, 1))


def hidden_over_days(rate: float, days: int, stages: int = 6) -> list[float]:
    tissue, hidden = caught_at_once(stages), [1.0]
    for _ in range(days):
        tissue = ripened(tissue, np.array([rate]))
        hidden.append(float(tissue.hidden.sum()))
    return hidden


@given(seeds, st.floats(0.0, 1e6))
def test_ripening_keeps_the_sum_and_no_share_is_negative_at_any_rate(seed, rate) -> None:
    before = made_tissue(seed)
    after = ripened(before, np.array(rate))
    np.testing.assert_allclose(total(after), 1.0)
    assert (after.hidden >= 0).all()
    assert (after.sporulating >= before.sporulating).all()


@given(seeds, st.floats(0.0, 3.0))
def test_a_day_is_the_exponential_of_the_chain(seed, rate) -> None:
    before = made_tissue(seed, blocks=1)
    chain = 6 * rate * (np.eye(6, k=-1) - np.eye(6))
    after = ripened(before, np.array([rate]))
    np.testing.assert_allclose(after.hidden[:, 0], expm(chain) @ before.hidden[:, 0], atol=1e-12)


def test_at_the_optimum_the_mean_delay_to_visibility_is_seven_days() -> None:
    rate = latency_rate(
        np.full((1, 24), 22.5),
        panicle_mildew_parameters(),
        latent_days=shortest_latency("panicle_mildew"),
        starts=np.array([0]),
    )
    hidden = hidden_over_days(rate.item(), 80)
    assert np.trapezoid(hidden) == pytest.approx(7.0, abs=0.001)


@given(st.integers(1, 12), st.floats(0.05, 1.0))
def test_what_is_hidden_follows_the_erlang_distribution(stages, rate) -> None:
    hidden = hidden_over_days(rate, 20, stages)
    expected = gammaincc(stages, stages * rate * np.arange(21))
    np.testing.assert_allclose(hidden, expected, atol=1e-12)


def test_quiescent_infection_stays_hidden() -> None:
    assert hidden_over_days(0.0, 200) == [1.0] * 201


@given(seeds, st.floats(0.0, 0.5), st.floats(0.0, 0.5))
def test_two_half_days_ripen_as_one(seed, first, second) -> None:
    before = made_tissue(seed)
    twice = ripened(ripened(before, np.array(first)), np.array(second))
    once = ripened(before, np.array(first + second))
    np.testing.assert_allclose(twice.hidden, once.hidden, atol=1e-12)
    np.testing.assert_allclose(twice.sporulating, once.sporulating, atol=1e-12)


def test_each_block_ripens_at_its_own_rate_and_the_unknown_stays_alone() -> None:
    after = ripened(made_tissue(4, blocks=3), np.array([0.0, np.nan, 0.2]))
    assert np.isnan(after.sporulating).tolist() == [False, True, False]
    np.testing.assert_allclose(total(after)[[0, 2]], 1.0)


def test_sheds_for_fourteen_days_on_average() -> None:
    tissue, shedding = first_tissue(np.ones(1), latent_stages=6.0), [1.0]
    for _ in range(400):
        tissue = exhausted(tissue, infectious_period=14.0)
        shedding.append(float(tissue.sporulating[0]))
    # The trapezoid of an exponential is a twelfth of a squared step too long.
    assert np.trapezoid(shedding) == pytest.approx(14.0, rel=0.001)
    np.testing.assert_allclose(total(tissue), 1.0)


@given(seeds, st.floats(0.0, 1.0))
def test_an_act_takes_what_sporulates_and_leaves_what_hides(seed, share) -> None:
    before = made_tissue(seed)
    after = taken_out(before, np.array(share))
    np.testing.assert_allclose(total(after), 1.0)
    np.testing.assert_allclose(after.sporulating, before.sporulating * (1.0 - share))
    assert after.hidden is before.hidden


def test_a_day_without_acts_takes_nothing_and_no_number_of_them_takes_all() -> None:
    acts = np.array([[0.0, 1.0, 50.0]])
    share = acts_together(acts, acts, removal_effect=0.3, washing_effect=0.1)
    np.testing.assert_allclose(share[0, :2], [0.0, 1.0 - 0.7 * 0.9])
    assert share[0, 2] <= 1.0


def test_each_kind_of_array_is_taken(as_array) -> None:
    after = ripened(caught_at_once(1, blocks=2), as_array([0.0, 1.0]))
    np.testing.assert_allclose(after.sporulating, [0.0, 1.0 - np.exp(-1.0)], rtol=1e-6)
