"""The two orders as CSV: what was decided, in cells that a spreadsheet cannot run."""

import csv
import io
from dataclasses import replace
from math import nan
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.exports.order_tables import (
    FORMULA_STARTS,
    SCOUTING_COLUMNS,
    SPRAY_COLUMNS,
    as_csv,
    write_scouting_order,
    write_spray_order,
)
from geo.ranking.factors import FACTORS
from tests.demo_run import demo_outcome

HOSTILE = '=HYPERLINK("http://example.org","Block 1")'


def rows_of(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


def spray_rows(path: Path) -> list[dict[str, str]]:
    demo = demo_outcome()
    write_spray_order(path, farm=demo.farm, season=demo.season, order=demo.spray)
    return list(csv.DictReader(io.StringIO(path.read_text("utf-8"))))


# CSV injection: OWASP's list of first characters, and their full-width forms (CWE-1236).
@given(st.text(min_size=1), st.sampled_from(["", *FORMULA_STARTS]))
def test_no_cell_of_text_runs_as_a_formula_and_none_is_lost(text: str, start: str) -> None:
    cell = (start + text).replace("\r\n", "\n").replace("\r", "\n")
    (_, (read, after)) = rows_of(as_csv(["a", "b"], [[start + text, "next"]]))
    assert not read.startswith(FORMULA_STARTS)
    assert read in {cell, f"'{cell}"}
    assert after == "next"


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_numbers_keep_six_digits_and_their_sign(number: float) -> None:
    (_, (read,)) = rows_of(as_csv(["a"], [[number]]))
    assert float(read) == pytest.approx(number, rel=5e-6)


def test_what_is_not_known_is_an_empty_cell() -> None:
    assert as_csv(["a", "b", "c"], [[None, nan, np.float64("nan")]]) == "a,b,c\n,,\n"


def test_the_spray_order_holds_each_open_block_in_its_rank(tmp_path: Path) -> None:
    demo, rows = demo_outcome(), spray_rows(tmp_path / "a.csv")
    order = [row for row in rows if row["list"] == "spray order"]
    assert [int(row["rank"]) for row in order] == list(range(1, len(order) + 1))
    assert [row["block_id"] for row in order] == [entry.block for entry in demo.spray.entries]
    assert [row["reason"] for row in order] == [entry.reason for entry in demo.spray.entries]
    losses = [float(row["avoidable_per_hour"]) for row in order]
    assert losses == sorted(losses, reverse=True)
    for row, entry in zip(order, demo.spray.entries, strict=True):
        assert row["waiting"] == entry.waiting
        assert float(row["avoidable_ha_days"]) == pytest.approx(entry.avoidable, rel=1e-5)
        each = float(row["avoidable_per_ha"]) * float(row["area_ha"])
        assert each == pytest.approx(entry.avoidable, rel=1e-4)
        assert "Re-entry, pre-harvest: not asked" in row["not_asked"]


def test_what_is_not_worth_it_now_is_listed_apart_with_its_sentence(tmp_path: Path) -> None:
    demo, rows = demo_outcome(), spray_rows(tmp_path / "a.csv")
    apart = [row for row in rows if row["list"] == "not worth it now"]
    assert [row["reason"] for row in apart] == [rest.reason for rest in demo.spray.not_worth]
    assert apart
    assert all(row["rank"] == "" for row in apart)


def test_hours_that_nobody_gave_are_an_empty_cell(tmp_path: Path) -> None:
    demo = demo_outcome()
    bare = replace(demo.spray.entries[0], sprayer_hours=None)
    order = replace(demo.spray, entries=(bare,))
    write_spray_order(tmp_path / "a.csv", farm=demo.farm, season=demo.season, order=order)
    first = next(csv.DictReader(io.StringIO((tmp_path / "a.csv").read_text("utf-8"))))
    assert (first["sprayer_hours"], first["avoidable_per_hour"]) == ("", "")
    assert float(first["avoidable_per_ha"]) > 0.0


def test_a_block_that_a_rule_keeps_out_has_the_rule_its_number_and_no_rank(tmp_path: Path) -> None:
    demo, rows = demo_outcome(), spray_rows(tmp_path / "a.csv")
    held = [row for row in rows if row["list"] == "cannot now"]
    assert [row["block_id"] for row in held] == [one.block for one in demo.spray.cannot_now]
    for row, one in zip(held, demo.spray.cannot_now, strict=True):
        assert row["rank"] == ""
        assert row["rule"] == one.rule
        assert row["closing_day"] == one.day.isoformat()
        assert float(row["limit"]) == one.limit
        assert float(row["value"]) == pytest.approx(one.value, rel=1e-5)
        assert (row["unit"], row["standing"]) == (one.unit, one.standing)
        assert row["clears"] == ("" if one.clears is None else f"{one.clears:%Y-%m-%dT%H:%M}")


def test_every_block_stands_in_the_table_once(tmp_path: Path) -> None:
    rows = spray_rows(tmp_path / "a.csv")
    assert sorted(row["block_id"] for row in rows) == sorted(demo_outcome().farm.blocks.index)


def test_the_factors_of_each_row_multiply_to_its_hazard(tmp_path: Path) -> None:
    for row in spray_rows(tmp_path / "a.csv"):
        product = np.prod([float(row[f"factor {factor.name}"]) for factor in FACTORS])
        # Nine numbers of six digits each.
        assert product == pytest.approx(float(row["hazard_index"]), rel=9 * 5e-6)


def test_a_made_scenario_and_the_level_of_honesty_stand_in_every_row(tmp_path: Path) -> None:
    for row in spray_rows(tmp_path / "a.csv"):
        assert row["scenario"] == "made scenario"
        assert row["honesty_level"].startswith("relative")


def test_a_real_farm_is_not_called_made(tmp_path: Path) -> None:
    demo = demo_outcome()
    farm = replace(demo.farm, is_made=False)
    write_scouting_order(tmp_path / "a.csv", farm=farm, order=demo.scouting)
    assert "made scenario" not in (tmp_path / "a.csv").read_text("utf-8")


def test_the_scouting_order_holds_every_block_in_its_rank(tmp_path: Path) -> None:
    demo = demo_outcome()
    write_scouting_order(tmp_path / "a.csv", farm=demo.farm, order=demo.scouting)
    header, *rows = rows_of((tmp_path / "a.csv").read_text("utf-8"))
    assert tuple(header) == SCOUTING_COLUMNS
    assert [row[header.index("block_id")] for row in rows] == [
        entry.block for entry in demo.scouting.entries
    ]
    chosen = [row[header.index("chosen_by")] for row in rows]
    for why in ("due", "value of looking"):
        scores = [
            float(row[header.index("score")])
            for row, by in zip(rows, chosen, strict=True)
            if by == why
        ]
        assert scores == sorted(scores, reverse=True)
    assert set(chosen) <= {"due", "value of looking", "drawn"}
    assert all("None of" in row[header.index("proof")] for row in rows)


def test_a_hostile_block_name_is_only_text(tmp_path: Path) -> None:
    demo = demo_outcome()
    first = demo.spray.entries[0].block
    blocks = demo.farm.blocks.copy()
    blocks.loc[first, ["name", "note"]] = HOSTILE
    farm = replace(demo.farm, blocks=blocks)
    write_spray_order(tmp_path / "a.csv", farm=farm, season=demo.season, order=demo.spray)
    header, row, *_ = rows_of((tmp_path / "a.csv").read_text("utf-8"))
    assert tuple(header[: len(SPRAY_COLUMNS)]) == SPRAY_COLUMNS
    assert row[header.index("name")] == row[header.index("note")] == f"'{HOSTILE}"
    assert len(row) == len(header)
