"""The phenology layer on the made season."""

import numpy as np
import pytest

from geo.phenology import PHENOLOGY
from geo.reference.growth_stages import growth_stages
from geo.reference.number import values
from tests.laws.made_season import before, made_season, replaced

STAGES = growth_stages()


def seen_as(**portions: float) -> np.ndarray:
    """Return block 0's susceptibility on the day it is seen in the given shares of stages."""
    season = before(made_season(), PHENOLOGY)
    bare = season.drop_vars([name for name in season.data_vars if "portion" in str(name)])
    found = replaced(
        bare,
        portion_block=np.zeros(len(portions), dtype=np.int64),
        portion_day=np.full(len(portions), 4),
        portion_stage=np.array([name.removeprefix("bbch_") for name in portions]),
        portion_share=np.array(list(portions.values())),
    )
    return PHENOLOGY.add_to(found).stage_susceptibility.values[0, 4]


@pytest.mark.parametrize("code", STAGES)
def test_on_the_day_it_is_seen_a_stage_is_that_stage(code: str) -> None:
    assert seen_as(**{f"bbch_{code}": 1.0}) == pytest.approx(STAGES[code].susceptibility)


def test_a_mixed_bloom_is_weighted_by_its_shares() -> None:
    parts = {"bbch_513": 0.2, "bbch_615": 0.5, "bbch_619": 0.3}
    expected = sum(
        share * STAGES[name.removeprefix("bbch_")].susceptibility for name, share in parts.items()
    )
    assert seen_as(**parts) == pytest.approx(expected)


def test_shares_are_taken_relative_to_each_other() -> None:
    assert seen_as(bbch_513=0.1, bbch_615=0.3) == pytest.approx(
        seen_as(bbch_513=0.25, bbch_615=0.75)
    )


def test_the_order_of_the_notes_does_not_matter() -> None:
    season = before(made_season(), PHENOLOGY)
    given = PHENOLOGY.compute(season)
    turned = PHENOLOGY.compute(season.isel(portion=[4, 2, 1, 3, 0]))
    for name in given.data_vars:
        np.testing.assert_allclose(turned[name], given[name], rtol=1e-12)


def test_a_block_whose_stage_nobody_noted_is_neutral_and_full_grown() -> None:
    given = PHENOLOGY.compute(before(made_season(), PHENOLOGY))
    neutral = values("growth_stages", "thermal time")["unknown_susceptibility"]
    assert (given.stage_susceptibility.values[4] == neutral).all()
    assert (given.organ_size.values[4] == 1.0).all()
    assert np.isnan(given.days_since_stage_seen.values).tolist() == [False] * 4 + [True]


def test_no_notes_at_all_leave_every_block_neutral() -> None:
    season = before(made_season(), PHENOLOGY).isel(portion=[])
    given = PHENOLOGY.add_to(season)
    assert np.isnan(given.stage_progress.values).all()
    assert (given.organ_size.values == 1.0).all()


def test_age_of_the_newest_note_is_counted_from_today_and_never_negative() -> None:
    season = before(made_season(), PHENOLOGY)
    given = PHENOLOGY.compute(season)
    assert given.days_since_stage_seen.values[:4].tolist() == [4.0, 3.0, 1.0, 2.0]
    late = replaced(season, portion_day=np.full(5, 8))
    assert PHENOLOGY.compute(late).days_since_stage_seen.values[0] == 0.0


def test_a_hollow_blooms_later() -> None:
    season = before(made_season(), PHENOLOGY)
    same = replaced(
        season.isel(portion=[0, 0, 0, 0, 0]),
        portion_block=np.arange(5),
        portion_day=np.zeros(5, dtype=np.int64),
        portion_share=np.ones(5),
    )
    grown = np.diff(PHENOLOGY.compute(same).stage_progress.values[:, [0, 8]], axis=1)[:, 0]
    assert grown.argmin() == 2
