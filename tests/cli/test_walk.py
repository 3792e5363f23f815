"""The walk as typed: a table, two files, or words."""

from dataclasses import replace
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from geo.cli.commands import app
from geo.cli.speech import FAILED
from geo.cli.walk import LEFT_OUT_SHOWN, walk_lines
from geo.pipeline.walk import walk_of
from geo.scouting.walk import Walk
from tests.demo_run import FARM, demo_outcome


def typed(*words: object) -> Result:
    return CliRunner().invoke(app, ["walk", str(FARM), *map(str, words)])


def test_it_prints_the_walk_and_writes_it(tmp_path: Path) -> None:
    told = typed("--hours", 2, "--from", "East gate", "--out", tmp_path)
    assert told.exit_code == 0, told.output
    assert "2 h on foot, looking for powdery mildew on panicles" in told.stdout
    assert "East gate at 06:34" in told.stdout
    assert "The label is the law" in told.stdout
    assert {path.name for path in tmp_path.iterdir()} == {"walk-sheet.html", "walk.gpx"}
    # An hour that is no use takes yesterday's sheet away.
    told = typed("--hours", 0.1, "--out", tmp_path)
    assert told.exit_code == 0
    assert told.stdout.startswith("No walk: in 0.1 h")
    assert list(tmp_path.iterdir()) == []


def test_a_wrong_gate_is_refused_in_one_line(tmp_path: Path) -> None:
    told = typed("--from", "Nowhere", "--out", tmp_path)
    assert told.exit_code == FAILED
    assert told.stderr.count("\n") == 1
    assert "Gates of this farm: West gate, East gate, Bench gate" in told.stderr


@pytest.fixture(scope="module")
def planned() -> Walk:
    walk = walk_of(demo_outcome(), disease="panicle_mildew", hours=2.0)
    assert isinstance(walk, Walk)
    return walk


def test_the_table_has_a_row_for_each_block_and_says_who_is_left_out(planned: Walk) -> None:
    lines = list(walk_lines(demo_outcome().farm, planned, "mildew"))
    rows = [line for line in lines if line[:3].strip().isdigit()]
    assert len(rows) == len(planned.visits)
    for row, visit in zip(rows, planned.visits, strict=True):
        assert row.split()[:4] == [
            str(visit.number),
            visit.entry.block,
            f"{visit.arrives:%H:%M}",
            f"{visit.leaves:%H:%M}",
        ]
    left_out = [line for line in lines if line.startswith("  not on it:")]
    assert len(left_out) == min(LEFT_OUT_SHOWN, len(planned.left_out))
    assert lines[-1].endswith("more, in the scouting order")


def test_a_walk_past_all_leaves_nobody_out_and_says_when_it_is_proven(planned: Walk) -> None:
    whole = replace(planned, left_out=(), is_proven=True, value_share=1.0)
    lines = list(walk_lines(demo_outcome().farm, whole, "mildew"))
    assert "no walk in that time collects more" in lines[-1]


def test_one_block_alone_is_not_counted_as_several(planned: Walk) -> None:
    said = "\n".join(walk_lines(demo_outcome().farm, replace(planned, chosen_among=1), "mildew"))
    assert "value of looking of the block chosen among" in said
