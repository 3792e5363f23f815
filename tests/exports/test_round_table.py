"""The round as CSV: loads before their stops, then what is left out."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from geo.exports.round_table import COLUMNS, write_round_table
from geo.season.farm import Farm
from tests.exports.made import made_farm
from tests.exports.made_round import made_round


@pytest.fixture(scope="module")
def farm() -> Farm:
    return made_farm(12)


def rows(path: Path, farm: Farm, **changes: object) -> list[dict[str, str]]:
    write_round_table(path, farm=farm, day_round=made_round(farm, **changes))
    with path.open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def test_a_load_comes_before_the_stops_it_is_for(farm: Farm, tmp_path: Path) -> None:
    found = rows(tmp_path / "round.csv", farm)
    assert tuple(found[0]) == COLUMNS
    kinds = [(row["list"], row["load"]) for row in found]
    assert kinds[:5] == [("load", "1"), *[("stop", "1")] * 3, ("load", "2")] or kinds[0] == (
        "load",
        "1",
    )
    assert [row["list"] for row in found[-2:]] == ["left out"] * 2
    assert found[-2]["cost_avoidable"] == "1.24"


def test_litres_of_stops_are_those_of_their_loads(farm: Farm, tmp_path: Path) -> None:
    found = rows(tmp_path / "round.csv", farm)
    poured = sum(float(row["litres"]) for row in found if row["list"] == "load")
    sprayed = sum(float(row["litres"]) for row in found if row["list"] == "stop")
    assert poured == sprayed > 0


def test_places_keep_all_their_digits_and_their_sign(farm: Farm, tmp_path: Path) -> None:
    planned = made_round(farm)
    stop = planned.sprayers[0].stops[0]
    first = rows(tmp_path / "round.csv", farm)[1]
    assert float(first["latitude"]) == pytest.approx(stop.latitude, abs=1e-6)
    assert first["latitude"].startswith("-")


def test_a_name_that_a_spreadsheet_would_run_is_put_in_quotes(farm: Farm, tmp_path: Path) -> None:
    blocks = farm.blocks.assign(name='=HYPERLINK("x")')
    found = rows(tmp_path / "round.csv", replace(farm, blocks=blocks), sprayers=("+1 tank",))
    assert found[1]["name"] == '\'=HYPERLINK("x")'
    assert found[1]["sprayer"] == "'+1 tank"


def test_an_unknown_amount_is_the_labels(farm: Farm, tmp_path: Path) -> None:
    from tests.exports.made_round import made_sprayer

    sprayer = made_sprayer(farm, "One", day=farm.today, amount=None)
    path = tmp_path / "round.csv"
    write_round_table(path, farm=farm, day_round=replace(made_round(farm), sprayers=(sprayer,)))
    assert "sulfur (from your label)" in path.read_text("utf-8")
