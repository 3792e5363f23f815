"""Poor ground through the whole run: doubt widens, every block is ranked, and it is said."""

import json
import shutil
from pathlib import Path

import numpy as np
import pytest
import rasterio
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.pipeline import Outcome, run, write
from tests.demo_run import FARM, demo_outcome

ELEVATION = "elevation.tif"


@pytest.fixture(scope="module")
def half_covered(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Outcome]:
    """Return the demo farm with an elevation file of its western half."""
    folder = tmp_path_factory.mktemp("half") / "farm"
    shutil.copytree(FARM, folder)
    west, _, east, _ = demo_outcome().farm.blocks.total_bounds
    with rasterio.open(folder / ELEVATION) as raster:
        profile, grid = raster.profile, raster.read(1)
    columns = int(((west + east) / 2 - profile["transform"].c) / profile["transform"].a)
    profile.update(width=columns)
    with rasterio.open(folder / ELEVATION, "w", **profile) as raster:
        raster.write(grid[:, :columns], 1)
    return folder, run(folder)


def test_elevation_of_half_the_farm_ranks_both_halves(
    half_covered: tuple[Path, Outcome],
) -> None:
    season, whole = half_covered[1].season, demo_outcome().season
    covered = season.terrain_covered.values
    assert (covered == 0.0).sum() > 5
    assert (covered == 1.0).sum() > 5
    assert np.isfinite(season.hazard_ahead.values).all()
    spray = half_covered[1].spray
    placed = {entry.block for entry in (*spray.entries, *spray.cannot_now, *spray.not_ranked)}
    assert placed == set(season.block.values.tolist())
    assert not [entry for entry in spray.not_ranked if "not known" in entry.reason]
    is_off = covered == 0.0
    pool = season.factors.sel(factor="cool pool").values
    assert (pool[is_off] == 1.0).all()
    assert (season.doubt.values[is_off] > whole.doubt.values[is_off]).all()
    assert (season.elevation.values[is_off] == half_covered[1].farm.station_elevation).all()


def test_what_is_not_covered_is_said_in_notes_on_the_record_and_on_the_page(
    half_covered: tuple[Path, Outcome], tmp_path: Path
) -> None:
    folder, outcome = half_covered
    off = outcome.season.block.values[outcome.season.terrain_covered.values == 0.0].tolist()
    notes = [issue for issue in outcome.farm.issues if issue.code == "E-GROUND-COVER"]
    assert {note.where for note in notes} >= {f'{ELEVATION} block "{block}"' for block in off}
    assert {note.outcome for note in notes} == {"NOTE"}
    write(outcome, tmp_path)
    ground = json.loads((tmp_path / "run.json").read_text("utf-8"))["ground"]
    assert ground["vertical_error_m"] == 0.0
    assert {name for name, known in ground["poorly_known"].items() if not known["share_known"]} == (
        set(off)
    )
    page = (tmp_path / "block-map.html").read_text("utf-8")
    assert "Ground: the elevation file has none of it" in page
    told = CliRunner().invoke(app, ["why", off[0], "--farm", str(folder)])
    assert told.exit_code == 0, told.output
    assert f"{off[0]}. Ground: the elevation file has none of it" in told.stdout


def test_good_ground_leaves_the_demo_without_a_word() -> None:
    season = demo_outcome().season
    assert season.terrain_covered.values.tolist() == [1.0] * season.sizes["block"]
    assert float(season.terrain_doubt.max()) == 0.0
