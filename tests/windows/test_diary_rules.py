"""Sprays of the diary: days since, uses in a year, uses in a row, by code."""

import numpy as np
import pytest

from geo.reference.number import values
from geo.windows.diary_rules import days_since, running_with_this, uses_with_this

NOW = np.array([0.0])


def runs(*codes: str, code: str) -> float:
    """Return the run that one more spray of a code makes after applications of these codes."""
    rows = [(place, part) for place, text in enumerate(codes) for part in text.split("+")]
    hour = np.array([float(place) for place, _ in rows])
    has = np.array([part == code for _, part in rows], dtype=bool)
    found = running_with_this(np.zeros(len(rows), dtype=int), hour, has, block_count=1)
    return float(found[0])


def uses(*codes: str, code: str) -> float:
    hour = np.array([-100.0 + place for place, text in enumerate(codes) if code in text.split("+")])
    found = uses_with_this(np.zeros(hour.size, dtype=int), hour, NOW, block_count=1)
    return float(found[0, 0])


@pytest.mark.published("ucanr_pn7494", "14 days either side")
@pytest.mark.parametrize(("days", "is_open"), [(13.0, False), (14.0, True)])
def test_oil_thirteen_or_fourteen_days_ago_flips(days, is_open) -> None:
    since = days_since(np.array([0]), np.array([-24.0 * days]), NOW, block_count=2)
    assert since[0, 0] == days
    assert since[1, 0] == np.inf
    assert (since[0, 0] >= values("spray_rules", "sulfur")["oil_interval"]) == is_open


@pytest.mark.published("croplife2017", "premixes count for each code; 11 not in a row; at most 3")
def test_a_premix_counts_for_each_of_its_codes() -> None:
    done = ("3+11", "7", "3+11")
    # With the spray to come: one more than what is done.
    assert [uses(*done, code=code) - 1 for code in ("3", "11", "7")] == [2.0, 2.0, 1.0]
    most = values("spray_rules", "FRAC 11")
    assert uses(*done[:2], code="11") <= most["season_uses"]
    assert uses("3+11", "7", "3+11", "7", "3+11", code="11") > most["season_uses"]


@pytest.mark.published("croplife2017", "11, 11: refused; 7 at most twice running")
def test_uses_in_a_row_flip_at_the_limit() -> None:
    once, twice = (values("spray_rules", f"FRAC {code}")["running_uses"] for code in (11, 7))
    assert runs("11", code="11") > once
    assert runs("11", "M02", code="11") <= once
    assert runs("7", code="7") <= twice
    assert runs("7", "7", code="7") > twice
    assert runs("7", "3", "7", code="7") <= twice
    assert runs("7+3", "3", code="3") == 3.0


def test_a_year_and_an_hour_ago_is_another_season() -> None:
    hour = np.array([-365.0 * 24.0, -365.0 * 24.0 - 1.0])
    assert uses_with_this(np.zeros(2, dtype=int), hour, NOW, block_count=1).tolist() == [[2.0]]


def test_a_mixture_of_one_hour_is_one_use() -> None:
    hour = np.array([-5.0, -5.0])
    assert uses_with_this(np.zeros(2, dtype=int), hour, NOW, block_count=1).tolist() == [[2.0]]


def test_without_any_spray_this_is_the_first() -> None:
    none, never = np.zeros(0, dtype=int), np.zeros(0)
    assert uses_with_this(none, never, NOW, block_count=2).tolist() == [[1.0], [1.0]]
    assert running_with_this(none, never, np.zeros(0, dtype=bool), block_count=2).tolist() == [1, 1]


def test_permuting_blocks_permutes_counts() -> None:
    chance = np.random.default_rng(3)
    block, hour = chance.integers(0, 6, 40), -chance.integers(1, 9000, 40).astype(float)
    has, turn = chance.random(40) < 0.5, chance.permutation(6)
    for kernel in (days_since, uses_with_this):
        straight = kernel(block, hour, NOW, block_count=6)
        assert (kernel(turn[block], hour, NOW, block_count=6)[turn] == straight).all()
    run = running_with_this(block, hour, has, block_count=6)
    assert (running_with_this(turn[block], hour, has, block_count=6)[turn] == run).all()
