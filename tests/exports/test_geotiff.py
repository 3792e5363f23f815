"""Cells as cloud-optimised GeoTIFF: where they lie, what they say, whole or not at all."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import rasterio

from geo.exports.geotiff import last_night_words, write_favourability, write_last_night
from tests.demo_run import demo_outcome
from tests.exports.made import Made

WRITERS = {
    "season_favourability_grid": write_favourability,
    "last_night_temperature_grid": write_last_night,
}
both = pytest.mark.parametrize(("name", "write"), WRITERS.items(), ids=["season", "night"])
Write = Callable[..., None]


@both
def test_the_cells_come_back_where_they_lie(
    name: str, write: Write, farm_made: Made, tmp_path: Path
) -> None:
    farm, season = farm_made.farm, farm_made.season
    write(tmp_path / "cells.tif", farm=farm, season=season)
    with rasterio.open(tmp_path / "cells.tif") as file:
        np.testing.assert_array_equal(file.read(1), season[name].values)
        assert np.isnan(file.nodata)
        assert file.crs.to_epsg() == farm.crs.to_epsg()
        assert (file.bounds.left, file.bounds.top) == (
            season.attrs["grid_west"],
            season.attrs["grid_north"],
        )
        assert file.res == (20.0, 25.0)
        assert file.descriptions == (season[name].attrs["long_name"],)
        assert file.units == (season[name].attrs["units"],)
        tags = file.tags()
    assert tags["SCENARIO"] == "made scenario"
    assert tags["HONESTY_LEVEL"].startswith("Relative")
    assert "label is the law" in tags["CAUTIONS"]


@both
def test_it_is_cloud_optimised(name: str, write: Write, tmp_path: Path) -> None:
    outcome = demo_outcome()
    write(tmp_path / "cells.tif", farm=outcome.farm, season=outcome.season)
    with rasterio.open(tmp_path / "cells.tif") as file:
        structure = file.tags(ns="IMAGE_STRUCTURE")
        assert (structure["LAYOUT"], structure["COMPRESSION"]) == ("COG", "DEFLATE")
        assert structure["PREDICTOR"] == "3"
        assert file.block_shapes == [(256, 256)]
        assert file.overviews(1) == [2]
        np.testing.assert_array_equal(file.read(1), outcome.season[name].values)


def test_they_say_which_days_and_which_hour(farm_made: Made, tmp_path: Path) -> None:
    farm, season = farm_made.farm, farm_made.season
    for write in WRITERS.values():
        write(tmp_path / f"{write.__name__}.tif", farm=farm, season=season)
    with rasterio.open(tmp_path / "write_favourability.tif") as file:
        assert (file.tags()["FIRST_DAY"], file.tags()["LAST_DAY"]) == ("2024-07-31", "2024-08-14")
    with rasterio.open(tmp_path / "write_last_night.tif") as file:
        assert file.tags()["HOUR_BEGINS"] == "05:00 on Wed 14 Aug"


def test_without_a_measured_night_it_says_so(farm_made: Made) -> None:
    season = farm_made.season.assign(last_night_hour=-1.0)
    assert last_night_words(season, farm_made.farm) == "no measured night"


def test_a_real_farm_is_not_called_a_made_scenario(farm_made: Made, tmp_path: Path) -> None:
    farm = replace(farm_made.farm, is_made=False)
    write_favourability(tmp_path / "cells.tif", farm=farm, season=farm_made.season)
    with rasterio.open(tmp_path / "cells.tif") as file:
        assert file.tags().get("SCENARIO", "") == ""


def test_a_file_that_cannot_be_replaced_is_left_and_leaves_no_debris(
    farm_made: Made, tmp_path: Path
) -> None:
    (tmp_path / "cells.tif").mkdir()
    with pytest.raises(OSError, match=r"cells\.tif"):
        write_last_night(tmp_path / "cells.tif", farm=farm_made.farm, season=farm_made.season)
    assert [path.name for path in tmp_path.iterdir()] == ["cells.tif"]
