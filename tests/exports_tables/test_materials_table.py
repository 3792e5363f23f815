"""What may be sprayed where, as a table: each labelled material of each block, none left out."""

import csv
import io
from dataclasses import replace
from pathlib import Path

import pytest

from geo.exports.materials_table import COLUMNS, write_materials
from geo.exports.page_materials import materials_data
from geo.reference.fungicides import coverage, fungicides
from geo.rounds.material_words import NEED_LABELS
from tests.demo_run import demo_outcome


def rows_of(path: Path, **changes: object) -> list[dict[str, str]]:
    demo = demo_outcome()
    farm = replace(demo.farm, **changes)
    write_materials(path, farm=farm, materials=demo.materials)
    return list(csv.DictReader(io.StringIO(path.read_text("utf-8"))))


def test_each_block_has_a_row_for_each_label(tmp_path: Path) -> None:
    demo, rows = demo_outcome(), rows_of(tmp_path / "a.csv")
    assert tuple(rows[0]) == COLUMNS
    labels = [label.material for label in demo.farm.labels or ()]
    assert [(row["block_id"], row["material"]) for row in rows] == [
        (block, material) for block in demo.farm.blocks.index for material in labels
    ]


def test_what_passes_has_an_hour_and_what_does_not_has_a_rule(tmp_path: Path) -> None:
    rows = rows_of(tmp_path / "a.csv")
    for row in rows:
        passes = row["passes_every_rule_asked"] == "yes"
        assert passes == (row["first_open"] != "") == (row["closed_by"] == "")
        assert row["sentence"].endswith("Check the label.")
    assert {row["passes_every_rule_asked"] for row in rows} == {"yes", "no"}


def test_the_planned_material_passes_where_the_order_or_its_side_list_has_the_block(
    tmp_path: Path,
) -> None:
    spray, rows = demo_outcome().spray, rows_of(tmp_path / "a.csv")
    passes = {
        row["block_id"]
        for row in rows
        if row["material"] == spray.material and row["passes_every_rule_asked"] == "yes"
    }
    assert passes == {one.block for one in (*spray.entries, *spray.not_worth)}


def test_effects_are_the_tables_numbers_with_standing_and_source(tmp_path: Path) -> None:
    for row in rows_of(tmp_path / "a.csv")[:4]:
        number = fungicides()[row["material"]].efficacy["leaf_mildew"]
        each = number.value * coverage(demo_outcome().farm.settings.sprayer).value
        assert float(row["leaf_mildew effect expected"]) == pytest.approx(each)
        assert row["leaf_mildew effect standing"] == number.standing
        assert row["leaf_mildew effect source"] == number.source


def test_a_real_farm_is_not_called_made(tmp_path: Path) -> None:
    assert {row["scenario"] for row in rows_of(tmp_path / "a.csv")} == {"made scenario"}
    assert {row["scenario"] for row in rows_of(tmp_path / "b.csv", is_made=False)} == {""}


def test_without_a_label_file_the_table_is_bare_and_the_page_says_what_is_needed(
    tmp_path: Path,
) -> None:
    demo = demo_outcome()
    write_materials(tmp_path / "a.csv", farm=demo.farm, materials=())
    assert (tmp_path / "a.csv").read_text("utf-8").count("\n") == 1
    assert materials_data(None)["need"] == NEED_LABELS


def test_the_page_names_words_by_their_place(tmp_path: Path) -> None:
    demo, rows = demo_outcome(), rows_of(tmp_path / "a.csv")
    data = materials_data(demo.materials)
    count = len(demo.materials)
    for place, row in enumerate(rows):
        told = data["materials"][place % count]
        closed = told["closed"][place // count]
        assert row["closed_by"] == ("" if closed < 0 else data["words"][closed])
        assert (told["open"][place // count] < 0) == (row["first_open"] == "")
    assert len(set(data["words"])) == len(data["words"])
