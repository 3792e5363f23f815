"""The layer of rival rules: a two-day example by hand, and that nothing is blended in."""

import numpy as np
import pytest
import xarray as xr

from geo.pipeline.order import ORDER
from geo.rules import RIVALS, RULES
from tests.laws.made_season import made_before, made_season, through

HOURS_PER_DAY = 24


def two_days() -> xr.Dataset:
    """
    Return two spots and a block on each, and one half way between them.

    First day: 10 hours at 18 degC and 85 %, the rest at 25 degC and 60 %. Second day: 12 hours of
    wet air at 25 degC at the first spot after a rain of 1 mm in the first hour; dry at the second.
    """
    first = np.repeat([18.0, 25.0], [10, 14])
    air = np.tile(np.concatenate([first, np.full(24, 25.0)]), (2, 1))
    damp = np.tile(np.concatenate([np.repeat([85.0, 60.0], [10, 14]), np.full(24, 60.0)]), (2, 1))
    damp[0, 24:36] = 97.0
    rain = np.zeros(48)
    rain[5], rain[24] = 0.5, 1.0
    return xr.Dataset(
        {
            "air_temperature_at_spot": (("spot", "hour"), air),
            "relative_humidity_at_spot": (("spot", "hour"), damp),
            "precipitation": (("hour",), rain),
            "hour_day": (("hour",), np.arange(48) // HOURS_PER_DAY),
            "spot_of_block": (("block", "corner"), [[0, 1], [1, 0], [0, 1]]),
            "spot_weight": (("block", "corner"), [[1.0, 0.0], [1.0, 0.0], [0.5, 0.5]]),
        },
        coords={"block": ["low", "high", "between"], "day": np.arange(2)},
    )


def readings(rule: str) -> np.ndarray:
    return RULES.add_to(two_days()).rule_reading.sel(rule=rule).values


@pytest.mark.common_practice("the field rule counts no hour with rain")
def test_nine_hours_of_ten_count_for_the_field_rule() -> None:
    np.testing.assert_array_equal(readings("field_rule"), [[9.0, 0.0]] * 3)


@pytest.mark.published("gubler_thomas", "6 continuous hours at 21-30 degC; three days to start")
def test_two_warm_days_bring_the_grape_index_to_40() -> None:
    np.testing.assert_array_equal(readings("grape_index"), [[20.0, 40.0]] * 3)
    np.testing.assert_array_equal(readings("grape_index_2013"), [[20.0, 40.0]] * 3)


@pytest.mark.published("magarey2005", "wet hours over the hours needed, 6 at the optimum")
def test_twelve_wet_hours_at_the_optimum_are_twice_the_hours_needed() -> None:
    # The drizzle of the first day wets one hour at 18 degC, of 9.062 needed.
    drizzle = 1.0 / 9.062
    expected = [[drizzle, 2.0], [drizzle, 1.0 / 6.0], [drizzle, (2.0 + 1.0 / 6.0) / 2.0]]
    np.testing.assert_allclose(readings("generic_wetness"), expected, rtol=1e-4)


def test_the_infected_share_is_that_of_our_curve_in_per_cent() -> None:
    wet, dry, between = readings("appressoria")[:, 1]
    assert wet == pytest.approx(100.0 * (1.0 - np.exp(-((12.0 / 12.6) ** 2))))
    assert 0.0 < dry < 1.0
    assert between == pytest.approx((wet + dry) / 2.0)


def test_the_hazard_and_all_else_is_the_same_without_the_rules() -> None:
    season, without = made_season(), made_season()
    for layer in ORDER:
        if layer is not RULES:
            assert "rule_reading" not in {need.name for need in layer.needs}
            without = layer.add_to(without)
    xr.testing.assert_identical(through(season).drop_dims("rule"), without)


def test_rules_of_the_made_season_are_known_everywhere() -> None:
    given = RULES.compute(made_before(RULES)).rule_reading
    assert np.isfinite(given.values).all()
    assert given["rule"].values.tolist() == [rival.key for rival in RIVALS]
