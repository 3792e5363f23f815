"""When to walk: from first light, before heat, outside re-entry."""

from dataclasses import replace

import numpy as np
import pytest
import xarray as xr

from geo.scouting import plan_scouting_order, walk_hours
from geo.scouting.walk_hours import WalkHours
from geo.scouting.when import block_words, farm_words
from geo.season.farm import Farm
from geo.season.label import Label
from tests.laws.made_farm import made_farm
from tests.laws.made_season import LAST_MEASURED_HOUR, made_through, replaced

NOW = LAST_MEASURED_HOUR + 1.0  # 6 February, 06:00
SUNRISE = 5 * 24 + 6.4
MILDEW = "powdery mildew"
LABELS = (Label("sulfur", re_entry_hours=24.0), Label("penconazole"))


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    """Return the made season, cool enough to walk at any hour."""
    ranked = made_through()
    cool = np.full(ranked.air_temperature_at_spot.shape, 20.0)
    dry = np.zeros(ranked.dew.shape)
    return replaced(ranked, air_temperature_at_spot=cool, dew=dry)


def hours_of(season: xr.Dataset, farm: Farm | None = None) -> WalkHours:
    found = walk_hours(farm or made_farm(), season)
    assert found is not None
    return found


def sprayed(season: xr.Dataset, *sprays: tuple[int, float, str]) -> xr.Dataset:
    """Return the season with another diary: block, hour and material of each spray."""
    block, hour, material = zip(*sprays, strict=True)
    return season.drop_dims("spray").assign(
        spray_block=("spray", np.array(block)),
        spray_hour=("spray", np.array(hour)),
        spray_material=("spray", np.array(material)),
    )


def words(season: xr.Dataset, hours: WalkHours, block: int = 0, agent: str = MILDEW) -> str:
    return block_words(hours, season, block, agent=agent)


def test_a_walk_begins_at_sunrise_and_ends_while_growth_still_shows(season) -> None:
    hours = hours_of(season)
    assert (hours.sunrise, hours.start, hours.end) == (SUNRISE, SUNRISE, SUNRISE + 4)
    assert hours.is_open.all()
    assert str(hours.day) == "2026-02-06"
    assert words(season, hours) == "Walk on 6 February from 06:24 to 10:24."
    assert farm_words(hours).startswith("Walk on 6 February from 06:24 (sunrise) to 10:24, ")


def test_a_walk_that_could_have_begun_begins_now(season) -> None:
    late = replaced(season, is_forecast=(np.arange(216) > 5 * 24 + 7).astype(np.int64))
    hours = hours_of(late)
    assert hours.start == 5 * 24 + 8
    assert "from 08:00 (now; the sun is up) to 10:24" in farm_words(hours)


def test_after_the_morning_the_next_one_is_planned(season) -> None:
    late = replaced(season, is_forecast=(np.arange(216) > 5 * 24 + 10).astype(np.int64))
    assert str(hours_of(late).day) == "2026-02-07"


def test_heat_ends_the_walk_of_a_block(season) -> None:
    air = season.air_temperature_at_spot.to_numpy().copy()
    air[:, 5 * 24 + 9 :] = 30.0
    hours = hours_of(replaced(season, air_temperature_at_spot=air))
    assert hours.block_end == pytest.approx(5 * 24 + 9)
    assert words(season, hours).endswith("to 09:00. 30 °C is forecast from 09:00 on.")


def test_nobody_is_sent_into_a_morning_that_is_hot_from_its_start(season) -> None:
    hot = replaced(season, air_temperature_at_spot=np.full_like(season.air_temperature_at_spot, 33))
    hours = hours_of(hot)
    assert not hours.is_open.any()
    assert words(hot, hours).startswith("30 °C or more is forecast from the start")
    entries = plan_scouting_order(made_farm(), hot).entries
    assert {(entry.chosen, entry.walk_from) for entry in entries} == {("closed", None)}


def test_without_a_forecast_the_sun_still_rises_and_heat_is_unknown(season) -> None:
    short = season.isel(hour=slice(0, 5 * 24), day=slice(0, 5))
    short = short.assign(is_forecast=("hour", np.zeros(5 * 24)))
    hours = hours_of(short)
    assert hours.sunrise == SUNRISE
    assert np.isnan([hours.rain, *hours.heat, *hours.is_dewy]).all()
    assert hours.is_open.all()
    assert words(short, hours).endswith("How warm it gets is not forecast.")


def test_weather_that_is_unknown_at_a_spot_is_said(season) -> None:
    unknown = np.full(season.air_temperature_at_spot.shape, np.nan)
    hours = hours_of(replaced(season, air_temperature_at_spot=unknown))
    assert "not forecast" in words(season, hours)


def test_re_entry_of_the_label_closes_a_block_until_its_hour(season) -> None:
    farm = replace(made_farm(), labels=LABELS)
    told = sprayed(season, (0, NOW - 23.0, "sulfur"), (1, NOW - 2.0, "sulfur"))
    hours = hours_of(told, farm)
    assert hours.block_start[:3].tolist() == pytest.approx([NOW + 1.0, NOW + 22.0, SUNRISE])
    assert words(told, hours) == (
        "Walk on 6 February from 07:00 to 10:24. "
        "Closed to people until 6 February 07:00: re-entry after sulfur of 5 February."
    )
    assert words(told, hours, 1) == (
        "Closed to people until 7 February 04:00: re-entry after sulfur of 6 February."
    )
    entries = plan_scouting_order(farm, told).entries
    assert (entries[-1].block, entries[-1].chosen) == ("B2", "closed")
    assert entries[-1].walk_from is entries[-1].walk_until is None
    assert entries[-1].reason.endswith("Last: closed to people in the hours of the walk.")
    first = next(entry for entry in entries if entry.block == "B1")
    assert f"{first.walk_from:%H:%M} {first.walk_until:%H:%M}" == "07:00 10:24"


@pytest.mark.parametrize("material", ["penconazole", "copper"])
def test_re_entry_that_no_label_tells_is_closed(season, material) -> None:
    farm = replace(made_farm(), labels=LABELS)
    told = sprayed(season, (0, NOW - 100.0, material), (1, NOW - 31 * 24.0, material))
    hours = hours_of(told, farm)
    assert hours.is_open.tolist() == [False, True, True, True, True]
    assert words(told, hours).startswith(
        f"Closed to people: re-entry after {material} of 2 February is not in your label file"
    )


def test_without_a_label_file_re_entry_is_not_asked_and_that_is_said(season) -> None:
    told = sprayed(season, (0, NOW - 1.0, "sulfur"), (1, NOW - 31 * 24.0, "sulfur"))
    order = plan_scouting_order(made_farm(), told)
    assert all(entry.walk_from for entry in order.entries)
    assert "Re-entry is not asked: no label file is named. Check the label." in order.when


def test_dew_is_said_as_each_disease_takes_it(season) -> None:
    wet = replaced(season, dew=np.full(season.dew.shape, 0.4))
    hours = hours_of(wet)
    assert words(wet, hours).endswith("Dew is likely: drops on white growth mark it.")
    assert "walk blocks with much disease last" in words(wet, hours, agent="anthracnose")


def test_rain_in_the_hours_of_the_walk_is_said(season) -> None:
    rain = np.zeros(season.sizes["hour"])
    rain[5 * 24 + 8] = 2.5
    assert "Rain is forecast in these hours (2.5 mm)." in farm_words(
        hours_of(replaced(season, precipitation=rain))
    )


def test_where_the_sun_does_not_rise_no_hours_are_told(season) -> None:
    dark = replaced(season, sunrise=np.full(season.sizes["day"], np.nan))
    assert walk_hours(made_farm(), dark) is None
    order = plan_scouting_order(made_farm(), dark)
    assert (
        order.when == order.entries[0].when == "When to walk is not known: the sun does not rise."
    )
    assert order.entries[0].walk_from is None


def test_the_rule_of_the_order_is_told_with_its_numbers(season) -> None:
    order = plan_scouting_order(made_farm(), season)
    assert order.rule.startswith("Blocks not counted for 14 days are due and come first; 10 % ")


def test_a_spray_of_an_unknown_material_closes_its_block_to_people(season) -> None:
    farm = replace(made_farm(), labels=LABELS)
    strange = season.drop_dims("act").assign(
        act_block=("act", np.array([0])),
        act_hour=("act", np.array([NOW - 10.0])),
        act_kind=("act", np.array(["unknown material"])),
    )
    strange = sprayed(strange, (1, NOW - 900.0, "sulfur"))
    hours = hours_of(strange, farm)
    assert hours.is_open.tolist() == [False, *[True] * (season.sizes["block"] - 1)]
    assert words(strange, hours).startswith("Closed to people: what was sprayed here")
    long_ago = strange.assign(act_hour=("act", np.array([NOW - 5000.0])))
    assert hours_of(long_ago, farm).is_open[0]
