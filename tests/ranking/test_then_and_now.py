"""A block against itself at another time: ranks, exact ratios, and a sentence for each case."""

from math import nan, prod

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.ranking.then_and_now import Standing, largest, move_words, moves, standing
from geo.reference.diseases import DISEASES
from tests.demo_run import demo_outcome


def of(hazard: list[float], *, first: str = "B1") -> Standing:
    factors = np.ones((len(hazard), 8))
    factors[:, 0] = hazard
    names = (first, *(f"B{place}" for place in range(2, len(hazard) + 1)))
    return Standing(DISEASES[0], names, factors, np.array(hazard))


@given(
    then=st.lists(st.floats(1e-6, 10.0), min_size=8, max_size=8),
    now=st.lists(st.floats(1e-6, 10.0), min_size=8, max_size=8),
)
def test_the_ratios_multiply_to_the_ratio_of_the_hazards(then, now) -> None:
    rows = [
        Standing(DISEASES[0], ("B1",), np.array([row]), np.array([prod(row)]))
        for row in (then, now)
    ]
    (move,) = moves(*rows, against="then")
    ratios = prod(row.ratio for row in move.comparison.rows)
    assert ratios == pytest.approx(move.comparison.ratio, rel=1e-9)


def test_ranks_are_by_hazard_equal_ones_share_and_none_has_none() -> None:
    found = moves(of([0.4, 0.1, 0.4, 0.0, nan]), of([0.1, 0.2, 0.0, 0.3, nan]), against="then")
    assert {move.block: (move.rank_then, move.rank) for move in found} == {
        "B4": (None, 1),
        "B2": (3, 2),
        "B1": (1, 3),
        "B3": (1, None),
        "B5": (None, None),
    }
    assert [move.block for move in found] == ["B4", "B2", "B1", "B3", "B5"]


def test_blocks_that_are_not_in_both_are_left_out() -> None:
    assert [
        move.block for move in moves(of([0.1, 0.2], first="A9"), of([0.1, 0.2]), against="")
    ] == ["B2"]


def test_each_case_has_its_sentence() -> None:
    then, now = [0.2, 0.1, nan, 0.3, 0.0], [0.2, 0.2, 0.1, 0.0, 0.1]
    words = {move.block: move_words(move) for move in moves(of(then), of(now), against="then")}
    assert words == {
        "B1": "The same hazard.",
        "B2": "2.0 times then: its weather favours mildew more (× 2.0).",
        "B3": "A hazard ahead; not known then.",
        "B4": "No hazard ahead: no hour ahead favours mildew.",
        "B5": "A hazard ahead; none then: no hour ahead favours mildew.",
    }


def test_the_largest_change_comes_first_and_what_stays_is_left_out() -> None:
    found = moves(of([0.2, 0.1, 0.1, 0.4, 0.3]), of([0.2, 0.2, 0.0, 0.1, 0.3]), against="then")
    assert [move.block for move in largest(found)][:3] == ["B3", "B4", "B2"]


def test_a_season_against_itself_is_not_moved() -> None:
    here = standing(demo_outcome().season)
    assert not any(move.is_moved for move in moves(here, here, against="then"))
