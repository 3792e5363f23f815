"""The infection layer on the made season."""

import numpy as np

from geo.infection import INFECTION
from tests.laws.made_season import before, made_before, made_season, replaced


def test_a_cold_week_is_no_mildew_week() -> None:
    season = made_season()
    cold = replaced(season, air_temperature=season.air_temperature.values - 20.0)
    assert INFECTION.compute(before(cold, INFECTION)).favourability.values.max() < 0.01


def test_rain_modes_stand_in_the_order_of_their_names() -> None:
    by_mode = {
        mode: INFECTION.compute(made_before(INFECTION, rain_mode=mode))
        for mode in ("washoff", "neutral", "promote")
    }
    washed, neutral, promoted = (one.favourability.values for one in by_mode.values())
    assert (washed <= neutral).all()
    assert (neutral <= promoted).all()
    assert (washed[:, 2] < neutral[:, 2]).all()
    assert (neutral[:, 3] < promoted[:, 3]).all()


def test_the_site_is_the_block_without_its_pool() -> None:
    given = INFECTION.compute(made_before(INFECTION))
    site, block = given.site_favourability.values, given.favourability.values
    np.testing.assert_allclose(site[1], block[1])
    assert (site[2] != block[2]).any()
