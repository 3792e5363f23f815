"""The ranking layer on the made season."""

import numpy as np
import pytest

from geo.ranking import RANKING
from geo.ranking.doubt import count_doubt
from geo.ranking.layer import days_ahead
from geo.reference.cultivars import cultivar
from geo.reference.number import values
from tests.laws.made_season import before, made_before, made_season, replaced

MILDEW = values("mildew", "panicle mildew")
STAGE = values("growth_stages", "stage doubt")


@pytest.mark.parametrize(("horizon", "last"), [(1, 6), (3, 8), (14, 9)])
def test_days_ahead_start_today_and_end_with_the_forecast(horizon: int, last: int) -> None:
    season = made_season().assign_attrs(horizon_days=horizon)
    assert days_ahead(season) == slice(5, last)


def test_hazard_ahead_is_the_mean_of_the_days_ahead() -> None:
    season = made_before(RANKING)
    found = RANKING.compute(season).hazard_ahead.values
    np.testing.assert_allclose(found, season.hazard.values[:, 5:8].mean(axis=1))


def test_the_newest_count_is_the_one_that_ages() -> None:
    season = made_before(RANKING)
    np.testing.assert_array_equal(
        RANKING.compute(season).days_since_look.values, [4.0, 3.0, 1.0, 2.0, np.nan]
    )


def test_doubt_is_put_together_from_cultivar_age_stage_and_count() -> None:
    season = made_before(RANKING)
    # Nobody looked at block 5, so its spores are worth what the model is worth.
    found = RANKING.compute(season)
    home, neighbours = found.factors.values[4, 5:7]
    worth = values("epidemic", "panicle_mildew")["scouting_worth"]
    shed = season.sporulating.values[4, 5]
    counted = float(count_doubt(np.array(worth * shed), np.array(worth)))
    own = (home - 1.0) / (home * neighbours) * counted
    ground = season.terrain_doubt.values[4]
    parts = [cultivar("Osteen").doubt, MILDEW["age_doubt"], STAGE["unseen"], own]
    parts.append(ground)
    assert found.doubt.values[4] == pytest.approx(np.linalg.norm(parts))


def test_a_count_that_is_worth_less_is_more_doubtful() -> None:
    season = made_before(RANKING)
    faded = replaced(season, count_worth=10.0 + (season.count_worth.values - 10.0) / 2.0)
    is_counted = np.array([True, False, True, True, False])  # in block 2 nothing was found
    sure, unsure = (RANKING.compute(one).doubt.values for one in (season, faded))
    assert (unsure[is_counted] > sure[is_counted]).all()
    assert unsure[4] == sure[4]


def test_doubt_of_the_ground_widens_the_doubt_of_its_block_alone() -> None:
    season = made_before(RANKING)
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
