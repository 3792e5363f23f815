"""The check: what it prints and writes, and how it ends."""

import csv
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from rich.console import Console
from typer.testing import CliRunner, Result

from geo.cli import checking
from geo.cli.commands import app
from geo.cli.speech import FAILED, PARTIAL
from geo.exports.offline import check_offline
from tests.demo_run import FARM

Type = Callable[..., Result]


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Type:
    """Type a command in an empty folder."""
    monkeypatch.chdir(tmp_path)
    return lambda *words: CliRunner().invoke(app, [str(word) for word in words])


@pytest.fixture
def own_farm(tmp_path: Path) -> Path:
    """Return a copy of the demo farm that a test may spoil."""
    return Path(shutil.copytree(FARM, tmp_path / "own farm"))


def add_spray(farm: Path, row: str) -> None:
    with (farm / "diary.csv").open("a", encoding="utf-8") as diary:
        diary.write(f"{row}\n")


def table(path: str) -> list[dict[str, str]]:
    with Path(path).open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def test_a_farm_without_a_fault_ends_with_nought_and_strictly_with_three(typed: Type) -> None:
    told = typed("check", FARM)
    assert told.exit_code == 0
    assert told.stdout.startswith(
        "Made Valley Farm (made scenario)\nMeasured from 2026-01-04 00:00 "
    )
    assert "Everything can be used. 1 NOTE in 10 files." in told.stdout
    assert typed("check", FARM, "--strict").exit_code == PARTIAL


def test_outside_a_farm_the_demo_is_checked_and_that_is_said(typed: Type) -> None:
    told = typed("check")
    assert told.exit_code == 0
    assert "made demo farm" in told.stderr


def test_a_row_set_aside_ends_with_three_and_stands_in_the_table(
    typed: Type, own_farm: Path
) -> None:
    add_spray(own_farm, "2026-02-10,06:00,B99,sulfur,M02,no such block")
    told = typed("check", own_farm, "--out", "out")
    assert told.exit_code == PARTIAL
    assert "HOLD (1): set aside; everything else is used" in told.stdout
    held, noted = table("out/check.csv")
    assert (held["outcome"], noted["outcome"]) == ("HOLD", "NOTE")
    assert held["code"] == "E-BLOCK-UNKNOWN"
    assert (held["file"], held["column"], held["value"]) == ("diary.csv", "block_id", "B99")
    assert int(held["row"]) == len((own_farm / "diary.csv").read_text("utf-8").splitlines())
    assert "nearest" in held["fix"]


def test_a_farm_that_cannot_be_used_ends_with_two_and_is_written_down_all_the_same(
    typed: Type, own_farm: Path
) -> None:
    (own_farm / "blocks.geojson").write_text("no map", "utf-8")
    add_spray(own_farm, "2026-02-10,06:00,B01,sulphur,M02,a slip")
    told = typed("check", own_farm, "--out", "out")
    assert told.exit_code == FAILED
    assert "The farm cannot be used as it stands." in told.stdout
    assert [row["outcome"] for row in table("out/check.csv")] == ["STOP", "HOLD"]
    page = Path("out/check.html").read_text("utf-8")
    assert page.index("STOP (1)") < page.index("HOLD (1)")


def test_a_folder_without_settings_is_told_like_any_fault(typed: Type) -> None:
    told = typed("check", "nowhere", "--out", "out")
    assert told.exit_code == FAILED
    assert "farm.toml: not found" in told.stdout
    assert Path("out/check.html").is_file()


def test_what_users_write_is_text_on_the_page_and_in_the_table(typed: Type, own_farm: Path) -> None:
    add_spray(own_farm, '2026-02-10,06:00,<script>alert(1)</script>,sulfur,M02,""')
    add_spray(own_farm, '2026-02-10,06:00,=1+1,sulfur,M02,""')
    typed("check", own_farm, "--out", "out")
    page = Path("out/check.html").read_text("utf-8")
    assert "<script" not in page
    assert "&lt;script&gt;alert(1)" in page
    check_offline(page)
    assert {row["value"] for row in table("out/check.csv")} >= {"'=1+1"}


def test_the_same_farm_gives_the_same_bytes(typed: Type) -> None:
    typed("check", FARM, "--out", "one")
    typed("check", FARM, "--out", "two")
    for name in ("check.html", "check.csv"):
        assert (Path("one") / name).read_bytes() == (Path("two") / name).read_bytes()


def test_a_folder_that_cannot_be_written_is_one_line(typed: Type, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file", "utf-8")
    told = typed("check", FARM, "--out", "taken")
    assert told.exit_code == FAILED
    assert told.stderr.startswith("E-OUT-WRITE STOP taken: cannot be written to")


def test_no_file_of_the_farm_is_overwritten(typed: Type, own_farm: Path) -> None:
    (own_farm / "diary.csv").rename(own_farm / "check.csv")
    settings = (own_farm / "farm.toml").read_text("utf-8")
    (own_farm / "farm.toml").write_text(settings.replace("diary.csv", "check.csv"), "utf-8")
    told = typed("check", own_farm, "--out", own_farm)
    assert told.exit_code == FAILED
    assert told.stderr.startswith("E-OUT-INPUT STOP")


def test_a_wide_screen_shows_a_table_and_takes_no_marks_from_users(
    typed: Type, own_farm: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Wide(Console):
        def __init__(self, **options: bool) -> None:
            super().__init__(force_terminal=True, width=130, color_system=None, **options)

    monkeypatch.setattr(checking, "Console", Wide)
    add_spray(own_farm, "2026-02-10,06:00,[red]B99[/red],sulfur,M02,no such block")
    told = typed("check", own_farm)
    lines = told.stdout.splitlines()
    (heading,) = {line for line in lines if "what is wrong" in line}
    assert heading.index("where") < heading.index("what is wrong") < heading.index("what to do")
    assert '"[red]B99[/red]"' in told.stdout
