"""The protection layer: diary, rain and growth put together."""

import numpy as np
import pytest
import xarray as xr

from geo.protection import PROTECTION
from geo.reference.fungicides import fungicides
from tests.laws.made_season import made_before, replaced

SULFUR = fungicides()["sulfur"]
FRESH = SULFUR.efficacy["panicle_mildew"].value * 0.8  # times the table's coverage


def protection(
    *, sprayed_at: float = 36.0, rain: dict[int, float] | None = None, size: object = 1.0
) -> np.ndarray:
    """Return the protection of block 0 by one sulfur spray in an otherwise dry season."""
    found = made_before(PROTECTION).isel(spray=[0])
    fallen = np.zeros(found.sizes["hour"])
    for hour, millimetres in (rain or {}).items():
        fallen[hour] = millimetres
    season = replaced(
        found,
        spray_hour=[sprayed_at],
        precipitation=fallen,
        organ_size=np.broadcast_to(size, (5, 9)),
    )
    return PROTECTION.add_to(season).protection_left.values[0]


def test_a_dry_week_halves_it_by_its_half_life() -> None:
    age = np.arange(9) - 1.0  # sprayed at noon of day 1
    expected = np.where(age < 0.0, 0.0, FRESH * 2.0 ** (-age / SULFUR.half_life))
    np.testing.assert_allclose(protection(), expected)


def test_rain_of_an_evening_is_felt_the_next_noon() -> None:
    ratio = protection(rain={70: 10.0}) / np.where(protection() > 0, protection(), 1.0)
    np.testing.assert_allclose(ratio[1:], [1.0, 1.0, *[2.0 ** (-10.0 / 25.0)] * 6])


def test_rain_before_the_deposit_is_dry_leaves_little() -> None:
    # Six hours must stay dry: rain in the last of them counts, rain after them does not.
    wet, dry = protection(rain={41: 0.5}), protection(rain={42: 0.5})
    np.testing.assert_allclose(wet[1:], 0.3 * dry[1:])


def test_new_growth_is_bare() -> None:
    size = np.array([0.1, 0.2, 0.4, 0.4, 0.8, 0.8, 1.0, 1.0, 1.0])
    grown = protection(size=size)[1:] / protection()[1:]
    np.testing.assert_allclose(grown, 0.2 / size[1:])


def test_nothing_is_blamed_on_growth_of_a_panicle_that_shrinks_on_paper() -> None:
    size = np.linspace(1.0, 0.5, 9)
    np.testing.assert_array_equal(protection(size=size), protection())


def test_last_years_spray_leaves_nothing() -> None:
    assert protection(sprayed_at=-365.0 * 24.0).max() < 1e-9


def test_a_spray_of_the_last_evening_protects_no_day_of_the_season() -> None:
    assert (protection(sprayed_at=8 * 24.0 + 20.0) == 0.0).all()


def test_a_block_without_a_spray_has_no_cover() -> None:
    season = made_before(PROTECTION)
    bare = PROTECTION.add_to(season.isel(spray=[]))
    assert (bare.protection_left.values == 0.0).all()


@pytest.mark.parametrize("hours", [23, 25])
def test_noon_is_the_middle_of_a_day_on_which_the_clock_changes(hours: int) -> None:
    season = made_before(PROTECTION)
    longer = np.repeat(np.arange(9), [hours, *[24] * 7, 24 + 24 - hours])
    found = PROTECTION.add_to(replaced(season, hour_day=longer))
    assert isinstance(found, xr.Dataset)
    # Sprayed at 7 h: seen at the middle of the first day.
    age = (hours / 2.0 - 7.0) / 24.0
    expected = FRESH * 2.0 ** (-age / SULFUR.half_life)
    assert found.protection_left.values[0, 0] == pytest.approx(expected)


def test_sprays_in_groups_are_what_they_are_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    season = made_before(PROTECTION)
    whole = PROTECTION.compute(season)
    monkeypatch.setattr("geo.protection.layer.SPRAYS_AT_ONCE", 3)
    grouped = PROTECTION.compute(season)
    for name in whole.data_vars:
        np.testing.assert_array_equal(grouped[name].values, whole[name].values, err_msg=str(name))
