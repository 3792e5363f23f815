"""Today is the day of the last measured hour."""

import numpy as np
import pytest
import xarray as xr

from geo.season.today import today_index, today_of
from tests.laws.made_season import made_season


@pytest.mark.parametrize(("last_measured", "today"), [(0, 0), (23, 0), (24, 1), (71, 2)])
def test_today_is_the_day_of_the_last_measured_hour(last_measured: int, today: int) -> None:
    hour = np.arange(72)
    season = xr.Dataset(
        {"hour_day": ("hour", hour // 24), "is_forecast": ("hour", 1 * (hour > last_measured))}
    )
    assert today_index(season) == today


def test_ages_count_from_the_farms_own_today_even_beyond_the_season() -> None:
    season = made_season()
    assert today_of(season) == today_index(season)
    last = season.day.values[-1].astype("datetime64[D]")
    later = season.assign_attrs(today=str(last + 3))
    assert today_of(later) == season.sizes["day"] + 2
