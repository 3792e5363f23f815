"""Eight factors whose product is exactly the hazard."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from geo.ranking.factors import FACTORS, factor_table
from geo.reference.number import STANDINGS

BLOCKS, DAYS = 3, 4
# Zeros often, since that is where means lose their weights; and no number too small to divide.
shares = st.one_of(st.just(0.0), st.floats(1e-6, 1.0))
inoculum = st.floats(1.0, 50.0)  # home inoculum holds the background, which is never zero
by_day = {"shape": (BLOCKS, DAYS)}


def hazard(_site, weather, cultivar, age, stage, home, incoming, protection) -> np.ndarray:
    susceptibility = (cultivar * age)[:, None] * stage
    return (weather * susceptibility * (home + incoming) * (1.0 - protection)).mean(axis=1)


def table(site, weather, cultivar, age, stage, home, incoming, protection) -> np.ndarray:
    return factor_table(
        site_favourability=site,
        favourability=weather,
        constant_susceptibility=(cultivar, age),
        stage=stage,
        home=home,
        incoming=incoming,
        protection=protection,
    )


seasons = st.tuples(
    arrays(float, elements=shares, **by_day),
    arrays(float, elements=shares, **by_day),
    arrays(float, BLOCKS, elements=shares),
    arrays(float, BLOCKS, elements=st.floats(0.5, 1.5)),
    arrays(float, elements=shares, **by_day),
    arrays(float, elements=inoculum, **by_day),
    arrays(float, elements=st.floats(0.0, 50.0), **by_day),
    arrays(float, elements=st.floats(0.0, 0.95), **by_day),
)


@settings(max_examples=50)
@given(season=seasons)
def test_the_product_of_the_factors_is_the_mean_hazard(season: tuple[np.ndarray, ...]) -> None:
    found = table(*season)
    assert found.shape == (BLOCKS, len(FACTORS))
    assert np.isfinite(found).all()
    np.testing.assert_allclose(found.prod(axis=1), hazard(*season), rtol=1e-12, atol=1e-300)


@settings(max_examples=50)
@given(season=seasons, scale=st.floats(0.01, 1.0))
def test_a_factor_scaled_on_every_day_scales_its_own_column_and_no_other(season, scale) -> None:
    site, weather, cultivar, age, stage, home, incoming, protection = season
    before = table(*season)
    scaled = (site, weather, cultivar, age, stage * scale, home, incoming, protection)
    after = table(*scaled)
    column = [factor.name for factor in FACTORS].index("stage")
    others = np.arange(len(FACTORS)) != column
    np.testing.assert_allclose(after[:, column], before[:, column] * scale, rtol=1e-12)
    np.testing.assert_allclose(after[:, others], before[:, others], rtol=1e-12)


@settings(max_examples=50)
@given(season=seasons)
def test_without_a_pool_the_pool_factor_is_exactly_one(season) -> None:
    site, _, *rest = season
    found = table(site, site, *rest)
    assert (found[:, 1] == 1.0).all()


@settings(max_examples=50)
@given(season=seasons, order=st.permutations(range(DAYS)))
def test_the_order_of_the_days_does_not_matter(season, order) -> None:
    turned = [array[:, order] if array.ndim == 2 else array for array in season]
    np.testing.assert_allclose(table(*turned), table(*season), rtol=1e-9)


def test_a_block_favourable_only_because_of_its_pool_gives_it_all_to_the_pool() -> None:
    one = np.ones((1, 2))
    constant = (np.ones(1), np.ones(1))
    found = table(0 * one, 0.3 * one, *constant, one, one, 0 * one, 0 * one)
    np.testing.assert_allclose(found[0, :2], [1.0, 0.3])


def test_unknown_weather_makes_the_block_unknown_and_no_other() -> None:
    one = np.ones((2, 2))
    weather = np.array([[np.nan, 1.0], [0.5, 0.5]])
    constant = (np.ones(2), np.ones(2))
    found = table(weather, weather, *constant, one, one, 0 * one, 0 * one)
    assert np.isnan(found.prod(axis=1)).tolist() == [True, False]


@pytest.mark.parametrize("factor", FACTORS, ids=lambda factor: factor.name)
def test_a_factor_says_what_it_rests_on(factor) -> None:
    assert factor.standing in STANDINGS
