"""The epidemic layer on the made season."""

import numpy as np
import pytest

from geo.dispersal.build import exchange_in
from geo.epidemic import EPIDEMIC
from geo.reference.number import values
from tests.laws.made_season import BLOCK_COUNT, before, made_before, made_season, replaced

MILDEW = values("mildew", "panicle mildew")
NO_MILDEW = np.zeros(BLOCK_COUNT, dtype=np.int64)


def epidemic(season):
    """Return what the layer gives."""
    return EPIDEMIC.compute(before(season, EPIDEMIC))


@pytest.mark.published("rajan2011", "codes 510 and 511; bract stage immune in field notes")
@pytest.mark.parametrize("stage", ["510", "511"])
def test_bract_stages_are_immune_whatever_the_weather(stage: str) -> None:
    season = made_season()
    portions = np.full(season.sizes["portion"], stage)
    early = replaced(season, portion_stage=portions, portion_day=np.full(portions.size, 8))
    hazard = epidemic(early).hazard.values
    assert (hazard[:4] == 0.0).all()
    assert (hazard[4] > 0.0).all()


def test_nobody_looked_anywhere_and_statuses_speak() -> None:
    season = replaced(made_season().isel(visit=[]), had_mildew_last_season=NO_MILDEW)
    statuses = ["scouted"] * BLOCK_COUNT + ["known"]
    given = epidemic(replaced(season, source_status=statuses))
    unseen, known = MILDEW["status_unknown"], MILDEW["status_known"]
    assert (given.sporulating.values[BLOCK_COUNT] == known).all()
    home = given.home_inoculum.values[:, 0] - 1.0
    received = exchange_in(before(season, EPIDEMIC)).home_share
    background = values("epidemic", "panicle_mildew")["background_inoculum"]
    np.testing.assert_allclose(home, received * unseen / background)


def test_last_seasons_mildew_stands_for_panicles_nobody_has_counted() -> None:
    plain = replaced(made_season(), had_mildew_last_season=NO_MILDEW)
    flagged = replaced(plain, had_mildew_last_season=np.ones(BLOCK_COUNT, dtype=np.int64))
    one, other = (epidemic(season).home_inoculum.values for season in (plain, flagged))
    assert (other[:, 0] > one[:, 0]).all()
    # Block 3 was counted twice since: little is left of what was only feared.
    assert other[2, 6] / one[2, 6] < other[4, 6] / one[4, 6]


def test_a_count_moves_the_spores_of_the_next_day() -> None:
    season = made_season()
    many = replaced(season, visit_infected=np.where(season.visit_day.values == 4, 60, 1))
    home, more = (epidemic(one).home_inoculum.values[2] for one in (season, many))
    assert more[5] - more[4] > 3.0 * (home[5] - home[4]) > 0.0


def test_what_is_hidden_today_was_new_before_and_is_told_apart_from_what_is_to_come() -> None:
    season = made_season()
    given = epidemic(season)
    assert (given.already_in.values > 0).all()
    too_hot = replaced(
        season,
        air_temperature=np.where(season.hour_day.values > 5, 45.0, season.air_temperature),
    )
    later = epidemic(too_hot)
    np.testing.assert_allclose(later.already_in.values, given.already_in.values, rtol=1e-12)
    assert (later.to_come.values < 0.3 * given.to_come.values).all()


@pytest.mark.common_practice("a nearer diseased neighbour is worse than a farther one")
def test_a_nearer_neighbour_gives_more() -> None:
    season = made_season()
    is_neighbour = season.edge_source.values == BLOCK_COUNT
    shift = np.where(is_neighbour, 400.0, 0.0)
    farther = replaced(
        season,
        edge_start_x=season.edge_start_x.values + shift,
        edge_end_x=season.edge_end_x.values + shift,
    )
    near, far = (epidemic(one).incoming_inoculum.values for one in (season, farther))
    assert (near > far).all()


def test_anthracnose_without_rain_has_no_hazard_whatever_the_humidity() -> None:
    wet = replaced(
        made_season(),
        relative_humidity=np.full(made_season().sizes["hour"], 100.0),
        precipitation=np.zeros(made_season().sizes["hour"]),
    )
    found = epidemic(wet.assign_coords(disease="blossom_anthracnose"))
    assert (found.hazard.values == 0.0).all()
    assert (epidemic(wet).hazard.values[:4].max(axis=1) > 0.0).any()


def test_an_act_takes_its_share_of_what_sheds_on_its_organ_only() -> None:
    season = made_season()
    none = season.isel(act=[])
    before, after = (epidemic(one).sporulating.values[:BLOCK_COUNT] for one in (none, season))
    effect = values("epidemic", "panicle_mildew")["removal_effect"]
    np.testing.assert_allclose(after[2, 3] / before[2, 3], 1.0 - effect)
    np.testing.assert_array_equal(after[:, :3], before[:, :3])
    leaves = [
        epidemic(one.assign_coords(disease="leaf_mildew")).sporulating.values
        for one in (none, season)
    ]
    np.testing.assert_array_equal(*leaves)


def test_an_act_from_before_the_season_changes_nothing() -> None:
    season = made_season()
    early = replaced(season, act_hour=[-5.0])
    np.testing.assert_array_equal(
        epidemic(early).sporulating.values, epidemic(season.isel(act=[])).sporulating.values
    )


def test_a_block_whose_weather_is_lost_sheds_what_it_shed_when_it_was_known() -> None:
    found = made_before(EPIDEMIC)
    lost = found.favourability.values.copy()
    lost[2, 3:] = np.nan
    given = EPIDEMIC.compute(found.assign(favourability=(("block", "day"), lost)))
    assert np.isnan(given.sporulating.values[2, 4])
    total = (given.home_inoculum + given.incoming_inoculum).values[:, 5]
    # What arrives is told from the same spores that the epidemic ran with.
    np.testing.assert_allclose(given.arrival_background.values, 1.0 / total, rtol=1e-12)
