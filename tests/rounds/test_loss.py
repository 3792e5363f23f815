"""What leaving a block costs: held against a loop over hours, and against the diary itself."""

import numpy as np
import pytest
import xarray as xr
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.protection import PROTECTION
from geo.rounds.loss import avoidable_loss
from geo.rounds.tank import tank_effect, tank_left
from geo.season.days import day_noons
from geo.windows import spray_windows
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_through, replaced

NOW, END = 5 * 24 + 6.0, 9 * 24.0
FARM = made_farm(material="sulfur")


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return made_through()


def at(hour: float) -> np.ndarray:
    return np.full(5, hour)


def with_spray(season: xr.Dataset, block: int, hour: float, *materials: str) -> xr.Dataset:
    """Return the season with one more application in the diary."""
    count = len(materials)
    added = {
        "spray_block": np.append(season.spray_block.values, [block] * count),
        "spray_hour": np.append(season.spray_hour.values, [hour] * count),
        "spray_material": np.append(season.spray_material.values, materials),
    }
    return season.drop_dims("spray").assign(
        {name: ("spray", array) for name, array in added.items()}
    )


@pytest.mark.parametrize("tank", [("sulfur",), ("penconazole",), ("copper", "penconazole")])
@pytest.mark.parametrize("hour", [NOW, NOW + 9.0])
def test_the_tank_protects_as_if_it_stood_in_the_diary(season, tank, hour) -> None:
    farm = made_farm(material=tank[0], mixed_with="".join(tank[1:]))
    days = slice(6, 9)
    noon = np.tile(day_noons(season.hour_day.values)[days], (5, 1))
    new = tank_left(farm, season, start=at(hour), when=noon, days=days)[1]
    for block in range(5):
        later = PROTECTION.add_to(with_spray(season, block, hour, *tank))
        expected = later.protection_left.values[block, days]
        old = season.protection_left.values[block, days]
        together = np.minimum(1.0 - (1.0 - old) * (1.0 - new[block]), 0.95)
        np.testing.assert_allclose(together, expected, rtol=1e-12)


def test_rain_before_it_is_dry_takes_most_of_it(season) -> None:
    wet = season.precipitation.values.copy()
    wet[int(NOW) + 3] = 1e-9
    days, when = slice(6, 9), np.full((5, 3), NOW + 40.0)
    dry_left, wet_left = (
        tank_left(FARM, one, start=at(NOW), when=when, days=days)
        for one in (season, replaced(season, precipitation=wet))
    )
    np.testing.assert_allclose(wet_left, 0.3 * dry_left, rtol=1e-6)


def test_the_effect_has_the_doubt_of_material_and_sprayer() -> None:
    knapsack = made_farm(sprayer="knapsack")
    np.testing.assert_allclose(
        tank_effect(knapsack, "sulfur", "panicle_mildew"), [0.6 * 0.3, 0.75 * 0.6, 0.85 * 0.8]
    )
    assert tank_effect(FARM, "sulfur", "fruit_anthracnose")[1] == 0.0
    assert tank_effect(FARM, "urea", "panicle_mildew").tolist() == [0.0, 0.0, 0.0]


def test_what_is_no_fungicide_protects_nothing(season) -> None:
    loss = avoidable_loss(made_farm(material="urea"), season, start=at(NOW), end=at(END))
    assert not loss.avoidable.any()
    assert loss.unsprayed.any()


def test_the_loss_is_the_sum_over_days_of_what_the_spray_keeps_out(season) -> None:
    end = NOW + 60.0
    loss = avoidable_loss(FARM, season, start=at(NOW), end=at(end))
    for block in range(5):
        total = without = 0.0
        for day in range(5, 9):
            first, last = max(NOW, 24.0 * day), min(end, 24.0 * (day + 1))
            if last <= first:
                continue
            share, middle = (last - first) / 24.0, (first + last) / 2.0
            later = with_spray(season, block, NOW, "sulfur")
            # Asked at its middle: the layer's own noon is at another hour of a part day.
            size = later.organ_size.values[block]
            grown = min(1.0, size[6 if NOW > 5 * 24 + 12 else 5] / size[day])
            new = 0.75 * 0.8 * 2.0 ** (-(middle - NOW) / 24.0 / 10.0) * grown
            rain = season.precipitation.values[int(NOW) : int(middle)].sum()
            new *= 2.0 ** (-rain / 25.0)
            old = float(season.protection_left.values[block, day])
            both = max(old, min(0.95, 1.0 - (1.0 - old) * (1.0 - new)))
            hazard = float(season.hazard.values[block, day]) * share
            without += hazard
            total += hazard * (both - old) / (1.0 - old)
        area = float(season.area.values[block])
        assert loss.avoidable[1, block] == pytest.approx(area * total, rel=1e-9)
        assert loss.unsprayed[block] == pytest.approx(area * without, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(first=st.floats(NOW, END), second=st.floats(NOW, END))
def test_a_later_window_never_costs_less(first, second) -> None:
    season = SEASON
    soon, late = sorted((first, second))
    less, more = (avoidable_loss(FARM, season, start=at(NOW), end=at(end)) for end in (soon, late))
    assert (less.avoidable <= more.avoidable + 1e-12).all()
    assert (less.unsprayed <= more.unsprayed + 1e-12).all()
    assert (less.least_protection >= more.least_protection).all()
    assert (more.avoidable[0] <= more.avoidable[1]).all()
    assert (more.avoidable[1] <= more.avoidable[2]).all()
    assert (more.avoidable[2] <= more.unsprayed + 1e-12).all()


def test_more_hazard_and_more_area_cost_in_proportion(season) -> None:
    once = avoidable_loss(FARM, season, start=at(NOW), end=at(END))
    larger = replaced(season, hazard=season.hazard.values * 3.0, area=season.area.values * 2.0)
    more = avoidable_loss(FARM, larger, start=at(NOW), end=at(END))
    np.testing.assert_allclose(more.avoidable, 6.0 * once.avoidable)


def test_days_that_are_not_known_add_nothing(season) -> None:
    hazard = season.hazard.values.copy()
    hazard[:, 7] = np.nan
    loss = avoidable_loss(FARM, replaced(season, hazard=hazard), start=at(NOW), end=at(END))
    assert np.isfinite(loss.avoidable).all()
    until = avoidable_loss(FARM, season, start=at(NOW), end=at(END))
    assert (loss.avoidable[1] < until.avoidable[1]).all()


def test_no_time_between_costs_nothing(season) -> None:
    loss = avoidable_loss(FARM, season, start=at(NOW), end=at(NOW))
    assert not loss.avoidable.any()
    assert not loss.unsprayed.any()


def test_hours_of_the_windows_are_those_of_the_season(season) -> None:
    windows = spray_windows(FARM, season)
    assert windows.hour[0] == NOW
    assert windows.hour.size == len(windows.start)


SEASON = made_through()
