"""What holds for spores, sprays and the product of factors, through all the layers."""

import sys

import numpy as np
import pytest
import xarray as xr
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.epidemic.hazard import hazard_index
from geo.ranking.comparison import compare
from geo.reference.fungicides import fungicides
from geo.reference.number import values
from geo.weather import layer as weather_layer
from geo.weather import spots
from tests.laws.made_season import (
    BLOCK_COUNT,
    DAYS_PER_SEASON,
    HOURS_PER_DAY,
    made_season,
    made_through,
    replaced,
    through,
)


def without_source(season: xr.Dataset, source: int) -> xr.Dataset:
    """Return the season without a neighbour's outline and counts."""
    is_edge = season.edge_source.values != source
    is_visit = season.visit_block.values != source
    return season.isel(
        source=np.arange(season.sizes["source"]) != source, edge=is_edge, visit=is_visit
    )


@pytest.mark.parametrize("kernel", ["two_dt", "exponential", "power_law"])
def test_removing_a_neighbour_removes_exactly_its_spores_and_nothing_gets_worse(
    kernel: str,
) -> None:
    season = replaced(made_season(kernel=kernel), source_status=["known"] * BLOCK_COUNT + ["known"])
    whole, less = through(season), through(without_source(season, BLOCK_COUNT))
    background = values("epidemic", "panicle_mildew")["background_inoculum"]
    is_neighbours = whole.wind_pair_source.values == BLOCK_COUNT
    received = np.zeros(BLOCK_COUNT)
    received[whole.wind_pair_block.values[is_neighbours]] = whole.wind_pair_share[is_neighbours]
    shed = received * whole.sporulating.values[BLOCK_COUNT, 0]
    removed = whole.incoming_inoculum.values - less.incoming_inoculum.values
    # Of the first day; later on what it infected sheds spores too.
    np.testing.assert_allclose(removed[:, 0], shed / background, rtol=1e-9)
    np.testing.assert_array_equal(whole.home_inoculum.values[:, 0], less.home_inoculum.values[:, 0])
    assert (less.hazard.values <= whole.hazard.values + 1e-12).all()


def test_shares_of_arriving_spores_leave_exactly_the_background() -> None:
    season = made_through()
    total = (season.home_inoculum + season.incoming_inoculum).values[:, 5]
    told = np.bincount(season.arrival_block.values, season.arrival_share.values)
    background = season.arrival_background.values
    np.testing.assert_allclose(told + season.arrival_rest.values + background, 1.0, rtol=1e-12)
    np.testing.assert_allclose(background, 1.0 / total, rtol=1e-12)


sprays = st.lists(
    st.tuples(
        st.integers(0, BLOCK_COUNT - 1),
        st.floats(-400.0, DAYS_PER_SEASON * HOURS_PER_DAY),
        st.sampled_from(sorted(fungicides())),
    ),
    max_size=6,
)


def sprayed(season: xr.Dataset, diary: list[tuple[int, float, str]]) -> xr.Dataset:
    bare = season.drop_vars(["spray_block", "spray_hour", "spray_material"])
    return replaced(
        bare,
        spray_block=np.array([block for block, _, _ in diary], dtype=np.int64),
        spray_hour=np.array([hour for _, hour, _ in diary], dtype=float),
        spray_material=np.array([material for _, _, material in diary], dtype=str),
    )


@settings(max_examples=30)
@given(diary=sprays, more=sprays)
def test_more_sprays_never_lower_the_protection(
    diary: list[tuple[int, float, str]], more: list[tuple[int, float, str]]
) -> None:
    season = made_season()
    few = through(sprayed(season, diary), last="protection").protection_left.values
    many = through(sprayed(season, diary + more), last="protection").protection_left.values
    assert (many >= few - 1e-15).all()
    assert many.max(initial=0.0) <= 0.95


@pytest.mark.parametrize("rain_mode", ["washoff", "neutral", "promote"])
def test_the_product_of_the_factors_is_the_hazard(rain_mode: str) -> None:
    season = made_through(rain_mode=rain_mode)
    np.testing.assert_allclose(
        season.factors.values.prod(axis=1), season.hazard_ahead.values, rtol=1e-12
    )
    for row in compare(season, "B2", "B4").rows:
        assert np.isfinite(row.ratio)


HALVES = ("favourability", "cultivar_susceptibility", "stage_susceptibility")


@pytest.mark.parametrize("name", [*HALVES, "home_inoculum", "protection_left"])
def test_halving_a_factor_everywhere_halves_the_hazard(name: str) -> None:
    season = made_through()
    arrays = {
        "favourability": season.favourability.values,
        "cultivar_susceptibility": season.cultivar_susceptibility.values,
        "stage_susceptibility": season.stage_susceptibility.values,
        "home_inoculum": (season.home_inoculum + season.incoming_inoculum).values,
        "protection_left": season.protection_left.values,
    }

    def hazard(parts: dict[str, np.ndarray]) -> np.ndarray:
        susceptibility = parts["cultivar_susceptibility"][:, None] * parts["stage_susceptibility"]
        return hazard_index(
            parts["favourability"],
            susceptibility,
            parts["home_inoculum"],
            parts["protection_left"],
        )

    np.testing.assert_allclose(hazard(arrays), season.hazard.values, rtol=1e-12)
    half = 1.0 - (1.0 - arrays[name]) / 2.0 if name == "protection_left" else arrays[name] / 2.0
    np.testing.assert_allclose(hazard(arrays | {name: half}), hazard(arrays) / 2.0, rtol=1e-12)


def a_day_later(season: xr.Dataset) -> xr.Dataset:
    """Return the same season with a windy, dry day before it."""
    season = season.drop_vars("hour")
    day = season.isel(hour=slice(0, HOURS_PER_DAY))
    day = replaced(
        day,
        wind_speed=np.full(HOURS_PER_DAY, 9.0),
        precipitation=np.zeros(HOURS_PER_DAY),
        hour_day=np.full(HOURS_PER_DAY, -1),
    )
    hourly = [name for name in season.data_vars if "hour" in season[name].dims]
    later = xr.concat([day[hourly], season[hourly]], dim="hour")
    shifted = season.drop_vars([*hourly, "day", "sunrise"]).merge(later)
    return replaced(
        shifted,
        hour_day=later.hour_day.values + 1,
        sunrise=np.append(season.sunrise.values[0], season.sunrise.values + HOURS_PER_DAY),
        visit_day=season.visit_day.values + 1,
        portion_day=season.portion_day.values + 1,
        spray_hour=season.spray_hour.values + HOURS_PER_DAY,
    ).assign_coords(day=np.append(season.day.values[0] - np.timedelta64(1, "D"), season.day.values))


@pytest.mark.parametrize("rain_mode", ["washoff", "promote"])
def test_shifting_the_clock_shifts_the_results(rain_mode: str) -> None:
    # Without the spray from before the season: what grew between the two is not known.
    season = made_season(rain_mode=rain_mode).isel(spray=[0, 2, 3])
    # The epidemic remembers its first day, so what it does is left out here: its own law is that
    # two halves make the whole.
    whole, later = (through(one, last="infection") for one in (season, a_day_later(season)))
    # The grape index adds up from its first day as well; the sunrise is told on the clock itself.
    for name in whole.drop_vars(["rule_reading", "sunrise"]).data_vars:
        if "day" in whole[name].dims:
            np.testing.assert_allclose(
                later[name].isel(day=slice(1, None)).values,
                whole[name].values,
                rtol=1e-9,
                err_msg=str(name),
            )
    name = "days_since_stage_seen"
    np.testing.assert_allclose(later[name].values, whole[name].values, rtol=1e-9, err_msg=name)


def test_blocks_between_a_grid_of_spots_agree_with_blocks_of_their_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    exact = made_through()
    monkeypatch.setattr(weather_layer, "choose_spots", on_a_grid)
    between = through(made_season())
    error = np.abs(between.hazard_ahead.values / exact.hazard_ahead.values - 1.0).max()
    kelvin = np.abs(
        between.day_minimum_temperature.values - exact.day_minimum_temperature.values
    ).max()
    sys.stdout.write(
        f"a grid of spots misses the hazard by {error:.1e}, a minimum by {kelvin:.1e} K\n"
    )
    assert error < 1e-6
    assert kelvin < 1e-4


def on_a_grid(*arrays: np.ndarray, station_pool_depth: float) -> spots.Spots:
    return spots.choose_spots(*arrays, station_pool_depth=station_pool_depth, exact_up_to_blocks=0)
