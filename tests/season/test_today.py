"""Today is the day of the last measured hour."""

import numpy as np
import pytest
import xarray as xr

from geo.season.today import today_index


@pytest.mark.parametrize(("last_measured", "today"), [(0, 0), (23, 0), (24, 1), (71, 2)])
def test_today_is_the_day_of_the_last_measured_hour(last_measured: int, today: int) -> None:
    hour = np.arange(72)
    season = xr.Dataset(
        {"hour_day": ("hour", hour // 24), "is_forecast": ("hour", 1 * (hour > last_measured))}
    )
    assert today_index(season) == today
