"""Which earlier run the map is held against: the one in the folder, or the one that is named."""

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from geo.cli.commands import app
from geo.errors import InputError
from geo.pipeline import write
from geo.pipeline.since import KEPT, RECORD, keep_earlier, since_asked, since_in
from tests.demo_run import FARM, NAMES, demo_folder, demo_outcome

HEAD = "Since the run of Tue 17 Feb"


def record(**parts: object) -> dict[str, Any]:
    read: dict[str, Any] = json.loads((demo_folder() / RECORD).read_text("utf-8"))
    return read | parts


def put(path: Path, **parts: object) -> Path:
    path.write_text(json.dumps(record(**parts)), "utf-8")
    return path


def page(folder: Path) -> str:
    return (folder / "block-map.html").read_text("utf-8")


def test_a_first_run_is_held_against_nothing(tmp_path: Path) -> None:
    assert since_in(demo_outcome(), tmp_path) is None
    keep_earlier(demo_outcome(), tmp_path)
    assert list(tmp_path.iterdir()) == []
    assert "Since the run of" not in page(demo_folder())


def test_the_record_of_yesterday_is_found_and_again_by_a_second_run_today(tmp_path: Path) -> None:
    put(tmp_path / RECORD, today="2026-02-17")
    write(demo_outcome(), tmp_path)
    first = page(tmp_path)
    assert HEAD in first
    assert {path.name for path in tmp_path.iterdir()} == NAMES | {KEPT}
    write(demo_outcome(), tmp_path)
    assert page(tmp_path) == first
    assert json.loads((tmp_path / KEPT).read_text("utf-8"))["today"] == "2026-02-17"


def test_what_a_run_decided_comes_back_from_its_record() -> None:
    since = since_asked(demo_outcome(), demo_folder() / RECORD)
    assert since.day == demo_outcome().farm.today
    assert set(since.diseases) == set(demo_outcome().seasons)
    for key, then in since.diseases.items():
        spray = demo_outcome().orders[key].spray
        for entry in spray.entries:
            assert then.places[entry.block] == f"was No.\u00a0{entry.rank}"
        assert len(then.protection) == len(then.hazard) == len(demo_outcome().farm.blocks)


def test_an_older_record_has_hazards_but_no_places(tmp_path: Path) -> None:
    old = record()["diseases"]
    bare = {
        key: {name: kept[name] for name in ("factors", "hazard_ahead")} for key, kept in old.items()
    }
    since = since_asked(demo_outcome(), put(tmp_path / RECORD, diseases=bare))
    then = since.diseases["panicle_mildew"]
    assert then.hazard["B24"] > 0
    assert (then.places, then.protection) == ({}, {})


@pytest.mark.parametrize(
    "parts",
    [
        {"farm": "Another farm"},
        {"today": "yesterday"},
        {"today": 17},
        {"diseases": {"panicle_mildew": {"hazard_ahead": [1, 2]}}},
        {"diseases": {"panicle_mildew": {"hazard_ahead": {"B01": "much"}}}},
        {"diseases": {"panicle_mildew": {"hazard_ahead": {}, "order": 3}}},
        {"diseases": {"panicle_mildew": None}},
    ],
)
def test_a_record_that_cannot_be_used_is_no_fault_unless_it_was_named(
    tmp_path: Path, parts: dict[str, object]
) -> None:
    path = put(tmp_path / RECORD, **parts)
    assert since_in(demo_outcome(), tmp_path) is None
    keep_earlier(demo_outcome(), tmp_path)
    assert not (tmp_path / KEPT).exists()
    with pytest.raises(InputError, match="E-RUN-RECORD"):
        since_asked(demo_outcome(), path)


def test_both_commands_take_the_record_by_name(tmp_path: Path) -> None:
    past = put(tmp_path / "past.json", today="2026-02-17")
    for command in ("map", "today"):
        out = tmp_path / command
        asked = [command, str(FARM), "--out", str(out), "--since", str(past)]
        assert CliRunner().invoke(app, asked).exit_code == 0
        assert HEAD in page(out)
    missing = [*asked[:-1], str(tmp_path / "none.json")]
    told = CliRunner().invoke(app, missing)
    assert told.exit_code != 0
    assert "E-RUN-RECORD" in told.output
