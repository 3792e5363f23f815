"""Several sprayers: which of them the rules for all blocks are asked with."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.season.sprayers import Sprayer, governing

KINDS = st.sampled_from((None, "airblast", "handgun", "knapsack", "hose_end"))
SPRAYERS = st.lists(st.builds(Sprayer, st.just("A"), KINDS, st.sampled_from((None, False, True))))


@pytest.mark.parametrize(
    ("kinds", "widest"),
    [
        ((), None),
        (("knapsack", "airblast"), "airblast"),
        (("knapsack", None), None),
        (("hose_end", "knapsack"), "knapsack"),
    ],
)
def test_the_kind_with_the_widest_rules_governs(kinds, widest) -> None:
    assert governing(tuple(Sprayer("A", kind) for kind in kinds))[0] == widest


@given(SPRAYERS)
def test_a_suspension_may_be_carried_if_any_sprayer_may(sprayers: list[Sprayer]) -> None:
    stirred = governing(tuple(sprayers))[1]
    assert (stirred is True) == any(sprayer.agitated for sprayer in sprayers)
    assert (stirred is False) == (
        len(sprayers) > 0 and all(sprayer.agitated is False for sprayer in sprayers)
    )


@pytest.mark.parametrize(
    ("kind", "agitated", "keeps"),
    [("hose_end", None, False), ("airblast", None, None), (None, True, True)],
)
def test_a_hose_end_has_no_tank_to_stir(kind, agitated, keeps) -> None:
    assert Sprayer("A", kind, agitated).keeps_stirred is keeps
