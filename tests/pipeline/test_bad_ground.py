"""Poor ground through the whole run: doubt widens, every block is ranked, and it is said."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import rasterio
import xarray as xr
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.pipeline import Outcome, run, write
from tests.demo_run import FARM, demo_outcome
from tests.exports.page_columns import data_of
from tests.inputs.ground_files import ELEVATION, coarser, in_degrees, rewrite

NOTHING = -9999.0

NONE_OF_IT = "Ground: the elevation file has none of it"


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
    lists = (spray.entries, spray.not_worth, spray.cannot_now, spray.not_ranked)
    placed = {entry.block for entries in lists for entry in entries}
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
    told_on_page = data_of((tmp_path / "block-map.html").read_text("utf-8"))["blocks"]
    words = dict(zip(told_on_page["id"], told_on_page["ground"], strict=True))
    assert {block for block in words if words[block].startswith(NONE_OF_IT)} == set(off)
    told = CliRunner().invoke(app, ["why", off[0], "--farm", str(folder)])
    assert told.exit_code == 0, told.output
    assert f"{off[0]}. {NONE_OF_IT}" in told.stdout


def test_good_ground_leaves_the_demo_without_a_word() -> None:
    season = demo_outcome().season
    assert season.terrain_covered.values.tolist() == [1.0] * season.sizes["block"]
    assert float(season.terrain_doubt.max()) == 0.0


def middle_of(block: str) -> tuple[float, float]:
    point = demo_outcome().farm.blocks.loc[block].geometry.representative_point()
    return point.x, point.y


def far_from(x: np.ndarray, y: np.ndarray, *, block: str, metres: float) -> np.ndarray:
    east, north = middle_of(block)
    return np.hypot(x - east, y - north) > metres


def with_hole(folder: Path) -> None:
    def change(grid: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.where(far_from(x, y, block="B12", metres=40.0), grid, NOTHING)

    rewrite(folder, change, nodata=NOTHING)


def cut_close(folder: Path) -> None:
    east = demo_outcome().farm.blocks.total_bounds[2] + 60.0
    rewrite(folder, lambda grid, x, _: np.where(x > east, NOTHING, grid), nodata=NOTHING)


def in_whole_metres(folder: Path) -> None:
    rewrite(folder, lambda grid, *_: np.round(grid))


def with_an_error(folder: Path) -> None:
    settings = (folder / "farm.toml").read_text("utf-8")
    settings = settings.replace("# vertical_error = 2.0", "vertical_error = 2.0")
    (folder / "farm.toml").write_text(settings, "utf-8")


def by_a_sea(folder: Path) -> None:
    """Let the demo's valley stand at the sea, its deepest block in what is 0 m in the file."""
    deepest = demo_outcome().season.pool_depth.idxmax("block").item()

    def change(grid: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        is_sea = ~far_from(x, y, block=deepest, metres=150.0)
        return np.where(is_sea, 0.0, grid - grid[is_sea].min() + 0.2)

    rewrite(folder, change)
    settings = (folder / "farm.toml").read_text("utf-8")
    (folder / "farm.toml").write_text(settings.replace("elevation = 416", "elevation = 5"), "utf-8")


@pytest.mark.parametrize(
    ("spoil", "code"),
    [
        (with_hole, "E-GROUND-EDGE"),
        (cut_close, "E-GROUND-EDGE"),
        (in_whole_metres, "E-GROUND-STEPS"),
        (with_an_error, "E-GROUND-ERROR"),
        (lambda folder: coarser(folder, 180.0), "E-GROUND-COARSE"),
        (by_a_sea, "E-GROUND-ZERO"),
    ],
    ids=["hole", "edge", "steps", "error", "coarse", "sea"],
)
def test_each_fault_of_the_ground_is_said_and_widens_the_doubt_of_ranked_blocks(
    spoil: Callable[[Path], None], code: str, tmp_path: Path
) -> None:
    shutil.copytree(FARM, tmp_path / "farm")
    spoil(tmp_path / "farm")
    outcome = run(tmp_path / "farm")
    assert code in {issue.code for issue in outcome.farm.issues}
    ground = outcome.season.terrain_doubt.values
    assert ground.max() > 0.0
    assert np.isfinite(outcome.season.hazard_ahead.values).all()
    assert np.isfinite(outcome.season.pool_depth.values).all()
    without = np.sqrt(outcome.season.doubt.values**2 - ground**2)
    assert (outcome.season.doubt.values[ground > 0.0] > without[ground > 0.0]).all()


def test_whole_metres_make_no_pools_where_the_true_ground_has_none(tmp_path: Path) -> None:
    shutil.copytree(FARM, tmp_path / "farm")
    in_whole_metres(tmp_path / "farm")
    rounded = run(tmp_path / "farm").season.pool_depth_grid.values
    true = demo_outcome().season.pool_depth_grid.values
    assert rounded[true == 0.0].mean() < 0.02
    assert rounded.mean() < true.mean()


def in_feet(folder: Path) -> None:
    rewrite(folder, lambda grid, *_: grid / 0.3048, unit="ft")


@pytest.mark.parametrize(
    ("turn", "slope_tolerance", "depth_tolerance"),
    [(in_feet, 1e-4, 1e-4), (lambda folder: in_degrees(folder, nodata=NOTHING), 0.05, 0.1)],
    ids=["feet", "degrees"],
)
def test_the_same_ground_in_feet_or_degrees_has_the_same_slopes_and_pools(
    turn: Callable[[Path], None],
    slope_tolerance: float,
    depth_tolerance: float,
    tmp_path: Path,
) -> None:
    shutil.copytree(FARM, tmp_path / "farm")
    turn(tmp_path / "farm")
    found, true = run(tmp_path / "farm").season, demo_outcome().season
    # Straight lines between cells smooth the ground a little: twice, for degrees.
    np.testing.assert_allclose(found.slope, true.slope, atol=slope_tolerance)
    np.testing.assert_allclose(found.pool_depth, true.pool_depth, atol=depth_tolerance)
    np.testing.assert_allclose(found.elevation, true.elevation, atol=depth_tolerance)
    assert xr.corr(found.hazard_ahead, true.hazard_ahead) > 0.999
    assert found.terrain_covered.values.tolist() == [1.0] * found.sizes["block"]
