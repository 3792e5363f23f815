"""Every number of the tables is vouched for, and every number the code reads is there."""

import re
from dataclasses import fields
from pathlib import Path

import pytest

from geo.infection.anthracnose_parameters import Anthracnose, LateRain
from geo.infection.heat_stop import HeatStop
from geo.infection.panicle_mildew import PanicleMildew
from geo.reference.diseases import DISEASES
from geo.reference.number import STANDINGS, UNITS, Number, numbers, read_rows, sources
from geo.weather.pools import PoolParameters

ROOT = Path(__file__).parents[2]
TABLES = (
    "anthracnose",
    "cultivars",
    "dispersal",
    "epidemic",
    "fungicides",
    "growth_stages",
    "microclimate",
    "mildew",
    "rival_rules",
    "rounds",
    "scouting",
    "spray_rules",
)
OUR_JUDGEMENT = {"project", "common_practice"}
ROWS = [(table, *key, number) for table in TABLES for key, number in numbers(table).items()]
each_row = pytest.mark.parametrize(
    ("table", "subject", "quantity", "number"), ROWS, ids=["/".join(row[:3]) for row in ROWS]
)


@each_row
def test_a_row_is_vouched_for(table: str, subject: str, quantity: str, number: Number) -> None:
    assert subject
    assert quantity
    assert table
    assert number.source in sources()
    assert number.unit in UNITS
    assert number.standing in STANDINGS
    assert number.low <= number.value <= number.high


@each_row
def test_an_assumption_says_so(table: str, subject: str, quantity: str, number: Number) -> None:
    place = f"{table}, {subject}, {quantity}"
    if number.standing == "assumed":
        assert number.note, place
    else:
        assert number.source not in OUR_JUDGEMENT, f"{place}: who published it?"
        assert number.where or number.note, place


def test_no_table_is_forgotten() -> None:
    found = {path.stem for path in (ROOT / "geo" / "reference" / "tables").glob("*.csv")}
    assert found == {*TABLES, "materials", "sources"}


@pytest.mark.parametrize("table", [*TABLES, "materials"])
def test_no_row_stands_twice(table: str) -> None:
    rows = read_rows(table)
    keys = {tuple(list(row.values())[:2]) for row in rows}
    assert len(keys) == len(rows)
    assert all(None not in row and None not in row.values() for row in rows)


def test_every_source_is_listed_once_and_whole() -> None:
    rows = read_rows("sources")
    assert len(sources()) == len(rows)
    for row in rows:
        assert all(row[column] for column in ("source", "kind", "citation", "licence")), row
        assert row["locator"] or row["read_on"] or row["source"] in OUR_JUDGEMENT, row


def named_in_tables() -> set[str]:
    """Return sources of rows, and those that a remark names by author and year."""
    rows = [row for table in (*TABLES, "materials") for row in read_rows(table)]
    remarks = " ".join(f"{row.get('where', '')} {row['note']}" for row in rows)
    authors = {
        key: re.fullmatch(r"([a-z]+)(\d{4})", key) for key in sources() if key not in OUR_JUDGEMENT
    }
    return {row["source"] for row in rows} | {
        key
        for key, parts in authors.items()
        if parts and re.search(rf"{parts[1]}\b[\w ]{{0,20}}{parts[2]}", remarks, re.IGNORECASE)
    }


def named_in_tests() -> set[str]:
    marks = re.compile(r"published\(\s*\"(\w+)\"")
    return {
        key for path in (ROOT / "tests").rglob("*.py") for key in marks.findall(path.read_text())
    }


def test_no_source_is_there_for_nothing() -> None:
    assert set(sources()) - named_in_tables() - named_in_tests() == set()


def test_each_parameter_of_a_kernel_is_a_row() -> None:
    mildew = {quantity for _, quantity in numbers("mildew")}
    climate = {quantity for _, quantity in numbers("microclimate")}
    for kernel in (PanicleMildew, HeatStop):
        assert {field.name for field in fields(kernel)} <= mildew
    anthracnose = {quantity for _, quantity in numbers("anthracnose")} | {"wet_humidity"}
    for kernel in (Anthracnose, LateRain):
        assert {field.name for field in fields(kernel)} <= anthracnose
    renamed = {"cloud_longwave_factor": "longwave_factor"}
    pool = {renamed.get(field.name, field.name) for field in fields(PoolParameters)}
    assert pool <= climate


@pytest.mark.parametrize(
    ("table", "quantity"), sorted({(table, quantity) for table, _, quantity, _ in ROWS})
)
def test_each_quantity_is_read_by_the_code(table: str, quantity: str) -> None:
    code = "".join(path.read_text("utf-8") for path in (ROOT / "geo").rglob("*.py"))
    # Kernels of dispersal take a whole subject at once. Quantities of a disease, its agent or its
    # organ, and what a source says, are read by what follows or comes before the name.
    whose = {word for one in DISEASES for word in (one.key, one.agent.replace(" ", "_"), one.organ)}
    names = "|".join(sorted(whose, key=len, reverse=True))
    own = re.fullmatch(rf"(?:{names})(_rating_by_)\w+|(?:{names})(_\w+)", quantity)
    read = (own[1] or rf"}}{own[2]}\b") if own else rf"\b{quantity}\b"
    assert re.search(read, code) or re.search(rf"\b{quantity}\b", code), (
        f"{table}: nobody reads {quantity}"
    )
