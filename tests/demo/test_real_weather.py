"""On real ground, through a real year, cold air and mildew weather come and go as known."""

from pathlib import Path

import numpy as np
import pytest
import xarray as xr
from typer.testing import CliRunner

from geo.arrays import BoolArray, FloatArray
from geo.cli.commands import app
from geo.pipeline import Outcome, run
from geo.reference.number import values
from geo.season.between import at_blocks
from tests.demo.real_farm import HOLLOWS, RIDGES, SLOPES, YEAR, make_real_farm

# Wind at 2 m and opaque cloud: means of a night's last three hours, but all hours of a windy one.
CALM_M_S, CLEAR, WINDY_M_S = 1.5, 0.2, 4.0
DRY_SEASON = (11, 12, 1, 2, 3, 4)  # Miami's
COOL, HOT = (12, 1, 2, 3), (6, 7, 8, 9)


@pytest.fixture(scope="module")
def farm(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("real")
    make_real_farm(folder)
    return folder


@pytest.fixture(scope="module")
def outcome(farm: Path) -> Outcome:
    return run(farm)


def last_hour_of_nights(season: xr.Dataset) -> tuple[BoolArray, BoolArray]:
    """Return which hours of five in the morning end a clear, calm night, and which a windy one."""
    cloud, wind = season.cloud_cover.values, season.wind_speed.values
    # In the made dates the first hour is local midnight: no clock of this zone ever changes.
    clock = np.arange(season.sizes["hour"]) % 24
    is_clear_and_calm, is_windy = np.zeros(clock.shape, bool), np.zeros(clock.shape, bool)
    for hour in np.flatnonzero(clock == 5)[1:]:
        late, night = slice(hour - 2, hour + 1), slice(hour - 8, hour + 1)
        is_clear_and_calm[hour] = cloud[late].mean() <= CLEAR and wind[late].mean() <= CALM_M_S
        is_windy[hour] = wind[night].min() > WINDY_M_S
    return is_clear_and_calm, is_windy


def deep_and_shallow(season: xr.Dataset) -> tuple[BoolArray, BoolArray]:
    """Return which blocks are among the deeper third, and which among the shallower."""
    depth = season.pool_depth
    return (depth >= depth.quantile(2 / 3)).values, (depth <= depth.quantile(1 / 3)).values


def temperatures(season: xr.Dataset) -> tuple[FloatArray, FloatArray]:
    """Return each block's hourly temperature, and what it were without its pool."""
    spots = season.air_temperature_at_spot.values
    return (
        at_blocks(spots, season.spot_of_block.values, season.spot_weight.values),
        at_blocks(spots, season.spot_of_site.values, season.site_weight.values),
    )


def test_the_map_is_written_for_ground_and_weather_nobody_made_up(
    farm: Path, tmp_path: Path
) -> None:
    told = CliRunner().invoke(app, ["map", str(farm), "--out", str(tmp_path)])
    assert told.exit_code == 0, told.output
    assert (tmp_path / "block-map.html").stat().st_size > 100_000
    assert "made scenario" in told.stdout


def test_the_season_is_the_year(outcome: Outcome) -> None:
    season = outcome.season
    assert season.sizes["hour"] == 8760
    assert season.sizes["day"] == 365
    assert str(season.day.values[0])[:10] == f"{YEAR}-01-01"
    assert outcome.farm.today.isoformat() == f"{YEAR}-12-28"


def test_hollows_are_deep_and_ridges_are_not(outcome: Outcome) -> None:
    depth = outcome.season.pool_depth
    assert float(depth.sel(block=list(HOLLOWS)).min()) > 5.0
    assert float(depth.sel(block=list(RIDGES)).max()) < 1.0
    assert len(HOLLOWS | RIDGES | SLOPES) == depth.size == 12


# Direction after jemmettsmith2018 and korea_orchard: valley floors are colder on clear, calm
# nights, although by the lapse of mixed air they would be the warmer ones.
def test_on_clear_calm_nights_hollows_are_colder_than_height_alone_would_make_them(
    outcome: Outcome,
) -> None:
    season = outcome.season
    is_deep, is_shallow = deep_and_shallow(season)
    is_clear_and_calm, _ = last_hour_of_nights(season)
    assert is_clear_and_calm.sum() >= 20
    temperature, _ = temperatures(season)
    above_sea = season.elevation.values
    assert above_sea[is_deep].max() < above_sea[is_shallow].min()
    drop = above_sea[is_shallow].mean() - above_sea[is_deep].mean()
    lapse_rate = values("microclimate", "air")["lapse_rate"]
    difference = temperature[is_deep].mean(axis=0) - temperature[is_shallow].mean(axis=0)
    beyond_height = (difference - lapse_rate * drop)[is_clear_and_calm]
    assert beyond_height.max() < 0.0
    assert beyond_height.min() < -1.0


def test_on_dry_clear_calm_nights_hollows_are_colder_than_the_ridges_above_them(
    outcome: Outcome,
) -> None:
    season = outcome.season
    is_deep, is_shallow = deep_and_shallow(season)
    is_clear_and_calm, _ = last_hour_of_nights(season)
    # Humid summer air sends back too much heat for a pool to stand fully.
    is_dry_season = np.isin(season.hour.dt.month.values, DRY_SEASON)
    temperature, _ = temperatures(season)
    nights = temperature[:, is_clear_and_calm & is_dry_season]
    assert nights.shape[1] >= 5
    assert (nights[is_deep].max(axis=0) < nights[is_shallow].min(axis=0)).all()


def test_on_windy_nights_no_pool_stands(outcome: Outcome) -> None:
    season = outcome.season
    _, is_windy = last_hour_of_nights(season)
    assert is_windy.sum() >= 3
    temperature, without_pool = temperatures(season)
    pool_term = np.abs(temperature - without_pool)[:, is_windy]
    assert pool_term.max() < 0.05


def test_a_pool_is_never_warmer_nor_drier_and_gone_by_day(outcome: Outcome) -> None:
    season = outcome.season
    # All of them lie deeper than the station, which stands on a slope.
    in_hollow = season.block.isin(list(HOLLOWS)).values
    temperature, without_pool = temperatures(season)
    colder = (without_pool - temperature)[in_hollow]
    assert colder.min() >= 0.0
    assert colder[:, season.solar_elevation.values > 45.0].max() < 0.1
    spots = season.relative_humidity_at_spot.values
    humidity = at_blocks(spots, season.spot_of_block.values, season.spot_weight.values)
    site = at_blocks(spots, season.spot_of_site.values, season.site_weight.values)
    assert (humidity - site)[in_hollow].min() >= -1e-9


@pytest.mark.common_practice("mildew is a cool-season disease of subtropical mango")
def test_the_cool_months_favour_mildew_more_than_the_hot_ones(outcome: Outcome) -> None:
    favourability = outcome.season.favourability
    month = favourability.day.dt.month
    cool = favourability.sel(day=month.isin(COOL)).mean(dim="day")
    hot = favourability.sel(day=month.isin(HOT)).mean(dim="day")
    assert (cool > hot).all()
