"""The commands that lay blocks side by side and draw them, as typed."""

import re
import sys
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner, Result

from geo.cli.beside import _check_names, side_by_side_lines
from geo.cli.commands import app
from geo.cli.speech import FAILED
from geo.comparison.side_by_side import side_by_side
from tests.demo_run import FARM, demo_outcome


def typed(*words: str, out: Path) -> Result:
    return CliRunner().invoke(app, [*words, "--farm", str(FARM), "--out", str(out)])


def test_compare_prints_what_the_page_says_and_writes_it(tmp_path: Path) -> None:
    told = typed("compare", "B10", "B14", "B10", out=tmp_path)
    assert (told.exit_code, told.stderr) == (0, "")
    assert "B14 against B10: mean hazard index of 2026-02-18 to 2026-02-20" in told.stdout
    assert "  B10  Mon 16 Feb  24 of 200: 12 % (6.3 to 22)" in told.stdout
    assert "area under the curve 136 % x days, mean 8.0 %, Fri 30 Jan to Mon 16 Feb" in told.stdout
    assert "Cultivar and place go together here" in told.stdout
    assert "No untreated check is named, so no efficacy can be told" in told.stdout
    assert "after Abbott" not in told.stdout
    assert [path.name for path in tmp_path.iterdir()] == ["comparison.html"]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("B10",), "E-COMPARE-ONE STOP mangoblock compare: one block has nothing beside it."),
        (("B10", "B10"), "E-COMPARE-ONE"),
        (("B10", "B99"), 'E-BLOCK-UNKNOWN STOP .*no block "B99"'),
        (("B10", "B14", "--untreated", "B99"), "E-BLOCK-UNKNOWN STOP --untreated"),
        (("B10", "B14", "--disease", "rust"), "E-DISEASE-UNKNOWN"),
        (
            ("B10", "B14", "--untreated", "B08"),
            "E-CHECK-SPRAYED STOP --untreated: the diary has sprays on B08 .copper, sulfur",
        ),
    ],
)
def test_compare_refuses_in_words(words, code, tmp_path: Path) -> None:
    told = typed("compare", *words, out=tmp_path)
    assert told.exit_code == FAILED
    assert told.stdout == ""
    assert len(told.stderr.splitlines()) == 1
    assert re.match(code, told.stderr)
    assert list(tmp_path.iterdir()) == []


def test_a_block_without_sprays_passes_for_a_check() -> None:
    season = demo_outcome().season
    bare = season.isel(spray=season.spray_block.values != 7)
    _check_names(bare, ["B10", "B14"], "B08", "here")


def test_a_check_is_told_with_its_interval() -> None:
    demo = demo_outcome()
    check = demo.season.block.values.tolist().index("B01")
    season = demo.season.isel(spray=demo.season.spray_block.values != check)
    compared = side_by_side(season, ["B10", "B14"], untreated="B01")
    text = "\n".join(side_by_side_lines(compared, demo, season))
    assert "What the sprays did, against B01 as the untreated check:" in text
    assert "  B14  after Abbott " in text
    assert "One check, not repeated" in text


def test_without_counts_it_says_that_nobody_counted() -> None:
    demo = demo_outcome()
    season = demo.season.isel(visit=np.zeros(0, dtype=int))
    lines = list(side_by_side_lines(side_by_side(season, ["B10", "B14"]), demo, season))
    assert "Nobody counted in these blocks." in lines
    assert "Cultivars: no block of a single one was counted in the last two weeks." in lines


def test_plots_writes_pages_and_on_request_files(tmp_path: Path) -> None:
    told = typed("plots", out=tmp_path)
    assert (told.exit_code, told.stderr) == (0, "")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["blocks-by-day.html", "season.html"]
    told = typed("plots", "B14", "B10", "B14", "--svg", out=tmp_path)
    assert "made scenario" in told.stdout
    assert sorted(path.name for path in (tmp_path / "drawings").iterdir()) == [
        "blocks-by-day.svg",
        "season-010-B10.svg",
        "season-014-B14.svg",
    ]


def test_plots_writes_png_beside_each_drawing(tmp_path: Path) -> None:
    told = typed("plots", "B10", "--png", out=tmp_path)
    assert told.exit_code == 0
    assert sorted(path.name for path in (tmp_path / "drawings").iterdir()) == [
        "blocks-by-day.png",
        "blocks-by-day.svg",
        "season-010-B10.png",
        "season-010-B10.svg",
    ]


def test_plots_says_how_to_get_what_renders_png(tmp_path, monkeypatch) -> None:
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    told = typed("plots", "B10", "--png", out=tmp_path)
    assert told.exit_code == FAILED
    assert told.stderr.startswith("E-PNG-LIBRARY STOP --png: the library that renders PNG")
    assert "mangoblock-risk[png]" in told.stderr
    assert list(tmp_path.iterdir()) == []


def test_plots_refuses_a_block_that_is_not_there(tmp_path: Path) -> None:
    told = typed("plots", "B99", out=tmp_path)
    assert told.exit_code == FAILED
    assert told.stderr.startswith("E-BLOCK-UNKNOWN STOP")
