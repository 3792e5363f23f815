"""A morning's walk from what a run decided: planned, written, or said in words why not."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from geo.errors import InputError
from geo.pipeline.walk import GPX, SHEET, clear_walk, walk_of, write_walk
from geo.scouting.walk import Walk
from tests.demo_run import demo_outcome, with_other

DISEASE = "panicle_mildew"


@pytest.fixture(scope="module")
def walk() -> Walk:
    planned = walk_of(demo_outcome(), disease=DISEASE, hours=2.0)
    assert isinstance(planned, Walk)
    return planned


def test_it_is_written_as_a_sheet_and_for_a_phone(walk: Walk, tmp_path: Path) -> None:
    paths = write_walk(demo_outcome(), walk, tmp_path / "new", disease=DISEASE)
    assert {path.name for path in paths.values()} == {SHEET, GPX}
    assert "made scenario" in paths["to print"].read_text("utf-8")
    assert "made scenario" in paths["for a phone"].read_text("utf-8")
    assert walk.notes == ()


def test_an_old_sheet_is_not_left_lying(walk: Walk, tmp_path: Path) -> None:
    write_walk(demo_outcome(), walk, tmp_path, disease=DISEASE)
    clear_walk(tmp_path)
    assert list(tmp_path.iterdir()) == []
    (tmp_path / GPX).write_text("<gpx creator='my own receiver'/>")
    clear_walk(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [GPX]


def test_a_folder_that_cannot_be_written_to_is_said(walk: Walk, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(InputError, match="E-OUT-WRITE"):
        write_walk(demo_outcome(), walk, tmp_path / "taken", disease=DISEASE)


@pytest.mark.parametrize("hours", [0.0, -1.0, 13.0, np.nan])
def test_hours_that_cannot_be_are_refused(hours: float) -> None:
    with pytest.raises(InputError, match="E-WALK-HOURS"):
        walk_of(demo_outcome(), disease=DISEASE, hours=hours)


def test_too_little_time_for_any_block_is_said_in_words() -> None:
    words = walk_of(demo_outcome(), disease=DISEASE, hours=0.2, gate="East gate")
    assert isinstance(words, str)
    assert words.startswith("No walk: in 0.2 h from East gate no block can be looked at.")
    assert "minutes alone." in words


def test_an_empty_order_is_said_in_words() -> None:
    demo = demo_outcome()
    empty = with_other(demo, scouting=replace(demo.scouting, entries=()))
    words = walk_of(empty, disease=DISEASE, hours=2.0)
    assert words == (
        "Nothing to look at: no block has a hazard of powdery mildew on panicles ahead."
    )


def test_without_a_sunrise_nobody_knows_when() -> None:
    demo = demo_outcome()
    night = with_other(demo, season=demo.season.assign(sunrise=demo.season.sunrise * np.nan))
    words = walk_of(night, disease=DISEASE, hours=2.0)
    assert words == "When to walk is not known: the sun does not rise."


def test_a_farm_without_gates_walks_from_its_shed_and_says_so() -> None:
    demo = demo_outcome()
    places = demo.farm.places[demo.farm.places["kind"] != "gate"]
    ungated = replace(demo, farm=replace(demo.farm, places=places))
    walk = walk_of(ungated, disease=DISEASE, hours=2.0)
    assert isinstance(walk, Walk)
    assert walk.start == "Sprayer shed"
    assert walk.notes == ("No gate is drawn among the places: the walk begins at Sprayer shed.",)


def test_another_gate_is_another_walk(walk: Walk) -> None:
    west = walk_of(demo_outcome(), disease=DISEASE, hours=2.0, gate="west gate")
    assert isinstance(west, Walk)
    assert west.start == "West gate"
    assert west.value_share <= walk.value_share + 1e-9
