"""Classes are fixed."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.ranking.classes import CLASS_BREAKS, CLASS_WORDS, NOT_KNOWN, hazard_class


@pytest.mark.parametrize(
    ("hazard", "expected"),
    [(0.0, 0), (0.0499, 0), (0.05, 1), (0.15, 2), (0.4, 3), (0.999, 3), (1.0, 4), (99.0, 4)],
)
def test_a_break_belongs_to_the_class_above_it(hazard: float, expected: int) -> None:
    assert hazard_class(np.array([hazard])).tolist() == [expected]


def test_an_unknown_hazard_has_no_class() -> None:
    assert hazard_class(np.array([[np.nan]])).tolist() == [[NOT_KNOWN]]


@given(st.lists(st.floats(0.0, 30.0), min_size=2, max_size=9))
def test_more_hazard_is_never_a_lower_class(hazards: list[float]) -> None:
    assert (np.diff(hazard_class(np.sort(np.array(hazards)))) >= 0).all()


def test_there_is_a_word_for_every_class() -> None:
    assert len(CLASS_WORDS) == len(CLASS_BREAKS) + 1
