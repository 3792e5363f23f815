"""What holds for protection through all the layers."""

import numpy as np
import pytest
import xarray as xr
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.protection import PROTECTION
from geo.reference.diseases import DISEASES
from geo.reference.fungicides import fungicides
from geo.season.disease import season_of_disease
from tests.laws.made_season import made_before, made_season, replaced, through

KEYS = [disease.key for disease in DISEASES]
materials = st.sampled_from(sorted(fungicides()))


def one_spray(material: str, *, hour: float = 30.0, **arrays: object) -> xr.Dataset:
    """Return the season as the protection layer finds it, with one spray of block 0."""
    found = made_before(PROTECTION).isel(spray=[0])
    return replaced(found, spray_hour=[hour], spray_material=[material], **arrays)


@settings(max_examples=30)
@given(material=materials, hour=st.integers(0, 215), millimetres=st.floats(0.0, 50.0))
def test_more_rain_never_leaves_more_protection(material, hour, millimetres) -> None:
    season = one_spray(material)
    wetter = season.precipitation.values.copy()
    wetter[hour] += millimetres
    less = PROTECTION.add_to(replaced(season, precipitation=wetter))
    more = PROTECTION.add_to(season)
    for name in ("protection_left", "spray_left", "cured", "rain_to_reapply"):
        assert (np.nan_to_num(less[name].values) <= np.nan_to_num(more[name].values) + 1e-9).all()


@settings(max_examples=30)
@given(material=materials)
def test_later_is_never_more_without_a_spray(material: str) -> None:
    days = PROTECTION.add_to(one_spray(material)).protection_left.values[0, 1:]
    assert (np.diff(days) <= 1e-12).all()


@pytest.mark.parametrize("key", KEYS)
def test_what_is_sprayed_is_never_in_more_hazard_than_what_is_not(key: str) -> None:
    season = season_of_disease(made_season(), key)
    sprayed, bare = through(season), through(season.isel(spray=[]))
    assert (sprayed.hazard.values <= bare.hazard.values + 1e-12).all()


def test_tissue_that_was_not_there_yet_carries_none() -> None:
    size = np.broadcast_to(np.where(np.arange(9) < 3, 0.0, 1.0), (5, 9))
    season = PROTECTION.add_to(one_spray("sulfur", organ_size=size))
    assert (season.protection_left.values[0, 3:] == 0.0).all()


@pytest.mark.parametrize("key", KEYS)
def test_last_years_spraying_gives_no_protection_this_year(key: str) -> None:
    old = season_of_disease(one_spray("penconazole", hour=-365.0 * 24.0), key)
    season = PROTECTION.add_to(old)
    assert season.protection_left.values.max() < 1e-9
    assert season.rain_to_reapply.values[0] == season.dry_days_to_reapply.values[0] == 0.0
    assert not season.cured.values.any()


def test_copper_protects_blossom_from_anthracnose_more_than_from_mildew_and_sulfur_not() -> None:
    copper, sulfur = (
        {
            key: PROTECTION.add_to(season_of_disease(one_spray(material), key))
            .protection_left.values[0]
            .max()
            for key in KEYS
        }
        for material in ("copper", "sulfur")
    )
    assert copper["blossom_anthracnose"] > 2.0 * copper["panicle_mildew"] > 0.0
    assert sulfur["blossom_anthracnose"] == sulfur["fruit_anthracnose"] == 0.0
    assert sulfur["panicle_mildew"] > copper["panicle_mildew"]


def test_a_sprayer_that_covers_less_protects_less() -> None:
    season = one_spray("sulfur")
    usual, knapsack = (
        PROTECTION.add_to(season.assign_attrs(attrs)).protection_left.values[0]
        for attrs in ({}, {"sprayer": "knapsack"})
    )
    np.testing.assert_allclose(knapsack, usual * 0.6 / 0.8)


def test_a_higher_reapply_line_is_met_sooner() -> None:
    season = one_spray("sulfur", precipitation=np.zeros(216))
    low, high = (
        PROTECTION.add_to(season.assign_attrs(reapply_line=line)).rain_to_reapply.values[0]
        for line in (0.2, 0.3)
    )
    assert high == pytest.approx(low - 25.0 * np.log2(0.3 / 0.2))
    assert PROTECTION.add_to(season).rain_to_reapply.values[0] == high


def test_a_spray_ahead_of_the_last_measured_hour_is_not_counted_towards_the_line() -> None:
    season = PROTECTION.add_to(one_spray("sulfur", hour=150.0))
    assert season.spray_left.values.tolist() == [0.0]
    assert np.isnan(season.rain_to_reapply.values).all()
