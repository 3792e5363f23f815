"""The phenology layer on the made season."""

import numpy as np
import pytest
import xarray as xr
from hypothesis import given
from hypothesis import strategies as st

from geo.phenology import PHENOLOGY
from geo.reference.diseases import DISEASES
from geo.reference.growth_stages import growth_stages, stage_scale
from geo.reference.number import values
from tests.laws.made_season import made_before, replaced

STAGES = growth_stages()
KEYS = [disease.key for disease in DISEASES]


def susceptibility_of(code: str, disease: str) -> float:
    """Return the susceptibility of the table at a stage."""
    scale = stage_scale(disease)
    return dict(zip(scale.progress, scale.susceptibility, strict=True))[STAGES[code].progress]


def noted(*rows: tuple[int, int, str, float], disease: str = "panicle_mildew") -> xr.Dataset:
    """Return what follows from rows of block, day, stage and share."""
    season = made_before(PHENOLOGY)
    bare = season.drop_vars([name for name in season.data_vars if "portion" in str(name)])
    block, day, stage, share = zip(*rows, strict=True)
    found = replaced(
        bare,
        portion_block=np.array(block, dtype=np.int64),
        portion_day=np.array(day),
        portion_stage=np.array(stage),
        portion_share=np.array(share),
    )
    return PHENOLOGY.add_to(found.assign_coords(disease=disease))


def seen_as(*portions: tuple[str, float], disease: str = "panicle_mildew") -> float:
    """Return block 0's susceptibility on the day it is seen in the given shares of stages."""
    rows = [(0, 4, code, share) for code, share in portions]
    return float(noted(*rows, disease=disease).stage_susceptibility.values[0, 4])


@pytest.mark.parametrize("disease", KEYS)
@pytest.mark.parametrize("code", STAGES)
def test_on_the_day_it_is_seen_a_stage_is_that_stage(code: str, disease: str) -> None:
    scale = stage_scale(disease)
    expected = (
        susceptibility_of(code, disease)
        if STAGES[code].scale == scale.scale
        else scale.unknown_susceptibility
    )
    assert seen_as((code, 1.0), disease=disease) == pytest.approx(expected)


def test_a_mixed_bloom_is_weighted_by_its_shares() -> None:
    parts = [("513", 0.2), ("615", 0.5), ("619", 0.3)]
    expected = sum(share * susceptibility_of(code, "panicle_mildew") for code, share in parts)
    assert seen_as(*parts) == pytest.approx(expected)


def test_shares_are_taken_relative_to_each_other() -> None:
    assert seen_as(("513", 0.1), ("615", 0.3)) == pytest.approx(
        seen_as(("513", 0.25), ("615", 0.75))
    )


def test_the_order_of_the_notes_does_not_matter() -> None:
    season = made_before(PHENOLOGY)
    given = PHENOLOGY.compute(season)
    turned = PHENOLOGY.compute(season.isel(portion=[4, 2, 1, 3, 0]))
    for name in given.data_vars:
        np.testing.assert_allclose(turned[name], given[name], rtol=1e-12)


def test_a_block_whose_stage_nobody_noted_is_neutral_and_full_grown() -> None:
    given = PHENOLOGY.compute(made_before(PHENOLOGY))
    neutral = values("growth_stages", "panicle")["unknown_susceptibility"]
    assert (given.stage_susceptibility.values[4] == neutral).all()
    assert (given.organ_size.values[4] == 1.0).all()
    assert np.isnan(given.days_since_stage_seen.values).tolist() == [False] * 4 + [True]


def test_no_notes_at_all_leave_every_block_neutral() -> None:
    season = made_before(PHENOLOGY).isel(portion=[])
    given = PHENOLOGY.add_to(season)
    assert np.isnan(given.stage_progress.values).all()
    assert (given.organ_size.values == 1.0).all()


def test_age_of_the_newest_note_is_counted_from_today_and_never_negative() -> None:
    season = made_before(PHENOLOGY)
    given = PHENOLOGY.compute(season)
    assert given.days_since_stage_seen.values[:4].tolist() == [4.0, 3.0, 1.0, 2.0]
    late = replaced(season, portion_day=np.full(5, 8))
    assert PHENOLOGY.compute(late).days_since_stage_seen.values[0] == 0.0


def test_a_hollow_blooms_later() -> None:
    season = made_before(PHENOLOGY)
    same = replaced(
        season.isel(portion=[0, 0, 0, 0, 0]),
        portion_block=np.arange(5),
        portion_day=np.zeros(5, dtype=np.int64),
        portion_share=np.ones(5),
    )
    grown = np.diff(PHENOLOGY.compute(same).stage_progress.values[:, [0, 8]], axis=1)[:, 0]
    assert grown.argmin() == 2


def test_leaves_and_panicles_of_a_block_are_noted_apart() -> None:
    both = [(0, 4, "615", 1.0), (0, 4, "111", 0.5), (0, 4, "hardened", 0.5)]
    alone = noted(both[0])
    np.testing.assert_array_equal(noted(*both).stage_progress, alone.stage_progress)
    of_leaf = noted(*both, disease="leaf_mildew")
    np.testing.assert_array_equal(
        of_leaf.stage_progress, noted(*both[1:], disease="leaf_mildew").stage_progress
    )
    assert of_leaf.stage_susceptibility.values[0, 4] == pytest.approx((0.9 + 0.05) / 2.0)
    assert np.isnan(noted(both[0], disease="leaf_mildew").days_since_stage_seen.values[0])


@pytest.mark.published("schaffer1994", "panicles grow at 12.5 degC when shoots do not")
def test_at_fourteen_degrees_panicles_move_and_leaves_wait() -> None:
    season = made_before(PHENOLOGY)
    cool = replaced(season, day_mean_temperature=np.full((5, 9), 14.0))
    codes = replaced(cool, portion_stage=np.full(5, "111"))
    leaf = PHENOLOGY.compute(codes.assign_coords(disease="leaf_mildew")).stage_progress.values
    panicle = PHENOLOGY.compute(cool).stage_progress.values
    assert (np.diff(leaf[:4]) == 0.0).all()
    np.testing.assert_allclose(np.diff(panicle[1:4]), 0.15)


def test_a_later_axillary_bloom_is_added_on_its_own_clock() -> None:
    rows = [(0, 1, "617", 1.0), (0, 5, "619", 0.5), (0, 5, "521", 0.5)]
    found = noted(*rows)
    by_hand = (susceptibility_of("619", "panicle_mildew") + 0.0) / 2.0
    assert found.stage_susceptibility.values[0, 5] == pytest.approx(by_hand)
    alone = noted((0, 1, "617", 1.0), (0, 5, "619", 1.0))
    np.testing.assert_allclose(found.stage_progress[0, :5], alone.stage_progress[0, :5])


def test_a_spray_before_a_later_bloom_finds_its_tissue_not_there_yet() -> None:
    size = noted((0, 0, "619", 1.0), (0, 7, "619", 0.5), (0, 7, "523", 0.5)).organ_size.values[0]
    # Half of the mixture was full-grown all the time, the other half hardly began.
    assert 0.5 <= size[0] < size[7] == pytest.approx((1.0 + 0.05) / 2.0)
    assert (np.diff(size) >= 0.0).all()


def test_leaves_that_flush_again_begin_bare() -> None:
    found = noted((0, 0, "hardened", 1.0), (0, 6, "110", 1.0), disease="leaf_mildew")
    susceptible, size = found.stage_susceptibility.values[0], found.organ_size.values[0]
    np.testing.assert_allclose(susceptible[:6], 0.05)
    assert susceptible[6] == pytest.approx(0.6)
    assert size[0] < 0.05 < size[6] == pytest.approx(0.1)


@pytest.mark.parametrize("disease", KEYS)
def test_a_stage_is_less_sure_the_longer_nobody_looked(disease: str) -> None:
    code = "115" if disease == "leaf_mildew" else "613"
    found = noted((0, 2, code, 1.0), disease=disease)
    unsure = found.stage_progress_doubt.values
    assert (np.diff(unsure[0, 2:]) > 0.0).all()
    assert (np.diff(unsure[0, :3]) < 0.0).all()
    assert unsure[0, 2] == values("growth_stages", "stage doubt")["when_seen"]
    assert np.isnan(unsure[1]).all()
    unseen = values("growth_stages", "stage doubt")["unseen"]
    assert (found.stage_doubt.values[1:] == unseen).all()
    assert found.stage_doubt.values[0].max() > 0.0


def test_a_stage_on_a_steep_slope_is_more_doubtful_than_full_bloom() -> None:
    steep, flat = noted((0, 4, "514", 1.0)), noted((0, 4, "615", 1.0))
    assert steep.stage_doubt.values[0, 4] > 2.0 * flat.stage_doubt.values[0, 4] > 0.0


@given(
    codes=st.lists(st.sampled_from(["511", "515", "613", "619", "703"]), min_size=1, max_size=4),
    start=st.integers(0, 3),
)
def test_the_stage_of_one_bloom_never_goes_back(codes: list[str], start: int) -> None:
    rows = [(0, start + number, code, 1.0) for number, code in enumerate(codes)]
    found = noted(*rows)
    assert (np.diff(found.stage_progress.values[0]) >= -1e-9).all()
    assert (np.diff(found.organ_size.values[0]) >= -1e-9).all()


def test_blocks_in_groups_are_what_they_are_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    season = made_before(PHENOLOGY)
    whole = PHENOLOGY.compute(season)
    monkeypatch.setattr("geo.phenology.layer.BLOCKS_AT_ONCE", 2)
    grouped = PHENOLOGY.compute(season)
    for name in whole.data_vars:
        np.testing.assert_array_equal(grouped[name].values, whole[name].values, err_msg=str(name))
