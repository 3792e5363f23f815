"""What changed since an earlier run, as a person asks for it."""

import json
import shutil
from collections.abc import Callable
from math import prod
from pathlib import Path

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.pipeline import run
from geo.pipeline.changes import changes_since
from geo.reference.diseases import disease_with
from tests.demo_run import FARM, demo_folder, demo_outcome

RECORD = "run.json"
Told = Callable[..., tuple[int, str]]


@pytest.fixture
def told() -> Told:
    def tell(*words: str) -> tuple[int, str]:
        found = CliRunner().invoke(app, ["changes", *words])
        return found.exit_code, found.output

    return tell


@pytest.fixture
def sprayed(tmp_path: Path) -> Path:
    """Return the demo farm with one more spray in its diary."""
    farm = Path(shutil.copytree(FARM, tmp_path / "farm"))
    with (farm / "diary.csv").open("a", encoding="utf-8") as diary:
        diary.write("2026-02-17,07:00,B24,sulfur,M02,\n")
    return farm


def test_identical_inputs_have_changed_nothing(told: Told) -> None:
    record = str(demo_folder() / RECORD)
    assert told("--since", record, "--farm", str(FARM)) == (0, "Nothing changed.\n")


def test_a_spray_is_named_as_the_cause_and_its_block_has_an_exact_split(
    told: Told, sprayed: Path
) -> None:
    code, said = told("--since", str(demo_folder() / RECORD), "--farm", str(sprayed))
    assert code == 0
    assert 'diary: 19 used of "diary.csv", 18 then: sprays' in said
    assert "B24: 0.49 times then: more protection is left on it (× 0.49)." in said
    assert "B23 against then" not in said  # a neighbour that moved by less than anybody sees


def test_a_find_typed_in_after_a_walk_moves_its_block_by_what_is_told(
    told: Told, tmp_path: Path
) -> None:
    farm = Path(shutil.copytree(FARM, tmp_path / "farm"))
    with (farm / "scouting.csv").open("a", encoding="utf-8") as looks:
        looks.write("2026-02-17,B07,110,30,,from the tally\n")
    code, said = told("--since", str(demo_folder() / RECORD), "--farm", str(farm))
    assert code == 0
    assert 'scouting: 34 used of "scouting.csv", 33 then: counts or stages entered' in said
    after, before = (one.season.hazard_ahead.to_series() for one in (run(farm), demo_outcome()))
    ratio = after["B07"] / before["B07"]
    assert ratio > 1.2
    assert f"B07: {ratio:.2g} times then: more of its own panicles carry mildew (× " in said


def test_the_ratios_of_each_block_multiply_to_its_change(sprayed: Path) -> None:
    for key in ("panicle_mildew", "leaf_mildew"):
        found = changes_since(demo_folder() / RECORD, run(sprayed), disease_with(key))
        assert found.is_any
        for move in found.moves:
            split = prod(row.ratio for row in move.comparison.rows)
            assert split == pytest.approx(move.comparison.ratio, rel=1e-9)
        (most,) = [move for move in found.moves if move.block == "B24"]
        assert most.comparison.ratio < 0.8


def changed_record(path: Path, **parts: object) -> str:
    """Write the demo's record with other parts, and return where."""
    record = json.loads((demo_folder() / RECORD).read_text("utf-8"))
    path.write_text(json.dumps(record | parts), "utf-8")
    return str(path)


def test_other_days_files_settings_tables_and_blocks_are_told(told: Told, tmp_path: Path) -> None:
    record = json.loads((demo_folder() / RECORD).read_text("utf-8"))
    mildew = record["diseases"]["panicle_mildew"]
    mildew["factors"]["OLD"] = mildew["factors"].pop("B02")
    mildew["hazard_ahead"]["OLD"] = mildew["hazard_ahead"].pop("B02")
    mildew["hazard_ahead"]["B01"] = None
    mildew["factors"]["B01"] = dict.fromkeys(mildew["factors"]["B01"])
    files = [file for file in record["files"] if file["role"] != "scouting"]
    past = changed_record(
        tmp_path / "past.json",
        today="2026-02-17",
        files=[*files, {"role": "loggers", "name": "air.csv", "sha256": "0", "used": 3}],
        settings=record["settings"] | {"kernel": "exponential"},
        parameter_set=record["parameter_set"] | {"mildew.csv": "other"},
        diseases=record["diseases"] | {"panicle_mildew": mildew},
    )
    code, said = told("--since", past, "--farm", str(FARM))
    assert code == 0
    for words in (
        "Against the run of 2026-02-17:",
        "today is 2026-02-18, was 2026-02-17",
        'scouting: a file, "scouting.csv", where there was none',
        "loggers: no file any more",
        'setting kernel is "two_dt", was "exponential"',
        "parameter table mildew.csv is another",
        "New blocks (1): B02",
        "No longer there (1): OLD",
        "A hazard ahead; not known then.",
    ):
        assert words in said


def test_a_change_of_no_consequence_is_told_as_one(told: Told, tmp_path: Path) -> None:
    record = json.loads((demo_folder() / RECORD).read_text("utf-8"))
    software = record["software"] | {"numpy": "1.0"}
    past = changed_record(tmp_path / "past.json", software=software)
    _, said = told("--since", past, "--farm", str(FARM))
    assert 'version of numpy is "' in said
    assert "No block's hazard or rank changed." in said


def test_a_move_without_a_cause_says_so_and_a_long_table_is_cut_short(
    told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = json.loads((demo_folder() / RECORD).read_text("utf-8"))
    mildew = record["diseases"]["panicle_mildew"]
    for block in ("B03", "B04"):
        mildew["hazard_ahead"][block] *= 2.0
        mildew["factors"][block]["stage"] *= 2.0
    past = changed_record(tmp_path / "past.json", diseases=record["diseases"])
    monkeypatch.setattr("geo.cli.since.MOST_SHOWN", 1)
    _, said = told("--since", past, "--farm", str(FARM))
    assert "no input, setting, parameter or version differs" in said
    assert " more\n" in said
    assert "The same as then: " in said


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (None, "cannot be read"),
        ("{", "is no run record"),
        ("[" * 100_000, "is no run record"),
        ("[]", "or one of an older form"),
        ('{"farm": "Made Valley Farm"}', "or one of an older form"),
    ],
)
def test_what_is_no_record_is_refused_in_one_line(
    told: Told, tmp_path: Path, text: str | None, found: str
) -> None:
    path = tmp_path / "old.json"
    if text is not None:
        path.write_text(text, "utf-8")
    code, said = told("--since", str(path), "--farm", str(FARM))
    assert code == 2
    assert found in said
    assert said.startswith("E-RUN-RECORD STOP")


def test_a_record_of_another_farm_or_without_the_disease_is_refused(
    told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = changed_record(tmp_path / "other.json", farm="Elsewhere")
    assert 'is of another farm, "Elsewhere"' in told("--since", other, "--farm", str(FARM))[1]
    none = changed_record(tmp_path / "none.json", diseases={})
    assert "does not hold the disease" in told("--since", none, "--farm", str(FARM))[1]
    monkeypatch.setattr("geo.inputs.earlier_run.LARGEST_BYTES", 10)
    assert "too large" in told("--since", none, "--farm", str(FARM))[1]


def test_a_run_is_held_against_itself_for_any_disease() -> None:
    for key in demo_outcome().seasons:
        assert not changes_since(demo_folder() / RECORD, demo_outcome(), disease_with(key)).is_any
