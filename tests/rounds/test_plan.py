"""Today's spray order: by loss for each hour, and a gate that decides who is in it, never where."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
import xarray as xr

from geo.rounds.order import SprayOrder
from geo.rounds.plan import plan_spray_order
from geo.season import Farm
from geo.windows import Windows, spray_windows
from geo.windows.rules import heat_limit
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_season, made_through, permuted, replaced, through

TODAY = 5


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return made_through()


def ordered(farm: Farm, season: xr.Dataset) -> SprayOrder:
    """Return the order under every rule that the season and the farm are asked."""
    return plan_spray_order(farm, season, spray_windows(farm, season))


def warm(season: xr.Dataset, heat: dict[tuple[int, int], float]) -> xr.Dataset:
    """
    Return the season with 25 degC as each day's maximum, but for some blocks and days.

    Its reapply line is so high that no block counts as protected.
    """
    warmth = np.full((5, 9), 25.0)
    for place, value in heat.items():
        warmth[place] = value
    return replaced(season, day_maximum_temperature=warmth).assign_attrs(reapply_line=0.9)


def bare(season: xr.Dataset, hazard: list[float]) -> xr.Dataset:
    """Return the season without protection or growth, each block with one hazard on all days."""
    by_day = np.repeat(np.array(hazard)[:, None], 9, axis=1)
    alike = {"protection_left": np.zeros((5, 9)), "organ_size": np.ones((5, 9))}
    return replaced(warm(season, {}), hazard=by_day, hazard_ahead=hazard, **alike)


NOON = tuple([6, 7] for _ in range(5))


def open_in(season: xr.Dataset, farm: Farm, *hours: list[int]) -> Windows:
    """Return windows in which the first blocks are open in these hours, and nothing else is."""
    windows = spray_windows(farm, season)
    closed = np.ones(windows.is_closed.shape, dtype=bool)
    for block, places in enumerate(hours):
        closed[block, places] = False
    return replace(windows, is_closed=closed)


def test_the_block_that_loses_most_for_each_hour_is_first(season) -> None:
    order = ordered(made_farm(sprayer_hours_per_hectare=0.5), warm(season, {}))
    losses = [entry.per_hour for entry in order.entries]
    assert losses == sorted(losses, reverse=True)
    for entry in order.entries:
        assert entry.per_hour == pytest.approx(entry.avoidable / entry.sprayer_hours, rel=1e-5)
        assert entry.avoidable_low < entry.avoidable < entry.avoidable_high
    assert [entry.rank for entry in order.entries] == [1, 2, 3, 4, 5]
    assert order.cannot_now == ()
    assert order.not_worth == ()
    assert (order.material, order.horizon_days) == ("sulfur", 3)


def test_no_window_for_days_outranks_more_hazard_that_can_be_sprayed_tomorrow(season) -> None:
    farm = made_farm()
    # Today at noon for both; block 2 tomorrow again, block 1 not before the forecast ends.
    of_both = bare(season, [0.05, 0.07, 0.0, 0.0, 0.0])
    windows = open_in(of_both, farm, [6, 7], [6, 7, 30, 31])
    first, second = plan_spray_order(farm, of_both, windows).entries
    assert (first.block, second.block) == ("B1", "B2")
    assert first.hazard < second.hazard
    assert first.next_window is None
    assert second.next_window is not None
    assert second.next_window.isoformat() == "2026-02-07T12:00:00"
    assert "Not open again within the forecast: left until its end, Tue 10 Feb 00:00" in (
        first.waiting
    )
    assert second.waiting.startswith("Left until it is next open, Sat 7 Feb 12:00, it loses ")
    both_tomorrow = open_in(of_both, farm, [6, 7, 30, 31], [6, 7, 30, 31])
    turned = plan_spray_order(farm, of_both, both_tomorrow).entries
    assert [entry.block for entry in turned] == ["B2", "B1"]


def test_hours_decide_and_size_alone_does_not(season) -> None:
    # Twice the area loses twice as much and takes twice as long.
    wide = replaced(bare(season, [0.5] * 5), area=np.array([1.0, 2.0, 4.0, 0.5, 3.0]))
    farm = made_farm(sprayer_hours_per_hectare=0.4)
    order = plan_spray_order(farm, wide, open_in(wide, farm, *NOON))
    assert {entry.rank for entry in order.entries} == {1}
    losses = [entry.avoidable for entry in order.entries]
    hours = [entry.sprayer_hours for entry in order.entries]
    np.testing.assert_allclose(np.divide(losses, hours), order.entries[0].per_hour, rtol=1e-5)


def test_without_hours_the_order_goes_by_the_hectare_and_says_nothing_of_hours(season) -> None:
    some = bare(season, [0.5, 0.4, 0.3, 0.2, 0.1])
    with_hours = ordered(made_farm(sprayer_hours_per_hectare=0.5), some)
    without = ordered(made_farm(), some)
    assert [e.block for e in without.entries] == [e.block for e in with_hours.entries]
    assert all(entry.waiting.endswith("would avoid.") for entry in without.entries)
    assert all(entry.waiting.endswith(" an hour of sprayer.") for entry in with_hours.entries)
    for entry in without.entries:
        assert entry.per_hour == pytest.approx(entry.avoidable / entry.area, rel=1e-5)


def test_what_is_protected_until_its_next_hours_stands_apart(season) -> None:
    left = np.zeros((5, 9))
    left[1] = 0.5
    left[2] = np.linspace(0.6, 0.2, 9)  # falls below the line before the forecast ends
    half = replaced(bare(season, [0.5] * 5), protection_left=left).assign_attrs(reapply_line=0.3)
    order = ordered(made_farm(), half)
    (apart,) = order.not_worth
    assert (apart.block, apart.protection) == ("B2", 0.5)
    assert apart.reason == (
        "Its sprays still prevent 0.50 or more until the forecast ends, Tue 10 Feb 00:00, above "
        "the reapply line of 0.30."
    )
    listed = {one.block for one in (*order.entries, *order.not_worth)}
    assert listed == {"B1", "B2", "B3", "B4", "B5"}


def test_sulfur_is_not_worth_it_against_anthracnose(season) -> None:
    of_anthracnose = bare(season, [0.5] * 5).assign_coords(disease="blossom_anthracnose")
    order = ordered(made_farm(), of_anthracnose)
    assert order.entries == ()
    assert {one.reason for one in order.not_worth} == {
        (
            "Sulfur would avoid next to nothing of anthracnose on blossom until the forecast "
            "ends, Tue 10 Feb 00:00."
        )
    }
    assert len(ordered(made_farm(material="copper"), of_anthracnose).entries) == 5


def test_a_hazard_that_begins_after_the_next_hours_can_wait_for_them(season) -> None:
    farm = made_farm()
    later = bare(season, [0.5] * 5)
    hazard = later.hazard.values.copy()
    hazard[:, : TODAY + 2] = 0.0
    later = replaced(later, hazard=hazard)
    windows = open_in(later, farm, *([6, 7, 30, 31] for _ in range(5)))
    reasons = {one.reason for one in plan_spray_order(farm, later, windows).not_worth}
    assert reasons == {"No hazard is expected until it is next open, Sat 7 Feb 12:00."}


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
        "Sulfur: 31.2 °C forecast for Sat 7 Feb, at or above the limit of 29.4 °C on the day "
        "of the spray and the three days after. Heat closed this block on 4 of the 9 days of this "
        "month that are known. Hours of the day are closed by other rules too: Too little wind, "
        "drops hang (4 h); Delta T too small, drops hang (3 h); Inversion likely, hours of sun "
        "around it (3 h). Not open again within the forecast."
    )
    assert "common practice, no source" in closed.standing


def test_a_day_hot_today_clears_as_soon_as_four_cool_days_are_known() -> None:
    season = made_through()
    order = ordered(made_farm(), warm(season, {(block, TODAY): 30.0 for block in range(5)}))
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
    assert closed.reason.endswith("Open again from Wed 4 Feb 10:00.")


def test_a_forecast_too_short_closes_every_block(season) -> None:
    order = ordered(made_farm(), warm(season, {(b, 8): np.nan for b in range(5)}))
    assert order.entries == ()
    hazards = [closed.hazard for closed in order.cannot_now]
    assert hazards == sorted(hazards, reverse=True)
    first = order.cannot_now[0]
    assert first.value is None
    assert first.reason.startswith("Sulfur: no forecast for Mon 9 Feb, and unknown is closed. ")
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


def test_equal_losses_share_a_rank(season) -> None:
    some, farm = bare(season, [0.5, 0.7, 0.5, 0.2, 0.7]), made_farm()
    order = plan_spray_order(farm, some, open_in(some, farm, *NOON))
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
