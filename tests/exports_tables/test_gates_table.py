"""The table of closed hours: a row for each stretch that one rule closes."""

import csv
from pathlib import Path

import numpy as np
import pytest

from geo.exports.gates_table import COLUMNS, write_gates
from tests.demo_run import demo_outcome


@pytest.fixture(scope="module")
def rows(tmp_path_factory) -> list[dict[str, str]]:
    path: Path = tmp_path_factory.mktemp("gates") / "gates.csv"
    demo = demo_outcome()
    write_gates(path, farm=demo.farm, windows=demo.windows)
    with path.open(encoding="utf-8", newline="") as opened:
        read = csv.DictReader(opened)
        assert tuple(read.fieldnames or ()) == COLUMNS
        return list(read)


def test_the_stretches_add_up_to_every_hour_that_is_closed(rows) -> None:
    windows = demo_outcome().windows
    for gate in windows.gates:
        closed = np.broadcast_to(gate.is_closed, windows.is_closed.shape)
        hours = sum(int(row["hours"]) for row in rows if row["rule"] == gate.rule.key)
        assert hours == closed.sum()


def test_each_row_names_limit_unit_and_standing(rows) -> None:
    for row in rows:
        assert row["unit"]
        assert row["limit"]
        assert row["standing"]
        assert row["verdict"] in {"closed", "caution"}
        assert row["scenario"] == "made scenario"
    assert {"closed", "caution"} == {row["verdict"] for row in rows}


def test_a_stretch_clears_when_it_ends_unless_the_forecast_ends_first(rows) -> None:
    last = f"{demo_outcome().windows.start[-1]:%Y-%m-%dT%H:%M}"
    for row in rows:
        assert row["clears"] in {"", row["until"]}
        assert (row["clears"] == "") == (row["until"] > last)
