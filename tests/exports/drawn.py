"""The made valley farm with names that try to be markup, and a block nothing is known of."""

from dataclasses import replace
from functools import cache

import numpy as np
import xarray as xr

from geo.season.farm import Farm
from tests.demo_run import demo_outcome
from tests.exports.made import HOSTILE, HOSTILE_TEMPLATE

UNKNOWN = "B23"
OF_DAYS = (
    "hazard",
    "favourability",
    "site_favourability",
    "stage_susceptibility",
    "day_minimum_temperature",
    "day_mean_temperature",
    "day_maximum_temperature",
)


@cache
def hostile() -> tuple[Farm, xr.Dataset]:
    """Return farm and season; block B01 has a hostile id, B02 a hostile name and cultivar."""
    outcome = demo_outcome()
    ids = [HOSTILE if block == "B01" else block for block in outcome.season.block.values.tolist()]
    blocks = outcome.farm.blocks.set_axis(ids, axis=0).copy()
    blocks.loc["B02", ["name", "cultivar"]] = [HOSTILE_TEMPLATE, HOSTILE]
    season = outcome.season.assign_coords(block=ids).copy()
    for name in OF_DAYS:
        season[name] = season[name].where(season["block"] != UNKNOWN)
    season["hazard_ahead"] = season["hazard_ahead"].where(season["block"] != UNKNOWN)
    season["spray_material"] = season["spray_material"].astype("<U40")
    season["spray_material"][0] = HOSTILE
    return replace(outcome.farm, name=HOSTILE_TEMPLATE, blocks=blocks), season


def assert_inert(html: str) -> None:
    """Fail if a name became markup, or if the page may run or fetch anything."""
    assert HOSTILE not in html
    assert HOSTILE_TEMPLATE not in html
    assert "<script" not in html
    assert " style=" not in html
    assert "default-src 'none'; script-src 'none'; style-src 'sha256-" in html


def without_forecast(season: xr.Dataset) -> xr.Dataset:
    """Return the season up to today."""
    today = int(season.hour_day.values[season.is_forecast.values == 0][-1])
    hours = np.flatnonzero(season.hour_day.values <= today)
    return season.isel(day=slice(0, today + 1), hour=hours)
