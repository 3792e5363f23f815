"""Rows of the record: what the plan knows is filled in, what only the field knows is blank."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from geo.exports.record_rows import record_rows, write_record_rows
from geo.rounds.day_round import DayRound, Ingredient
from geo.season.label import Label
from geo.season.spray_record import COLUMNS, in_force, is_completed
from tests.exports.made import Made, made
from tests.exports.made_round import made_round


@pytest.fixture(scope="module")
def farm_made() -> Made:
    return made()


def rows(farm_made: Made, planned: DayRound | None = None, **changes: object) -> list[dict]:
    farm = replace(farm_made.farm, **changes)
    return record_rows(
        farm=farm,
        season=farm_made.season,
        order=farm_made.spray,
        day_round=planned or made_round(farm),
    )


def with_mix(planned: DayRound, *mix: Ingredient) -> DayRound:
    sprayer = planned.sprayers[0]
    loads = tuple(replace(load, ingredients=mix) for load in sprayer.loads)
    return replace(planned, sprayers=(replace(sprayer, loads=loads),))


def test_there_is_a_row_for_each_stop_and_material(farm_made: Made) -> None:
    mix = (Ingredient("sulfur", 5.25, "kg"), Ingredient("myclobutanil", None, ""))
    found = rows(farm_made, with_mix(made_round(farm_made.farm), *mix))
    assert len(found) == 24
    assert len({row["record_id"] for row in found}) == 24
    assert [row["material"] for row in found[:2]] == ["sulfur", "myclobutanil"]


def test_a_load_that_does_not_say_holds_the_materials_of_the_day(farm_made: Made) -> None:
    planned = with_mix(made_round(farm_made.farm, materials=("sulfur", "copper")))
    assert [row["material"] for row in rows(farm_made, planned)[:2]] == ["sulfur", "copper"]


def test_the_product_of_a_stop_is_its_share_of_the_load(farm_made: Made) -> None:
    found = rows(farm_made)
    of_first_tank = [row for row in found if row["tank"] == 1]
    assert sum(row["total_product"] for row in of_first_tank) == pytest.approx(5.25)
    assert {row["total_unit"] for row in of_first_tank} == {"kg"}


def test_no_amount_is_made_up(farm_made: Made) -> None:
    found = rows(farm_made, with_mix(made_round(farm_made.farm), Ingredient("sulfur", None, "")))
    assert {row["total_product"] for row in found} == {None}
    assert {row["label_rate"] for row in found} == {None}


def test_labels_give_rates_and_codes(farm_made: Made) -> None:
    label = Label("sulfur", frac_codes=("M02", "3"), rate=3.0, rate_unit="kg/ha")
    found = rows(farm_made, labels=(label,))
    assert (found[0]["label_rate"], found[0]["rate_unit"]) == (3.0, "kg/ha")
    assert found[0]["frac_codes"] == "M02+3"


def test_stage_reason_and_waits_are_filled_in(farm_made: Made) -> None:
    found = {row["block_id"]: row for row in rows(farm_made)}
    # Of the newest look that of the largest share.
    assert found["B02"]["bbch"] == "514"
    assert found["B03"]["bbch"] == "610"
    assert found["B01"]["bbch"] == ""
    reasons = {entry.block: entry.reason for entry in farm_made.spray.entries}
    assert found["B02"]["reason"] == reasons["B02"]
    assert found["B02"]["re_entry_hours"] == 24
    assert found["B02"]["pre_harvest_days"] == 1


def test_the_same_plan_gives_the_same_ids_and_another_plan_others(farm_made: Made) -> None:
    first = [row["record_id"] for row in rows(farm_made)]
    assert first == [row["record_id"] for row in rows(farm_made)]
    other = made_round(farm_made.farm, sprayers=("Airblast 2",))
    assert not set(first) & {row["record_id"] for row in rows(farm_made, other)}


def test_the_file_has_every_column_and_nothing_in_it_is_done(
    farm_made: Made, tmp_path: Path
) -> None:
    path = tmp_path / "spray-record.csv"
    named = replace(farm_made.farm, name="=cmd|' /C calc'!A0")
    write_record_rows(
        path,
        farm=named,
        season=farm_made.season,
        order=farm_made.spray,
        day_round=made_round(named),
    )
    with path.open(encoding="utf-8", newline="") as opened:
        read = list(csv.DictReader(opened))
    assert tuple(read[0]) == COLUMNS
    assert not any(map(is_completed, read))
    assert in_force(read) == list(range(len(read)))
    assert read[0]["farm"].startswith("'=")
    assert read[0]["latitude"].startswith("-17.")
    for column in ("start_time", "finish_time", "applicator", "product_name", "digest"):
        assert read[0][column] == ""
