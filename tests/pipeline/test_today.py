"""The whole job of a day, also where a farm lacks what a round or a walk needs."""

from dataclasses import replace
from pathlib import Path

import pytest

from geo.cli.today import plan_lines
from geo.errors import InputError
from geo.exports.page_ways import Ways
from geo.pipeline.today import Today, today_of, write_today
from geo.scouting.order import ScoutingOrder
from tests.demo_run import NAMES, OF_TODAY, demo_outcome, with_other

ROUND = {"day-sheet.html", "day-sheet.pdf", "round.gpx", "round.csv", "spray-record.csv"}


def without_sprayers() -> Today:
    made = demo_outcome()
    settings = replace(made.farm.settings, sprayers=())
    return today_of(replace(made, farm=replace(made.farm, settings=settings)), walk_hours=2.0)


def test_a_farm_without_sprayers_still_has_its_map_and_walk(tmp_path: Path) -> None:
    today = without_sprayers()
    assert today.ways.day_round is None
    assert today.ways.walk is not None
    told = list(plan_lines(today))
    assert any(line.startswith("No round: ") and "sprayer" in line for line in told)
    write_today(demo_outcome(), today, tmp_path)
    assert {path.name for path in tmp_path.iterdir()} == (NAMES | OF_TODAY) - ROUND


def test_an_old_walk_is_taken_away_where_nobody_need_walk(tmp_path: Path) -> None:
    write_today(demo_outcome(), without_sprayers(), tmp_path)
    assert (tmp_path / "walk-sheet.html").exists()
    nothing = ScoutingOrder(today=demo_outcome().farm.today, entries=())
    settings = replace(demo_outcome().farm.settings, sprayers=())
    bare = replace(demo_outcome(), farm=replace(demo_outcome().farm, settings=settings))
    outcome = with_other(bare, scouting=nothing)
    today = today_of(outcome, walk_hours=2.0)
    assert today.ways == Ways()
    assert any(line.startswith("Nothing to look at") for line in plan_lines(today))
    write_today(demo_outcome(), today, tmp_path)
    assert not (tmp_path / "walk-sheet.html").exists()


def test_hours_that_cannot_be_are_refused() -> None:
    with pytest.raises(InputError, match="E-WALK-HOURS"):
        today_of(demo_outcome(), walk_hours=0.0)
