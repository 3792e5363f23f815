"""A season split between two days, its pools carried over, has the weather of the whole."""

import numpy as np
import xarray as xr
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.weather import WEATHER
from geo.weather.last_night import last_night_hour
from tests.laws.made_season import (
    DAYS_PER_SEASON,
    HOURS_PER_DAY,
    before,
    made_before,
    made_season,
    replaced,
)

# A night that is cut at midnight is none of either part's own.
OF_THE_NIGHT = ("last_night_hour", "last_night_temperature_grid")


def part(season: xr.Dataset, days: slice, *, pool_strength_before: float = 0.0) -> xr.Dataset:
    hours = slice(days.start * HOURS_PER_DAY, days.stop * HOURS_PER_DAY)
    some = season.isel(day=days, hour=hours)
    return replaced(
        some,
        hour_day=some.hour_day.values - days.start,
        pool_strength_before=pool_strength_before,
    )


@settings(max_examples=20)
@given(
    cut=st.integers(1, DAYS_PER_SEASON - 1),
    seed=st.integers(0, 99),
    began_with=st.floats(0.0, 1.2),
)
def test_two_parts_have_the_hours_and_days_of_the_whole(
    cut: int, seed: int, began_with: float
) -> None:
    season = replaced(before(made_season(seed=seed), WEATHER), pool_strength_before=began_with)
    whole = WEATHER.add_to(season)
    first = WEATHER.add_to(part(season, slice(0, cut), pool_strength_before=began_with))
    carried = float(first.pool_strength[-1])
    last = WEATHER.add_to(part(season, slice(cut, DAYS_PER_SEASON), pool_strength_before=carried))
    for variable in WEATHER.gives:
        if variable.name in OF_THE_NIGHT:
            continue
        parts = [one[variable.name] for one in (first, last)]
        along = next((name for name in ("hour", "day") if name in variable.dims), None)
        if along is None:
            xr.testing.assert_identical(parts[0], parts[1])
        else:
            axis = variable.dims.index(along)
            joined = np.concatenate([one.values for one in parts], axis=axis)
            # Days are summed over other arrays: the last digit may differ.
            np.testing.assert_allclose(
                joined, whole[variable.name], rtol=1e-12, atol=1e-12, err_msg=variable.name
            )


def test_without_what_it_carries_a_part_that_begins_at_night_is_warmer() -> None:
    season = made_before(WEATHER)
    first = WEATHER.add_to(part(season, slice(0, 3)))
    carried = float(first.pool_strength[-1])
    assert carried > 0.1
    rest = slice(3, DAYS_PER_SEASON)
    alone = WEATHER.add_to(part(season, rest))
    continued = WEATHER.add_to(part(season, rest, pool_strength_before=carried))
    assert float(continued.day_minimum_temperature[2, 0]) < float(
        alone.day_minimum_temperature[2, 0]
    )


def test_the_last_night_is_that_of_the_part_that_holds_it() -> None:
    season = made_before(WEATHER)
    whole = WEATHER.add_to(season)
    cut = int(whole.last_night_hour) // HOURS_PER_DAY - 1
    assert cut > 0
    first = WEATHER.add_to(part(season, slice(0, cut)))
    carried = float(first.pool_strength[-1])
    last = WEATHER.add_to(part(season, slice(cut, DAYS_PER_SEASON), pool_strength_before=carried))
    assert int(last.last_night_hour) + cut * HOURS_PER_DAY == int(whole.last_night_hour)
    np.testing.assert_allclose(
        last.last_night_temperature_grid, whole.last_night_temperature_grid, rtol=1e-6
    )
    hourly = ("air_temperature", "solar_elevation", "is_forecast")
    assert int(whole.last_night_hour) == last_night_hour(*(season[name].values for name in hourly))
