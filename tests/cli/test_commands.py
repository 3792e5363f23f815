"""The commands, as typed: what they print, where, and how they end."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from geo import __version__
from geo.cli import main
from geo.cli.choices import demo_farm
from geo.cli.commands import app
from geo.cli.speech import FAILED, PARTIAL
from tests.demo_run import FARM, demo_outcome

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


def test_the_version_is_the_packages(typed: Type) -> None:
    told = typed("--version")
    assert (told.exit_code, told.stdout) == (0, f"mangoblock {__version__}\n")


def test_help_names_each_command_and_comes_without_asking(typed: Type) -> None:
    asked, unasked = typed("--help"), typed()
    assert asked.exit_code == 0
    for command in ("map", "check", "demo", "why", "suppose"):
        assert f" {command} " in asked.output
        assert f" {command} " in unasked.output


def test_the_demo_farm_is_found_wherever_the_tool_is_installed() -> None:
    assert (demo_farm() / "farm.toml").is_file()


def test_the_demo_writes_into_outputs_unless_told_otherwise(typed: Type, tmp_path: Path) -> None:
    told = typed("demo")
    assert told.exit_code == 0
    assert (tmp_path / "outputs" / "block-map.html").is_file()


def test_the_installed_command_is_this_one(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.argv", ["mangoblock", "--version"])
    with pytest.raises(SystemExit) as ended:
        main()
    assert (ended.value.code, capsys.readouterr().out) == (0, f"mangoblock {__version__}\n")


def test_a_farm_that_is_not_there_is_one_line_and_nothing_is_written(
    typed: Type, tmp_path: Path
) -> None:
    told = typed("map", "no such farm", "--out", "out")
    assert told.exit_code == FAILED
    assert told.stdout == ""
    (line,) = told.stderr.splitlines()
    assert line.startswith("E-FILE-MISSING STOP farm.toml")
    assert "no such farm" in line
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_written_is_one_line(typed: Type, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file", "utf-8")
    told = typed("map", FARM, "--out", "taken")
    assert told.exit_code == FAILED
    (line,) = told.stderr.splitlines()
    assert line.startswith("E-OUT-WRITE STOP taken: cannot be written to")


def test_every_fault_of_a_farm_is_told_not_only_the_first(typed: Type, own_farm: Path) -> None:
    text = (own_farm / "farm.toml").read_text("utf-8")
    spoilt = text.replace("horizon_days = 3", "horizon_days = 0").replace('"washoff"', '"magic"')
    (own_farm / "farm.toml").write_text(spoilt, "utf-8")
    told = typed("map", own_farm, "--out", "out")
    assert told.exit_code == FAILED
    assert "horizon_days" in told.stderr
    assert '"magic"' in told.stderr


def test_a_row_that_was_set_aside_is_told_and_shows_in_the_exit_code(
    typed: Type, own_farm: Path
) -> None:
    with (own_farm / "diary.csv").open("a", encoding="utf-8") as diary:
        diary.write("2026-02-10,06:00,B99,sulfur,M02,no such block\n")
    told = typed("map", own_farm, "--out", "out")
    assert told.exit_code == PARTIAL
    assert "HOLD diary.csv" in told.stderr
    assert '"B99"' in told.stderr
    assert Path("out/block-map.html").is_file()


def test_why_outside_a_farm_answers_for_the_demo_and_says_so(typed: Type) -> None:
    told = typed("why", "B10")
    assert told.exit_code == 0
    assert "made demo farm" in told.stderr
    reference = demo_outcome().spray.reference_block
    assert told.stdout.startswith(f"B10 against {reference}: ")


def test_why_in_a_farm_folder_answers_for_that_farm(
    typed: Type, own_farm: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(own_farm)
    told = typed("why", "B10")
    assert (told.exit_code, told.stderr) == (0, "")


def test_why_of_a_block_against_itself_is_level(typed: Type) -> None:
    told = typed("why", "B10", "--against", "B10", "--farm", FARM)
    assert told.exit_code == 0
    assert "1.0000" in told.stdout.splitlines()[3]
    (total,) = (line for line in told.stdout.splitlines() if line.startswith("all together"))
    assert total.split()[-1] == "1.000"
    lines = told.stdout.splitlines()
    at = lines.index("This is the block that it is held against.")
    waiting, spores, sprays, look, head, *materials = lines[at + 1 :]
    assert waiting.startswith("B10. Not worth it now: Its sprays still prevent 0.35 or more until ")
    assert spores.startswith("B10. Other outlines' spores come ")
    assert sprays.startswith("B10. Sprays: sulfur of 11 February: ")
    assert "mm of rain or" in sprays
    assert look.startswith("B10. Scouting order no. ")
    assert head == "What could be sprayed in B10, from your own label file:"
    assert len(materials) == 4
    assert all(line.endswith("Check the label.") for line in materials)


@pytest.mark.parametrize("words", [("B99",), ("B10", "--against", "B99")])
def test_a_block_that_is_not_there_is_one_line_with_those_that_are(
    words: tuple[str, ...], typed: Type
) -> None:
    told = typed("why", *words, "--farm", FARM)
    assert told.exit_code == FAILED
    assert told.stdout == ""
    (line,) = told.stderr.splitlines()
    assert line.startswith("E-BLOCK-UNKNOWN STOP")
    assert 'no block "B99"' in line
    assert "B01, B02" in line
    assert len(line) < 300


@pytest.mark.parametrize("name", ["fruit_anthracnose", "Anthracnose on  fruit"])
def test_why_answers_for_any_disease_by_key_or_name(name: str, typed: Type) -> None:
    told = typed("why", "B10", "--disease", name, "--farm", FARM)
    assert told.exit_code == 0
    season = demo_outcome().seasons["fruit_anthracnose"]
    assert told.stdout.splitlines()[1] == "Of anthracnose on fruit."
    (total,) = (line for line in told.stdout.splitlines() if line.startswith("all together"))
    assert float(total.split()[2]) == pytest.approx(
        float(season.hazard_ahead.sel(block="B10")), rel=1e-3
    )


def test_why_of_the_chosen_disease_by_name_is_why_without_one(typed: Type) -> None:
    by_name = typed("why", "B10", "--disease", "powdery mildew on panicles", "--farm", FARM)
    assert by_name.stdout == typed("why", "B10", "--farm", FARM).stdout


def test_a_disease_that_is_not_there_is_one_line_with_those_that_are(typed: Type) -> None:
    told = typed("why", "B10", "--disease", "rust", "--farm", FARM)
    assert (told.exit_code, told.stdout) == (FAILED, "")
    assert told.stderr == (
        'E-DISEASE-UNKNOWN STOP --disease: no disease "rust". '
        "Try: panicle_mildew, leaf_mildew, blossom_anthracnose, fruit_anthracnose.\n"
    )
