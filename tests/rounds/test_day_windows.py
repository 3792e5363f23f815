"""Minutes of the day: runs of open hours, what warns in them, and the wind of them."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import xarray as xr

from geo.rounds.day_windows import cautions_between, open_stretches, wind_of_day
from geo.windows.gate import Gate, Rule
from geo.windows.open_hours import Windows
from tests.demo_run import demo_outcome

FIRST = datetime(2026, 2, 18, 20, tzinfo=UTC)
STARTS = tuple(FIRST + timedelta(hours=hour) for hour in range(5))


def windows_of(is_open: str, *, caution: str = ".....") -> Windows:
    """Return five hours from 20:00 on, those open or warned of marked by an x."""
    rule = Rule("bees", "Bees may forage", 1.0, "1", "assumed", is_caution=True)
    gate = Gate(rule, np.array([[mark == "x" for mark in caution]]), np.zeros((1, 5)))
    return replace(
        demo_outcome().windows,
        start=STARTS,
        hour=np.arange(5.0),
        gates=(gate,),
        is_closed=np.array([[mark != "x" for mark in is_open]]),
    )


def test_hours_in_a_row_are_one_stretch_that_ends_with_the_day() -> None:
    windows = windows_of("x.xxx")
    assert open_stretches(windows, 0) == ((1200.0, 1260.0), (1320.0, 1440.0))
    assert open_stretches(windows_of("....x"), 0) == ()


def test_only_hours_that_are_touched_warn() -> None:
    windows = windows_of("xxxxx", caution=".x..x")
    half_past = FIRST + timedelta(minutes=30)
    assert cautions_between(windows, 0, half_past, STARTS[1]) == ()
    assert cautions_between(windows, 0, half_past, STARTS[1] + timedelta(minutes=1)) == (
        "Bees may forage",
    )
    assert cautions_between(windows, 0, STARTS[2], STARTS[3]) == ()


def test_the_wind_of_the_day_is_that_of_its_open_hours() -> None:
    season = xr.Dataset({"wind_from_direction": ("hour", [350.0, 90.0, 10.0, 180.0, 45.0])})
    assert round(wind_of_day(season, windows_of("x.x.x"))) % 360 == 0
    assert wind_of_day(season, windows_of(".x...")) == 90.0


def test_an_unknown_wind_or_no_open_hour_gives_no_direction() -> None:
    season = xr.Dataset({"wind_from_direction": ("hour", [np.nan] * 5)})
    assert np.isnan(wind_of_day(season, windows_of("xxxxx")))
    assert np.isnan(wind_of_day(season, windows_of(".....")))
