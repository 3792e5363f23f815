"""When each block is looked at, on the farm's clocks."""

from dataclasses import replace
from datetime import datetime

import numpy as np
import pytest
import xarray as xr

from geo.scouting.morning import morning_of
from geo.season.label import Label
from tests.laws.made_farm import made_farm
from tests.laws.made_season import LAST_MEASURED_HOUR, made_through, replaced

NOW = LAST_MEASURED_HOUR + 1.0


def at(clock: str) -> datetime:
    return datetime.fromisoformat(f"2026-02-06T{clock}")


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    ranked = made_through()
    cool = np.full(ranked.air_temperature_at_spot.shape, 20.0)
    return replaced(ranked, air_temperature_at_spot=cool)


def test_each_block_is_open_but_for_re_entry(season: xr.Dataset) -> None:
    blocks = [str(block) for block in season.block.values]
    sprayed = season.drop_dims("spray").assign(
        spray_block=("spray", np.array([0, 1])),
        spray_hour=("spray", np.array([NOW - 23.0, NOW - 30.0])),
        spray_material=("spray", np.array(["sulfur", "penconazole"])),
    )
    farm = replace(made_farm(), labels=(Label("sulfur", re_entry_hours=24.0), Label("penconazole")))
    morning = morning_of(farm, sprayed)
    assert morning is not None
    assert morning.opens == at("06:24")
    assert morning.closes == at("10:24")
    assert morning.re_entry_ends == {blocks[0]: at("07:00"), blocks[1]: None}
    assert morning.hours[blocks[0]] == (at("07:00"), morning.closes)
    assert blocks[1] not in morning.hours
    assert morning.hours[blocks[2]] == (morning.opens, morning.closes)
    assert morning.words.startswith("Walk on 6 February")


def test_where_the_sun_does_not_rise_there_is_no_morning(season: xr.Dataset) -> None:
    night = season.assign(sunrise=season.sunrise * np.nan)
    assert morning_of(made_farm(), night) is None
