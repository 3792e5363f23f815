"""Conditions of the tissue, and growth."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.epidemic.tissue import first_tissue, grown, old_share
from tests.epidemic.made import made_tissue, total

seeds = st.integers(0, 2**32 - 1)


def test_the_first_tissue_shows_what_it_was_told_and_hides_nothing() -> None:
    tissue = first_tissue(np.array([0.0, 0.1]), latent_stages=4.0)
    assert tissue.sporulating.tolist() == [0.0, 0.1]
    assert tissue.hidden.shape == (4, 2)
    np.testing.assert_array_equal(total(tissue), 1.0)


@given(seeds, st.floats(0.0, 1.0))
def test_growth_keeps_the_sum_and_never_raises_an_infected_share(seed, share) -> None:
    before = made_tissue(seed)
    after = grown(before, np.full(before.healthy.shape, share))
    np.testing.assert_allclose(total(after), 1.0)
    assert (after.healthy >= before.healthy - 1e-12).all()
    np.testing.assert_allclose(after.hidden, before.hidden * share)


def test_a_panicle_that_doubled_has_half_the_infected_share() -> None:
    size = np.array([[0.5, 1.0]])
    after = grown(made_tissue(1, blocks=1), old_share(size)[:, 1])
    np.testing.assert_allclose(after.sporulating, made_tissue(1, blocks=1).sporulating / 2)


def test_the_unit_of_size_does_not_matter() -> None:
    size = np.random.default_rng(3).uniform(1.0, 9.0, (4, 7))
    np.testing.assert_allclose(old_share(size), old_share(size * 25.4))


def test_an_unknown_size_stays_unknown_on_its_days() -> None:
    share = old_share(np.array([[1.0, np.nan, 2.0, 4.0]]))
    assert np.isnan(share).tolist() == [[False, True, True, False]]


def test_each_kind_of_array_is_taken(as_array) -> None:
    assert old_share(as_array([[1.0, 2.0, 8.0]])).tolist() == [[1.0, 0.5, 0.25]]
