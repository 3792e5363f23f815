"""What a held block says: one rule, its number, its limit, and the hour it clears."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
import xarray as xr

from geo.rounds.order import SprayOrder
from geo.rounds.plan import plan_spray_order
from geo.season import Farm
from geo.season.label import Label
from geo.windows import spray_windows
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_through, replaced
from tests.windows.test_ask import hourly, with_place

COPPER = made_farm(material="copper")


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return made_through()


def ordered(farm: Farm, season: xr.Dataset) -> SprayOrder:
    return plan_spray_order(farm, season, spray_windows(farm, season))


def test_an_open_block_says_when_it_is_open_and_what_warns(season) -> None:
    bloom = replaced(season, stage_progress=np.full((5, 9), 20.0))
    first = ordered(COPPER, bloom).entries[0]
    assert first.open_from is not None
    assert first.open_until is not None
    assert first.open_from.date() == date(2026, 2, 6)
    assert first.open_from < first.open_until
    (copper,) = (words for words in first.cautions if words.startswith("Copper in open bloom"))
    for side in ("russets apples", "no adverse effect", "spike emergence", "small fruit"):
        assert side in copper


def test_too_little_wind_all_day_names_value_hour_and_limit(season) -> None:
    calm = hourly(season, wind_speed=0.4)
    held = ordered(COPPER, calm).cannot_now[0]
    assert (held.rule, held.limit, held.unit) == ("wind-low", 0.83, "m s-1")
    assert held.reason.startswith("Too little wind, drops hang: ")
    assert " m s-1 at 06:00, limit 0.83 m s-1. Hours of the day are closed by other rules too" in (
        held.reason
    )
    assert "below 3 km/h" in held.standing
    assert held.clears is None


def test_what_is_not_known_is_closed_and_says_so(season) -> None:
    unknown = hourly(season, wind_speed=np.nan)
    held = ordered(COPPER, unknown).cannot_now[0]
    assert held.value is None
    assert "not known at 06:00, and unknown is closed" in held.reason


def test_a_label_without_the_number_says_that_the_limit_is_not_known(season) -> None:
    farm = replace(COPPER, labels=(Label("copper"),))
    held = ordered(farm, season).cannot_now[0]
    assert (held.rule, held.value, held.limit) == ("season-maximum", 2.0, None)
    assert "Uses of copper in a year: 2, limit not known" in held.reason.replace(" at 06:00", "")


def test_a_block_that_takes_longer_than_the_open_hours_says_by_how_much(season) -> None:
    farm = made_farm(material="copper", sprayer_hours_per_hectare=6.0)  # 14.4 h a block
    held = ordered(farm, season).cannot_now[0]
    assert (held.rule, held.limit, held.unit) == ("window-length", 15.0, "h")
    assert held.value is not None
    assert 0 < held.value < 15
    assert held.standing == "your own sprayer hours a hectare, rounded up to whole hours"


def test_water_downwind_tells_how_much_drifts_that_far(season) -> None:
    farm = with_place("water", metres_east=20.0, material="copper")
    towards = hourly(season, wind_from_direction=270.0)
    (held,) = ordered(farm, towards).cannot_now
    assert (held.block, held.rule, held.value) == ("B2", "buffer", 20.0)
    assert "Up to 2.8 % of the rate drifts that far (90th percentile)." in held.reason
