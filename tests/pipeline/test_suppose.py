"""What if: pure changes of a season, and what comes of them through all layers."""

import numpy as np
import pytest
import xarray as xr
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.pipeline.effects import effects
from geo.pipeline.run import decided
from geo.pipeline.suppose import (
    coming_night,
    hours_ahead,
    warmer,
    with_cultivar,
    with_neighbour,
    with_rain,
    with_spray,
    with_stage,
    without_neighbour,
)
from geo.ranking.spray_words import reapply_line
from geo.season.disease import season_of_disease
from geo.season.today import today_of
from tests.laws.made_farm import made_farm
from tests.laws.made_season import BLOCK_COUNT, LAST_MEASURED_HOUR, made_season, replaced, through

NEIGHBOUR = BLOCK_COUNT


def ranked(season: xr.Dataset) -> xr.Dataset:
    return through(season_of_disease(season, "panicle_mildew"))


def test_twenty_millimetres_tonight_take_a_contact_spray_from_048_to_027() -> None:
    dry = replaced(made_season(), precipitation=np.zeros(216))
    # Sulfur keeps 0.75 x 0.8 when fresh, halves in 10 d and in 25 mm: 0.478 at noon of day 7.
    hour = 7 * 24 + 12 - 240.0 * np.log2(0.6 / 0.478)
    # Block 4 has no stage on record: no growth is blamed on the spray.
    sprayed = replaced(
        dry.isel(spray=[0]), spray_block=[4], spray_hour=[hour], spray_material=["sulfur"]
    )
    before = decided(made_farm(), sprayed)
    after = decided(made_farm(), with_rain(sprayed, 20.0, coming_night(sprayed)))
    (effect,) = (
        effect for effect in effects(before.season, after.season) if effect.move.block == "B5"
    )
    assert round(effect.protection_before, 2) == 0.48
    assert effect.protection == pytest.approx(0.478 * 2.0 ** (-20.0 / 25.0), rel=1e-9)
    assert round(effect.protection, 2) == 0.27
    assert effect.crosses(reapply_line(before.season)) == -1


def test_every_supposition_leaves_the_season_it_is_given_as_it_was() -> None:
    season, same = made_season(), made_season()
    night = coming_night(season)
    with_rain(season, 10.0, night)
    warmer(season, 3.0)
    with_stage(season, 0, "615")
    with_spray(season, [0, 2], "penconazole", 60.0)
    with_cultivar(season, 1, "Tommy Atkins")
    with_neighbour(season, NEIGHBOUR, "unknown")
    without_neighbour(season, NEIGHBOUR)
    assert season.identical(same)


def test_supposing_what_is_so_anyway_is_the_same_season() -> None:
    season = made_season()
    assert with_rain(season, 0.0, coming_night(season)).identical(season)
    assert warmer(season, 0.0).identical(season)
    assert with_spray(season, [], "sulfur", 60.0).identical(season)
    assert with_cultivar(season, 0, "Keitt").identical(season)
    assert with_neighbour(season, NEIGHBOUR, "suspected").identical(season)


def test_the_coming_night_is_the_next_one_before_dawn_and_the_rest_of_one_that_began() -> None:
    season = made_season()
    assert season.is_forecast.values[LAST_MEASURED_HOUR] == 0
    night = coming_night(season)
    assert night.tolist() == list(range(night[0], night[0] + night.size))
    assert night[0] > LAST_MEASURED_HOUR + 10
    assert (season.solar_elevation.values[night] < 0).all()
    began = replaced(season, is_forecast=(np.arange(216) > night[2]).astype(np.int64))
    assert coming_night(began).tolist() == night[3:].tolist()
    known = replaced(season, is_forecast=np.zeros(216, dtype=np.int64))
    assert coming_night(known).size == hours_ahead(known).size == 0


@settings(max_examples=15)
@given(less=st.floats(0.0, 60.0), more=st.floats(0.0, 60.0))
def test_more_rain_never_leaves_more_protection(less: float, more: float) -> None:
    season = made_season()
    night = coming_night(season)
    drier, wetter = (
        through(with_rain(season, amount, night), last="protection").protection_left.values
        for amount in (less, less + more)
    )
    assert (wetter <= drier + 1e-12).all()


def test_all_the_rain_falls_and_only_in_its_hours() -> None:
    season = made_season()
    night = coming_night(season)
    more = with_rain(season, 12.0, night).precipitation.values - season.precipitation.values
    assert more.sum() == pytest.approx(12.0)
    assert (np.flatnonzero(more) == night).all()


@settings(max_examples=15)
@given(kelvin=st.floats(0.1, 10.0))
def test_warmer_air_is_drier_and_only_ahead(kelvin: float) -> None:
    season = made_season()
    ahead = hours_ahead(season)
    other = warmer(season, kelvin)
    gain = other.air_temperature.values - season.air_temperature.values
    np.testing.assert_allclose(gain[ahead], kelvin)
    assert (gain[: LAST_MEASURED_HOUR + 1] == 0.0).all()
    dry, wet = other.relative_humidity.values, season.relative_humidity.values
    assert (dry[ahead] < wet[ahead]).all()
    assert (dry[: LAST_MEASURED_HOUR + 1] == wet[: LAST_MEASURED_HOUR + 1]).all()


def test_one_more_spray_never_raises_a_hazard_and_lowers_its_own_blocks() -> None:
    season = made_season()
    before, after = ranked(season), ranked(with_spray(season, [0, 3], "sulfur", 126.0))
    assert (after.hazard.values <= before.hazard.values + 1e-12).all()
    assert (after.hazard_ahead.values[[0, 3]] < before.hazard_ahead.values[[0, 3]]).all()


def test_a_stage_supposed_leaves_weather_pool_cultivar_and_age_to_the_last_digit() -> None:
    season = made_season()
    before, after = ranked(season), ranked(with_stage(season, 3, "615"))
    same = ["site weather", "cool pool", "cultivar", "age"]
    assert (after.factors.sel(factor=same).values == before.factors.sel(factor=same).values).all()
    stages = [found.factors.sel(factor="stage").values[3] for found in (before, after)]
    assert stages[1] > stages[0]


def test_a_stage_supposed_replaces_todays_look_at_that_organ_and_no_other() -> None:
    today = today_of(made_season())
    season = replaced(
        made_season(),
        portion_block=[0, 0, 1, 2, 3],
        portion_day=[today] * 5,
        portion_stage=np.array(["513", "110", "515", "615", "511"]),
    )
    found = with_stage(season, 0, "615")
    of_block = found.portion_stage.values[found.portion_block.values == 0].tolist()
    assert sorted(of_block) == ["110", "615"]
    assert found.sizes["portion"] == 5


def test_a_neighbour_that_is_gone_takes_exactly_its_share_along() -> None:
    season = made_season()
    before, after = ranked(season), ranked(without_neighbour(season, NEIGHBOUR))
    assert after.source.values.tolist() == [f"B{number}" for number in range(1, 6)]
    assert (before.wind_pair_source.values == NEIGHBOUR).any()
    kept = before.wind_pair_source.values != NEIGHBOUR
    for name in ("wind_pair_block", "wind_pair_source", "wind_pair_share"):
        np.testing.assert_allclose(after[name].values, before[name].values[kept], rtol=1e-12)
    assert (after.incoming_inoculum.values <= before.incoming_inoculum.values + 1e-12).all()
    assert (after.incoming_inoculum.values < before.incoming_inoculum.values).any()


def test_sources_after_one_that_is_gone_keep_their_edges_and_counts() -> None:
    left = without_neighbour(made_season(), 2)
    assert left.sizes["source"] == 5
    assert left.edge_source.values.tolist() == np.repeat(np.arange(5), 4).tolist()
    assert left.visit_block.values.tolist() == [0, 1, 2, 4]
    assert left.visit_infected.values.tolist() == [2, 0, 3, 4]


def test_a_known_neighbour_sheds_no_less_than_an_unknown_one() -> None:
    uncounted = made_season().isel(visit=slice(0, 5))
    unknown, known = (
        ranked(with_neighbour(uncounted, NEIGHBOUR, status)).incoming_inoculum.values
        for status in ("unknown", "known")
    )
    assert (known >= unknown - 1e-12).all()
    assert (known > unknown).any()


def test_a_higher_rated_cultivar_changes_its_own_factor_by_its_rating() -> None:
    season = made_season()
    before, after = ranked(season), ranked(with_cultivar(season, 4, "Alphonso"))
    assert (
        after.factors.sel(factor="cultivar").values[4]
        == (before.factors.sel(factor="cultivar").values[2])
    )


def test_effects_split_exactly_and_name_what_is_not_touched() -> None:
    before = ranked(made_season())
    after = ranked(with_spray(made_season(), [0], "sulfur", 126.0))
    found = effects(before, after)
    for effect in found:
        ratios = [row.ratio for row in effect.move.comparison.rows]
        assert np.prod(ratios) == pytest.approx(effect.move.comparison.ratio, rel=1e-9)
    assert not any(effect.is_any for effect in effects(before, before))
    assert next(effect for effect in found if effect.move.block == "B1").is_any


def test_the_users_reapply_line_comes_before_the_tables() -> None:
    season = made_season()
    assert reapply_line(season.assign_attrs(reapply_line=0.45)) == 0.45
    assert reapply_line(season) == 0.3
