"""What stands in the way of a whole day is said once, with what to do about it."""

from dataclasses import replace

import numpy as np
import pytest
import xarray as xr

from geo.rounds.day_notes import day_notes
from geo.rounds.plan import plan_spray_order
from geo.season import Farm
from geo.season.label import Label
from geo.windows import spray_windows
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_through, replaced
from tests.windows.test_ask import hourly

COPPER = made_farm(material="copper")


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return made_through()


def notes(farm: Farm, season: xr.Dataset) -> tuple[str, ...]:
    return day_notes(farm, spray_windows(farm, season))


def test_a_day_like_any_other_has_none(season) -> None:
    assert notes(COPPER, season) == ()
    assert plan_spray_order(COPPER, season, spray_windows(COPPER, season)).notes == ()


def test_a_material_without_a_row_on_the_labels_is_named(season) -> None:
    farm = replace(made_farm(mixed_with="copper"), labels=(Label("sulfur"),))
    (first, *_) = notes(farm, season)
    assert first == (
        "Your label file has no usable row for copper, and unknown is closed: copy the row from "
        "the label."
    )


def test_no_forecast_is_said_with_what_to_do(season) -> None:
    measured = replaced(season, is_forecast=np.zeros(season.sizes["hour"], dtype=np.int64))
    (only,) = notes(COPPER, measured)
    assert only.startswith("No forecast hour lies ahead, and unknown is closed: give a forecast")
    assert plan_spray_order(COPPER, measured, spray_windows(COPPER, measured)).notes == (only,)


def test_a_forecast_of_two_days_is_too_short_for_sulfur_only(season) -> None:
    short = season.isel(hour=slice(0, 7 * 24), day=slice(0, 7))
    first, second = notes(made_farm(), short)
    assert first.startswith("The forecast ends on 2026-02-07: for sulfur 3 days after the day")
    assert "Sulfur and heat (100 %)" in second
    assert notes(COPPER, short) == ()


def test_a_day_without_an_open_hour_names_the_rules_that_close_most(season) -> None:
    (only,) = notes(COPPER, hourly(season, wind_speed=0.2))
    assert only.startswith(
        "No hour of today is open in any block. Most hours are closed by: Too little wind, drops "
        "hang (100 %); "
    )
    assert only.count("%") == 3
