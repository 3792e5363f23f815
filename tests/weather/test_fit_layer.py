"""The layer that fits pools: with loggers, and without."""

import numpy as np
import pytest

from geo.weather import POOLS, WEATHER
from tests.laws.made_season import made_before, replaced

SIZES = ("pool_full_strength", "pool_scale_depth")


def test_without_loggers_the_pools_are_those_of_the_table() -> None:
    given = POOLS.add_to(made_before(POOLS).isel(logger=[]))
    assert [float(given[name]) for name in SIZES] == [6.0, 30.0]
    assert [float(given[f"{name}_low"]) for name in SIZES] == [3.0, 15.0]
    assert [float(given[f"{name}_high"]) for name in SIZES] == [8.0, 60.0]
    assert [float(given[f"{name}_prior_share"]) for name in SIZES] == [1.0, 1.0]


def test_two_loggers_tell_something() -> None:
    given = POOLS.add_to(made_before(POOLS))
    for name in SIZES:
        assert float(given[f"{name}_low"]) < float(given[name]) < float(given[f"{name}_high"])
    assert float(given.pool_full_strength_prior_share) < 0.999


def test_the_weather_is_made_with_the_fitted_pools() -> None:
    season = made_before(WEATHER)
    weak = WEATHER.compute(replaced(season, pool_full_strength=3.0))
    strong = WEATHER.compute(replaced(season, pool_full_strength=8.0))
    in_hollow = 2
    assert (
        strong.day_minimum_temperature[in_hollow].values.min()
        < weak.day_minimum_temperature[in_hollow].values.min() - 0.5
    )
    assert float(strong.pool_strength.max()) > float(weak.pool_strength.max())


@pytest.mark.parametrize("cell", [0, 1])
def test_a_logger_on_unknown_ground_is_left_out(cell: int) -> None:
    season = made_before(POOLS)
    depth = season.pool_depth_grid.values.copy()
    depth.ravel()[season.logger_cell.values[cell]] = np.nan
    given = POOLS.add_to(replaced(season, pool_depth_grid=depth))
    assert float(given.pool_scale_depth_prior_share) == 1.0
