"""Loggers from file to fitted pools: a known truth, written as a user would, comes back."""

import csv
import json
import shutil
from dataclasses import replace
from pathlib import Path

import geopandas as gpd
import numpy as np
import pytest
import xarray as xr
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.weather.at_spots import air_temperature_at_spots
from geo.weather.layer import pool_parameters
from geo.weather.pools import pool_strength
from tests.demo_run import FARM, demo_outcome

TRUE_STRENGTH_K, TRUE_DEPTH_M = 5.0, 18.0


def true_air(season: xr.Dataset, points: gpd.GeoSeries) -> np.ndarray:
    """Return the air at points if the truth were another than the table's."""
    column = ((points.x - season.attrs["grid_west"]) // float(season.cell_width)).astype(int)
    row = ((season.attrs["grid_north"] - points.y) // float(season.cell_height)).astype(int)
    parameters = replace(pool_parameters(), full_strength=TRUE_STRENGTH_K, scale_depth=TRUE_DEPTH_M)
    strength = pool_strength(
        air_temperature=season.air_temperature.values,
        relative_humidity=season.relative_humidity.values,
        cloud_cover=season.cloud_cover.values,
        wind_speed=season.wind_speed.values,
        solar_elevation=season.solar_elevation.values,
        parameters=parameters,
    )
    exact = air_temperature_at_spots(
        season.air_temperature.values,
        strength,
        height_above_station=season.elevation_grid.values[row, column]
        - float(season.station_elevation),
        pool_depth=season.pool_depth_grid.values[row, column],
        station_pool_depth=float(season.station_pool_depth),
        parameters=parameters,
    )
    return exact + np.random.default_rng(5).normal(0.0, 0.5, exact.shape)


@pytest.fixture(scope="module")
def farm(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("loggers") / "farm"
    shutil.copytree(FARM, folder)
    outcome = demo_outcome()
    season = outcome.season
    deepest = season.pool_depth.to_series().sort_values()
    blocks = [*deepest.index[-3:], deepest.index[len(deepest) // 2]]
    measured = np.flatnonzero(season.is_forecast.values == 0)
    hours = np.datetime_as_string(season.hour.values[measured], unit="m")
    points = outcome.farm.blocks.loc[blocks].representative_point()
    air = true_air(season, points)[:, measured]
    with (folder / "loggers.csv").open("w", encoding="utf-8", newline="") as opened:
        rows = csv.writer(opened)
        rows.writerow(["time", "logger_id", "air_temperature_degC"])
        for block, of_block in zip(blocks, air, strict=True):
            rows.writerows(
                (f"{hour}Z", f"in {block}", f"{value:.2f}")
                for hour, value in zip(hours, of_block, strict=True)
            )
    places = json.loads((folder / "places.geojson").read_text("utf-8"))
    places["features"] += [
        {
            "type": "Feature",
            "properties": {"kind": "logger", "name": f"in {block}"},
            "geometry": {"type": "Point", "coordinates": [point.x, point.y]},
        }
        for block, point in points.to_crs(4326).items()
    ]
    (folder / "places.geojson").write_text(json.dumps(places), "utf-8")
    settings = (folder / "farm.toml").read_text("utf-8")
    settings = settings.replace("# loggers =", "loggers =")
    (folder / "farm.toml").write_text(settings, "utf-8")
    return folder


def test_the_truth_behind_the_loggers_is_found_printed_and_put_on_record(
    farm: Path, tmp_path: Path
) -> None:
    told = CliRunner().invoke(app, ["map", str(farm), "--out", str(tmp_path)])
    assert told.exit_code == 0, told.output
    assert "Cool pools fitted to 4 loggers: full strength" in told.stdout
    pools = json.loads((tmp_path / "run.json").read_text("utf-8"))["cool_pools"]
    assert len(pools["loggers"]) == 4
    strength, depth = pools["full_strength_K"], pools["scale_depth_m"]
    assert strength["low_90"] < TRUE_STRENGTH_K < strength["high_90"]
    assert depth["low_90"] < TRUE_DEPTH_M < depth["high_90"]
    # These hollows are shallow: what their loggers tell is the coldness of the first metres.
    steepness = strength["value"] / depth["value"]
    assert 6.0 / 30.0 < steepness < 1.2 * TRUE_STRENGTH_K / TRUE_DEPTH_M
    assert 0.1 < depth["prior_share"] < 0.95
