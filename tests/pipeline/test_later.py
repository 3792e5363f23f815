"""A job asked for alone leaves the record of the folder true of every file it names."""

import hashlib
import json
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.pipeline.later import note_later
from geo.pipeline.today import today_of, write_today
from geo.pipeline.walk import OURS
from tests.demo_run import FARM, NAMES, OF_TODAY, demo_folder, demo_outcome

SHEETS = {"day-sheet.html", "day-sheet.pdf", "round.gpx", "round.csv", "spray-record.csv"}
WALK = set(OURS)


@pytest.fixture(autouse=True)
def one_run(monkeypatch: pytest.MonkeyPatch) -> None:
    """Take the demo as run once: these tests are of what is done with it."""
    monkeypatch.setattr("geo.pipeline.run", lambda _, **__: demo_outcome())


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with the map and no sheets."""
    return Path(shutil.copytree(demo_folder(), tmp_path / "out"))


def typed(job: str, folder: Path, *words: str) -> None:
    of = ["--farm", str(FARM)] if job == "plots" else [str(FARM)]
    told = CliRunner().invoke(app, [job, *of, *words, "--out", str(folder)])
    assert told.exit_code == 0, told.output


def record_in(folder: Path) -> dict[str, Any]:
    record: dict[str, Any] = json.loads((folder / "run.json").read_text("utf-8"))
    return record


def names_of(told: list[dict[str, Any]]) -> list[str]:
    return [one["name"] for one in told]


def assert_true_of_files(folder: Path) -> dict[str, Any]:
    record = record_in(folder)
    told = [*record["outputs"], *record["later"]]
    assert len(names_of(told)) == len(set(names_of(told)))
    for one in told:
        content = (folder / one["name"]).read_bytes()
        digest = hashlib.sha256(content).hexdigest()
        assert (one["bytes"], one["sha256"]) == (len(content), digest), one["name"]
    return record


def test_sheets_of_another_round_stand_among_what_came_later_with_what_was_asked(
    tmp_path: Path,
) -> None:
    write_today(demo_outcome(), today_of(demo_outcome(), walk_hours=2.0), tmp_path)
    before = record_in(tmp_path)
    assert before["later"] == []
    typed("round", tmp_path, "--hours", "1", "--start", "6:30", "--sprayers", "1")
    record = assert_true_of_files(tmp_path)
    assert set(names_of(record["later"])) == SHEETS
    assert set(names_of(record["outputs"])) == (NAMES | OF_TODAY) - SHEETS - {"run.json"}
    for one in record["later"]:
        assert one["asked"] == {
            "job": "round",
            "disease": "panicle_mildew",
            "hours": 1.0,
            "start": "06:30:00",
            "sprayers": 1,
        }
        assert (one["farm"], one["today"]) == ("Made Valley Farm", "2026-02-18")
        assert one["inputs_that_differ"] == []
    changed = {part for part in record if record[part] != before[part]}
    assert changed == {"outputs", "later"}


def test_the_last_of_several_jobs_counts_and_a_new_run_begins_anew(folder: Path) -> None:
    typed("walk", folder, "--hours", "2")
    first = assert_true_of_files(folder)
    assert set(names_of(first["later"])) == WALK
    typed("walk", folder, "--hours", "3")
    typed("plots", folder, "B10", "--disease", "leaf_mildew")
    record = assert_true_of_files(folder)
    assert names_of(record["later"]) == sorted(WALK | {"season.html", "blocks-by-day.html"})
    asked = {one["name"]: one["asked"] for one in record["later"]}
    assert asked["walk.gpx"]["hours"] == 3.0
    assert (asked["season.html"]["job"], asked["season.html"]["blocks"]) == ("plots", ["B10"])
    assert asked["season.html"]["disease"] == "leaf_mildew"
    write_today(demo_outcome(), today_of(demo_outcome(), walk_hours=2.0), folder)
    assert assert_true_of_files(folder)["later"] == []


def test_sheets_that_are_taken_away_are_told_no_more(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed("round", folder, "--hours", "1")
    typed("walk", folder)
    monkeypatch.setattr("geo.exports.round_files.pdf_missing", lambda: "no PDF")
    typed("round", folder, "--hours", "1")
    typed("walk", folder, "--hours", "0.1")
    assert set(names_of(assert_true_of_files(folder)["later"])) == SHEETS - {"day-sheet.pdf"}


def test_a_track_of_somebody_elses_is_not_told_as_ours(folder: Path) -> None:
    (folder / "walk.gpx").write_text("<gpx/>", "utf-8")
    typed("walk", folder, "--hours", "0.1")
    assert assert_true_of_files(folder)["later"] == []


def test_inputs_that_are_no_longer_those_of_the_run_are_named(folder: Path) -> None:
    demo = demo_outcome()
    files = [
        replace(file, sha256="0" * 64) if file.path.name == "diary.csv" else file
        for file in demo.farm.files
    ]
    changed = replace(demo, farm=replace(demo.farm, files=tuple(files)))
    note_later(changed, folder, ["rules.csv"], asked={"job": "made for this test"})
    (later,) = assert_true_of_files(folder)["later"]
    assert (later["name"], later["inputs_that_differ"]) == ("rules.csv", ["diary.csv"])


def test_a_record_of_an_older_form_is_brought_up_to_the_new_one(folder: Path) -> None:
    record = record_in(folder)
    del record["later"], record["parts"]["later"]
    (folder / "run.json").write_text(json.dumps(record), "utf-8")
    typed("walk", folder)
    record = assert_true_of_files(folder)
    assert set(names_of(record["later"])) == WALK
    assert record["parts"].keys() == record.keys() - {"parts"}


@pytest.mark.parametrize(
    "text",
    [
        "no JSON",
        "[]",
        "null",
        "{}",
        '{"parts": {}, "files": [], "outputs": [7]}',
        '{"parts": {}, "files": null, "outputs": []}',
        '{"parts": [], "files": [], "outputs": []}',
        '{"parts": {}, "files": [], "outputs": [], "hazard": NaN}',
    ],
)
def test_a_file_of_that_name_that_is_no_record_of_ours_is_left_alone(
    text: str, tmp_path: Path
) -> None:
    (tmp_path / "run.json").write_text(text, "utf-8")
    typed("walk", tmp_path)
    assert (tmp_path / "run.json").read_text("utf-8") == text


def test_a_record_too_large_to_be_one_is_left_alone(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = (folder / "run.json").read_bytes()
    monkeypatch.setattr("geo.pipeline.later.LARGEST_BYTES", 10)
    typed("walk", folder)
    assert (folder / "run.json").read_bytes() == before


def test_where_no_run_left_a_record_none_is_made(tmp_path: Path) -> None:
    typed("walk", tmp_path)
    assert {path.name for path in tmp_path.iterdir()} == WALK
