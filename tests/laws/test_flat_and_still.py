"""What cold air may and may not do."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.weather.at_spots import air_temperature_at_spots
from geo.weather.layer import pool_parameters
from geo.weather.pools import pool_strength
from tests.laws.made_season import made_season, replaced, through

PARAMETERS = pool_parameters()
night_hours = st.integers(1, 14)


@pytest.mark.parametrize("station_cell", [-1, 800])
def test_on_level_ground_the_pool_factor_is_exactly_one(station_cell: int) -> None:
    season = replaced(made_season(is_level=True), station_cell=[station_cell])
    ranked = through(season)
    assert (ranked.pool_depth.values == 0.0).all()
    assert (ranked.factors.sel(factor="cool pool").values == 1.0).all()
    np.testing.assert_array_equal(ranked.favourability.values, ranked.site_favourability.values)


def strength(hours: int, *, wind: float, cloud: float = 0.0) -> np.ndarray:
    return pool_strength(
        air_temperature=np.full(hours, 18.0),
        relative_humidity=np.full(hours, 70.0),
        cloud_cover=np.full(hours, cloud),
        wind_speed=np.full(hours, wind),
        solar_elevation=np.full(hours, -20.0),
        parameters=PARAMETERS,
    )


@given(
    depths=st.lists(st.floats(0.0, 120.0), min_size=2, max_size=8),
    hours=night_hours,
    wind=st.floats(0.0, 6.0),
    cloud=st.floats(0.0, 1.0),
)
def test_deeper_is_never_warmer_at_night(
    depths: list[float], hours: int, wind: float, cloud: float
) -> None:
    deep = np.sort(np.array(depths))
    temperature = air_temperature_at_spots(
        np.full(hours, 18.0),
        strength(hours, wind=wind, cloud=cloud),
        height_above_station=np.zeros(deep.size),
        pool_depth=deep,
        station_pool_depth=1.0,
        parameters=PARAMETERS,
    )
    assert (np.diff(temperature, axis=0) <= 0.0).all()


def test_on_a_clear_calm_night_deeper_is_colder() -> None:
    temperature = air_temperature_at_spots(
        np.full(6, 18.0),
        strength(6, wind=0.5),
        height_above_station=np.zeros(2),
        pool_depth=np.array([5.0, 30.0]),
        station_pool_depth=0.0,
        parameters=PARAMETERS,
    )
    assert (temperature[1] < temperature[0] - 0.5).all()


@pytest.mark.published("korea_orchard", "Y = 2X + 0.4: a pool of 6 K is gone at 2.8 m/s")
@given(wind=st.floats(2.8000001, 30.0), hours=night_hours)
def test_wind_above_about_2_8_metres_a_second_leaves_no_pool(wind: float, hours: int) -> None:
    assert (strength(hours, wind=wind) == 0.0).all()


def test_wind_just_below_leaves_a_trace_of_a_pool() -> None:
    assert (strength(6, wind=2.79) > 0.0).all()


@given(slower=st.floats(0.0, 3.0), more=st.floats(0.0, 3.0), cloud=st.floats(0.0, 1.0))
def test_more_wind_or_cloud_never_strengthens_a_pool(
    slower: float, more: float, cloud: float
) -> None:
    calm = strength(5, wind=slower)
    assert (strength(5, wind=slower + more) <= calm).all()
    assert (strength(5, wind=slower, cloud=cloud) <= calm).all()


@given(cut=st.integers(1, 215), seed=st.integers(0, 20))
def test_a_season_split_anywhere_and_carried_over_gives_the_whole(cut: int, seed: int) -> None:
    season = made_season(seed=seed)
    names = (
        "air_temperature",
        "relative_humidity",
        "cloud_cover",
        "wind_speed",
        "solar_elevation",
    )
    hourly = {name: season[name].values for name in names}
    whole = pool_strength(**hourly, parameters=PARAMETERS)
    first = pool_strength(
        **{name: array[:cut] for name, array in hourly.items()}, parameters=PARAMETERS
    )
    rest = pool_strength(
        **{name: array[cut:] for name, array in hourly.items()},
        parameters=PARAMETERS,
        start=float(first[-1]),
    )
    np.testing.assert_array_equal(np.concatenate([first, rest]), whole)
