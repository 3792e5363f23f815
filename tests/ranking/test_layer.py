"""The ranking layer on the made season."""

import numpy as np
import pytest

from geo.ranking import RANKING
from geo.ranking.layer import days_ahead
from geo.reference.cultivars import cultivar
from geo.reference.number import values
from tests.laws.made_season import before, made_season, replaced

MILDEW = values("mildew", "panicle mildew")
STAGE = values("growth_stages", "stage doubt")


@pytest.mark.parametrize(("horizon", "last"), [(1, 6), (3, 8), (14, 9)])
def test_days_ahead_start_today_and_end_with_the_forecast(horizon: int, last: int) -> None:
    season = made_season().assign_attrs(horizon_days=horizon)
    assert days_ahead(season) == slice(5, last)


def test_hazard_ahead_is_the_mean_of_the_days_ahead() -> None:
    season = before(made_season(), RANKING)
    found = RANKING.compute(season).hazard_ahead.values
    np.testing.assert_allclose(found, season.hazard.values[:, 5:8].mean(axis=1))


def test_the_newest_count_is_the_one_that_ages() -> None:
    season = before(made_season(), RANKING)
    np.testing.assert_array_equal(
        RANKING.compute(season).days_since_look.values, [4.0, 3.0, 1.0, 2.0, np.nan]
    )
    turned = season.isel(visit=[5, 3, 4, 2, 1, 0])
    np.testing.assert_array_equal(
        RANKING.compute(turned).doubt.values, RANKING.compute(season).doubt.values
    )


def test_without_any_count_every_block_has_the_doubt_of_the_unseen() -> None:
    season = before(made_season(), RANKING).isel(visit=[])
    found = RANKING.add_to(season)
    assert np.isnan(found.days_since_look.values).all()
    home = season.home_inoculum.values[:, 5:8]
    assert (home > 1.0).all()
    assert (found.doubt.values > 0.1).all()


def test_doubt_is_put_together_from_cultivar_age_stage_and_count() -> None:
    season = before(made_season(), RANKING)
    # Nobody looked at block 5 and its ratings are wide: doubts known by hand.
    found = RANKING.compute(season)
    home, neighbours = found.factors.values[4, 5:7]
    own = (home - 1.0) / (home * neighbours) * MILDEW["look_doubt_unseen"]
    ground = season.terrain_doubt.values[4]
    parts = [cultivar("Osteen").doubt, MILDEW["age_doubt"], STAGE["unseen"], own]
    parts.append(ground)
    assert found.doubt.values[4] == pytest.approx(np.linalg.norm(parts))


def test_an_older_count_is_never_less_doubtful() -> None:
    season = before(made_season(), RANKING)
    older = replaced(season, visit_day=np.maximum(season.visit_day.values - 1, 0))
    assert (RANKING.compute(older).doubt.values >= RANKING.compute(season).doubt.values).all()


def test_doubt_of_the_ground_widens_the_doubt_of_its_block_alone() -> None:
    season = before(made_season(), RANKING)
    ground = np.array([0.0, 0.0, 0.4, 0.0, 0.0])
    sure = RANKING.compute(replaced(season, terrain_doubt=np.zeros(5))).doubt.values
    unsure = RANKING.compute(replaced(season, terrain_doubt=ground)).doubt.values
    np.testing.assert_allclose(unsure, np.hypot(sure, ground))


def test_only_fruit_carries_a_load_and_it_adds_up_the_hazard() -> None:
    season = made_season()
    assert np.isnan(RANKING.compute(before(season, RANKING)).quiescent_load.values).all()
    ripe = replaced(
        season,
        portion_stage=np.full(season.sizes["portion"], "703"),
        relative_humidity=np.full(season.sizes["hour"], 97.0),
        precipitation=np.where(season.hour_day.values == 2, 3.0, 0.0),
    ).assign_coords(disease="fruit_anthracnose")
    found = before(ripe, RANKING)
    load = RANKING.compute(found)
    expected = np.where(found.stage_susceptibility.values > 0, found.hazard.values, 0.0)
    np.testing.assert_allclose(load.quiescent_load.values, expected[:, :6].sum(axis=1))
    assert (load.quiescent_load.values[:4] > 0).all()
    assert (load.late_load.values[:4] > 0).all()
