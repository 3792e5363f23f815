"""What a count says."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta

from geo.epidemic.counts import NO_COUNTS, Counts, corrected, strength_tomorrow
from geo.epidemic.tissue import Tissue, first_tissue
from tests.epidemic.made import made_tissue, total

seeds = st.integers(0, 2**32 - 1)


def after_count(tissue: Tissue, inspected: float, infected: float, worth: float = 10.0) -> Tissue:
    everywhere = np.ones(tissue.healthy.size)
    return corrected(
        tissue,
        worth * everywhere,
        inspected=inspected * everywhere,
        infected=infected * everywhere,
    )


@given(st.floats(0.0, 1.0), st.floats(0.5, 300.0), st.integers(1, 500), st.floats(0.0, 1.0))
def test_the_sporulating_share_is_the_mean_of_the_posterior(share, worth, inspected, found) -> None:
    infected = round(inspected * found)
    prior = (worth * share + 0.5, worth * (1.0 - share) + 0.5)
    # The posterior on a fine grid, from the prior and the chance of the count itself.
    posterior = beta(prior[0] + infected, prior[1] + inspected - infected)
    tissue = first_tissue(np.array([share]), latent_stages=6.0)
    after = after_count(tissue, inspected, infected, worth)
    assert after.sporulating[0] == pytest.approx(posterior.mean())


def test_the_posterior_is_prior_times_likelihood() -> None:
    tissue = first_tissue(np.array([0.2]), latent_stages=6.0)
    share = np.linspace(0.0, 1.0, 100_001)[1:-1]
    weight = beta(10 * 0.2 + 0.5, 10 * 0.8 + 0.5).pdf(share) * share**3 * (1.0 - share) ** 17
    mean = (share * weight).sum() / weight.sum()
    assert after_count(tissue, 20, 3).sporulating[0] == pytest.approx(mean, rel=1e-6)


@given(seeds, st.integers(0, 300), st.floats(0.0, 1.0))
def test_a_count_keeps_the_sum_and_no_share_is_negative(seed, inspected, found) -> None:
    after = after_count(made_tissue(seed), inspected, round(inspected * found))
    np.testing.assert_allclose(total(after), 1.0)
    shares = np.vstack([after.healthy, after.hidden, after.sporulating, after.spent])
    assert (shares >= 0).all()


@given(seeds, st.integers(1, 300), st.floats(0.0, 1.0))
def test_the_odds_of_hidden_move_as_the_odds_of_the_visible(seed, inspected, found) -> None:
    before = made_tissue(seed)
    infected = round(inspected * found)
    after = after_count(before, inspected, infected)
    prior = 10.0 * before.sporulating + 0.5, 10.0 * (1.0 - before.sporulating) + 0.5
    ratio = (prior[0] + infected) / (prior[1] + inspected - infected) * prior[1] / prior[0]
    has_room = after.healthy > 1e-9
    np.testing.assert_allclose(
        after.hidden[:, has_room] / after.healthy[has_room],
        (before.hidden / before.healthy * ratio)[:, has_room],
        rtol=1e-6,
    )


@given(seeds, st.integers(1, 100), st.integers(0, 100), st.integers(0, 100))
def test_more_found_never_means_less_hidden(seed, inspected, one, other) -> None:
    few, many = sorted((min(one, inspected), min(other, inspected)))
    before = made_tissue(seed)
    before = replace(before, healthy=before.healthy + before.spent, spent=0 * before.spent)
    less, more = (after_count(before, inspected, found) for found in (few, many))
    assert (more.sporulating >= less.sporulating).all()
    assert (more.hidden / more.healthy >= less.hidden / less.healthy * (1.0 - 1e-9)).all()


def test_where_nobody_counted_nothing_changes() -> None:
    before = made_tissue(8, blocks=2)
    after = corrected(
        before, np.full(2, 10.0), inspected=np.array([0.0, 20.0]), infected=np.array([0.0, 9.0])
    )
    assert after.sporulating[0] == before.sporulating[0]
    assert (after.hidden[:, 0] == before.hidden[:, 0]).all()
    assert after.sporulating[1] != before.sporulating[1]


def test_a_block_that_was_all_sporulating_has_nothing_to_hide() -> None:
    after = after_count(first_tissue(np.ones(1), latent_stages=6.0), 20, 0)
    assert not after.hidden.any()
    np.testing.assert_allclose(total(after), 1.0)


@given(st.integers(1, 50), st.integers(1, 50))
def test_two_counts_of_a_day_are_one(first, second) -> None:
    before = first_tissue(np.array([0.1]), latent_stages=6.0)
    counts = Counts(
        block=np.array([0, 0]),
        day=np.array([3, 3]),
        inspected=np.array([float(first), float(second)]),
        infected=np.array([1.0, 1.0]),
    )
    inspected, infected = counts.on(3, block_count=1)
    assert (inspected.tolist(), infected.tolist()) == ([first + second], [2.0])
    # Halves of the prior come in once and not with every count.
    once = corrected(before, np.array([10.0]), inspected=inspected, infected=infected)
    assert once.sporulating[0] == pytest.approx((1.0 + 0.5 + 2.0) / (11.0 + first + second))


def test_counts_of_other_days_and_no_counts_say_nothing() -> None:
    counts = Counts(np.array([1]), np.array([-1]), np.array([9.0]), np.array([2.0]))
    assert counts.on(0, block_count=2)[0].tolist() == [0.0, 0.0]
    assert NO_COUNTS.on(0, block_count=2)[1].tolist() == [0.0, 0.0]


def test_a_count_is_worth_about_a_third_after_a_latent_period() -> None:
    strength = np.array([110.0])
    for _ in range(7):
        strength = strength_tomorrow(strength, np.array([1.0 / 7.0]), scouting_worth=10.0)
    assert strength[0] == pytest.approx(10.0 + 100.0 * np.exp(-1.0))


def test_where_latency_stands_still_a_count_keeps_its_worth() -> None:
    kept = strength_tomorrow(np.array([60.0]), np.array([0.0]), scouting_worth=10.0)
    assert kept.tolist() == [60.0]
