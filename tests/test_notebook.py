"""The five lines of a notebook give the same order as the command."""

import doctest
import os
import subprocess
import sys
from pathlib import Path

import geopandas as gpd
import numpy as np
import pytest

import geo
from geo.errors import InputError
from geo.exports.notebook_map import COLOURS
from tests.demo_run import FARM, demo_outcome

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def blocks() -> gpd.GeoDataFrame:
    return geo.rank(FARM)


def test_blocks_come_in_the_spray_order_then_by_hazard(blocks: gpd.GeoDataFrame) -> None:
    order = [entry.block for entry in demo_outcome().spray.entries]
    assert list(blocks.index[: len(order)]) == order
    rest = blocks["hazard_ahead"].to_numpy()[len(order) :]
    assert (np.diff(rest) <= 0).all()


def test_another_disease_has_its_own_numbers() -> None:
    blocks = geo.rank(FARM, disease="leaf_mildew")
    season = demo_outcome().seasons["leaf_mildew"]
    ahead = season.hazard_ahead.to_series()
    np.testing.assert_array_equal(blocks["hazard_ahead"], ahead[blocks.index])


def test_a_disease_we_do_not_know_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="one of panicle_mildew"):
        geo.rank(FARM, disease="rust")


def test_a_folder_that_is_no_farm_is_refused_as_by_the_command(tmp_path: Path) -> None:
    with pytest.raises(InputError):
        geo.rank(tmp_path)


def test_the_map_shows_every_block_without_fetching_tiles(blocks: gpd.GeoDataFrame) -> None:
    html = geo.draw(blocks).get_root().render()
    assert all(f'"{block}"' in html for block in blocks.index)
    assert "tileLayer" not in html
    shades = {COLOURS[word] for word in blocks["class_ahead"]}
    assert all(shade in html for shade in shades)


def test_no_blocks_give_no_map(blocks: gpd.GeoDataFrame) -> None:
    with pytest.raises(ValueError, match="no blocks"):
        geo.draw(blocks.iloc[:0])


def test_a_name_that_is_not_there_is_told_as_python_does() -> None:
    with pytest.raises(AttributeError, match="no attribute 'ranks'"):
        _ = geo.ranks


def test_importing_the_library_imports_no_science_library() -> None:
    script = "import sys, geo; print(*{'numpy', 'pandas', 'xarray', 'folium'} & set(sys.modules))"
    run = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == ""


def test_the_tutorial_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    result = doctest.testfile(str(ROOT / "layers_demo" / "tutorial.md"), module_relative=False)
    assert result.attempted > 20
    assert result.failed == 0


def test_the_pages_of_the_library_are_made_from_its_docstrings(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "pdoc", "geo", "-d", "numpy", "-o", str(tmp_path)]
    run = subprocess.run(
        command,
        cwd=ROOT,
        env=os.environ | {"PDOC_ALLOW_EXEC": "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    assert "Warn" not in run.stderr
    page = (tmp_path / "geo.html").read_text("utf-8")
    assert "those to spray first on top" in page
