"""Today's spray order: by hazard, and a gate that decides who is in it and never where."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
import xarray as xr

from geo.rounds.order import SprayOrder
from geo.rounds.plan import plan_spray_order
from geo.season import Farm
from geo.windows import spray_windows
from geo.windows.rules import heat_limit
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_season, permuted, replaced, through

TODAY = 5


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return through(made_season())


def ordered(farm: Farm, season: xr.Dataset) -> SprayOrder:
    """Return the order under every rule that the season and the farm are asked."""
    return plan_spray_order(farm, season, spray_windows(farm, season))


def warm(season: xr.Dataset, heat: dict[tuple[int, int], float]) -> xr.Dataset:
    """Return the season with 25 degC as each day's maximum, but for some blocks and days."""
    warmth = np.full((5, 9), 25.0)
    for place, value in heat.items():
        warmth[place] = value
    return replaced(season, day_maximum_temperature=warmth)


def test_the_most_hazardous_block_is_first(season) -> None:
    order = ordered(made_farm(), warm(season, {}))
    hazards = [entry.hazard for entry in order.entries]
    assert hazards == sorted(hazards, reverse=True)
    assert [entry.rank for entry in order.entries] == [1, 2, 3, 4, 5]
    assert order.cannot_now == ()
    assert (order.material, order.horizon_days) == ("sulfur", 3)


def test_ratios_are_quoted_against_the_middle_block(season) -> None:
    order = ordered(made_farm(), warm(season, {}))
    assert order.reference_block == order.entries[2].block
    middle = order.entries[2]
    assert middle.ratio == 1.0
    assert middle.reason == f"This is the block that ratios are quoted against: {middle.block}."
    for entry in order.entries:
        assert entry.ratio == pytest.approx(entry.hazard / middle.hazard)
        assert entry.low <= entry.ratio <= entry.high


def test_the_user_may_name_the_reference_block_and_the_sprayers_time(season) -> None:
    farm = made_farm(reference_block="B4", sprayer_hours_per_hectare=0.5)
    order = ordered(farm, warm(season, {}))
    assert order.reference_block == "B4"
    assert [entry.ratio for entry in order.entries if entry.block == "B4"] == [1.0]
    assert all(entry.sprayer_hours == pytest.approx(1.2) for entry in order.entries)
    without = ordered(made_farm(), warm(season, {}))
    assert all(entry.sprayer_hours is None for entry in without.entries)


def test_a_hot_block_leaves_the_order_and_the_others_keep_theirs(season) -> None:
    all_in = ordered(made_farm(), warm(season, {}))
    order = ordered(made_farm(), warm(season, {(1, TODAY + 1): 31.25}))
    left = [entry.block for entry in all_in.entries if entry.block != "B2"]
    assert [entry.block for entry in order.entries] == left
    (closed,) = order.cannot_now
    assert (closed.block, closed.rule, closed.unit) == ("B2", "sulfur-heat", "degC")
    assert (closed.value, closed.limit) == (31.25, 29.4)
    assert closed.day == date(2026, 2, 7)
    assert closed.clears is None
    assert closed.reason == (
        "Sulfur: 31.2 °C forecast for 2026-02-07, at or above the limit of 29.4 °C on the day "
        "of the spray and the three days after. Heat closed this block on 4 of the 9 days of this "
        "month that are known. Hours of the day are closed by other rules too: wind-low (4 h), "
        "delta-t-low (3 h), inversion (3 h). Not open again within the forecast."
    )
    assert "common practice, no source" in closed.standing


def test_a_day_hot_today_clears_as_soon_as_four_cool_days_are_known() -> None:
    season = through(made_season())
    longer = season.pad(day=(0, 0))
    order = ordered(made_farm(), warm(longer, {(block, TODAY): 30.0 for block in range(5)}))
    assert order.entries == ()
    # The forecast ends on day 8: cool days 6, 7 and 8 alone do not clear day 6.
    assert {closed.clears for closed in order.cannot_now} == {None}
    cooler = ordered(made_farm(), warm(season, {(0, TODAY - 1): 35.0}))
    assert len(cooler.entries) == 5


def test_a_block_that_clears_says_when() -> None:
    # Measured until day 1 only, so that there is forecast enough to clear in.
    early = made_season()
    is_forecast = (early.hour_day.values > 1).astype(np.int64)
    season = through(replaced(early, is_forecast=is_forecast))
    farm = replace(made_farm(), today=date(2026, 2, 2))
    order = ordered(farm, warm(season, {(2, 2): 33.0}))
    (closed,) = order.cannot_now
    assert closed.clears is not None
    assert closed.clears.isoformat() == "2026-02-04T10:00:00"
    assert closed.reason.endswith("Open again from 2026-02-04 10:00.")


def test_a_forecast_too_short_closes_every_block(season) -> None:
    order = ordered(made_farm(), warm(season, {(b, 8): np.nan for b in range(5)}))
    assert order.entries == ()
    hazards = [closed.hazard for closed in order.cannot_now]
    assert hazards == sorted(hazards, reverse=True)
    first = order.cannot_now[0]
    assert first.value is None
    assert first.reason.startswith("Sulfur: no forecast for 2026-02-09, and unknown is closed. ")
    assert first.reason.endswith("Not open again within the forecast.")


def test_other_materials_know_no_heat_gate(season) -> None:
    hot = warm(season, {(block, TODAY): 38.0 for block in range(5)})
    order = ordered(made_farm(material="copper"), hot)
    assert len(order.entries) == 5
    assert order.cannot_now == ()


def test_the_users_own_limit_is_taken_with_its_reason(season) -> None:
    farm = made_farm(sulfur_limit=24.0, sulfur_limit_reason="the label in the store says so")
    assert heat_limit(farm) == (24.0, "set by the user: the label in the store says so")
    order = ordered(farm, warm(season, {}))
    assert len(order.cannot_now) == 5
    assert order.cannot_now[0].limit == 24.0


def test_a_block_of_unknown_hazard_is_not_ranked_and_says_so(season) -> None:
    hazard, factors = season.hazard_ahead.values.copy(), season.factors.values.copy()
    hazard[1], factors[1] = np.nan, np.nan
    unknown = warm(replaced(season, hazard_ahead=hazard, factors=factors), {})
    order = ordered(made_farm(), unknown)
    assert len(order.entries) == 4
    (rest,) = order.not_ranked
    assert rest.block == "B2"
    assert rest.reason.startswith("Hazard not known")
    against = ordered(made_farm(reference_block="B2"), unknown)
    assert against.entries[0].reason == "The hazard of B2 is not known, so there is no ratio to it."


def test_without_any_hazard_there_is_nothing_to_spray(season) -> None:
    nothing = replaced(
        season, hazard_ahead=np.zeros(5), factors=np.where(np.arange(8) == 3, 0.0, np.ones((5, 8)))
    )
    order = ordered(made_farm(), warm(nothing, {(0, TODAY): 40.0}))
    assert (order.reference_block, order.entries, order.cannot_now) == ("B1", (), ())
    reasons = {rest.reason for rest in order.not_ranked}
    assert reasons == {"No hazard ahead: no tissue is at a susceptible stage."}


def test_equal_hazards_share_a_rank(season) -> None:
    hazard = np.array([0.5, 0.7, 0.5, 0.2, 0.7])
    order = ordered(made_farm(), warm(replaced(season, hazard_ahead=hazard), {}))
    ranks = {entry.block: entry.rank for entry in order.entries}
    assert ranks == {"B2": 1, "B5": 1, "B1": 3, "B3": 3, "B4": 5}


def test_a_day_the_forecast_does_not_reach_is_closed(season) -> None:
    farm = replace(made_farm(), today=date(2026, 2, 10))  # the season ends on the 9th
    order = ordered(farm, warm(season, {(0, 8): 40.0}))
    assert order.entries == ()
    assert {held.rule for held in order.cannot_now} == {"no-forecast"}
    assert order.cannot_now[0].reason == (
        "Hours of forecast left on the day: 0 h, limit 1 h. Not open again within the forecast."
    )


def test_the_order_does_not_hang_on_how_blocks_are_written_down() -> None:
    season = made_season()
    turned = through(permuted(season, [3, 0, 4, 2, 1]))
    first, second = (
        ordered(made_farm(material="copper"), one) for one in (through(season), turned)
    )
    assert [entry.block for entry in first.entries] == [entry.block for entry in second.entries]
