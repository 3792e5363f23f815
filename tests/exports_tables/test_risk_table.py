"""Every disease of every block in one table."""

import csv
import io
from dataclasses import replace
from math import prod
from pathlib import Path

import pytest

from geo.exports.page_risk import Risk
from geo.exports.risk_table import COLUMNS, write_risks
from geo.reference.diseases import DISEASES
from tests.demo_run import demo_folder, demo_outcome


@pytest.fixture(scope="module")
def rows() -> list[dict[str, str]]:
    text = (demo_folder() / "risk.csv").read_text("utf-8")
    return list(csv.DictReader(io.StringIO(text)))


def test_each_block_stands_there_once_a_disease(rows: list[dict[str, str]]) -> None:
    demo = demo_outcome()
    found = [(row["disease"], row["block_id"]) for row in rows]
    assert len(set(found)) == len(found) == len(DISEASES) * demo.season.sizes["block"]
    assert {row["disease"] for row in rows} == {disease.name for disease in DISEASES}
    assert rows[0]["disease"] == "powdery mildew on panicles"
    assert set(rows[0]) == set(COLUMNS)


def test_its_numbers_are_those_of_the_disease(rows: list[dict[str, str]]) -> None:
    demo = demo_outcome()
    for disease in DISEASES:
        season = demo.seasons[disease.key]
        of_it = [row for row in rows if row["disease"] == disease.name]
        for row in of_it[:3]:
            factors = season.factors.sel(block=row["block_id"]).values.tolist()
            assert float(row["hazard_index"]) == pytest.approx(prod(factors), rel=1e-5, abs=1e-12)
            ranked = [entry.block for entry in demo.orders[disease.key].spray.entries]
            assert bool(row["spray_rank"]) == (row["block_id"] in ranked)


def test_only_fruit_carries_a_load(rows: list[dict[str, str]]) -> None:
    for row in rows:
        assert bool(row["fruit_load"]) == (row["disease"] == "anthracnose on fruit")


def test_where_there_is_no_hazard_nothing_is_said_of_its_doubt(rows: list[dict[str, str]]) -> None:
    for row in rows:
        assert bool(row["times_more_or_less"]) == (float(row["hazard_index"]) > 0.0)


def test_a_hostile_name_is_only_text(tmp_path: Path) -> None:
    demo = demo_outcome()
    blocks = demo.farm.blocks.assign(name="=1+1")
    farm = replace(demo.farm, blocks=blocks)
    write_risks(
        tmp_path / "risk.csv", farm=farm, risks=[Risk(demo.season, demo.spray, demo.scouting)]
    )
    read = list(csv.DictReader(io.StringIO((tmp_path / "risk.csv").read_text("utf-8"))))
    assert {row["name"] for row in read} == {"'=1+1"}
