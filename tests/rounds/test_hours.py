"""How far down the order the hours of a day reach."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from geo.rounds.hours import hours_today, reached, sprayer_hours
from geo.rounds.plan import plan_spray_order
from geo.season import Farm
from geo.season.sprayers import RoundSettings, Sprayer
from geo.windows import spray_windows
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_through

SEASON = made_through().assign_attrs(reapply_line=0.9)


@given(
    hours=st.lists(st.floats(0.01, 20.0), min_size=1, max_size=30),
    total=st.floats(0.0, 100.0),
    share=st.floats(0.0, 1.0),
)
def test_fewer_hours_reach_a_part_of_what_more_hours_reach(hours, total, share) -> None:
    each = np.array(hours)
    many, few = reached(each, total), reached(each, total * share)
    assert (many | ~few).all()
    # And what is reached is the head of the order.
    assert (np.diff(many.astype(int)) <= 0).all()


def with_hours(hours: float | None, *, sprayers: int = 1) -> Farm:
    """Return the farm whose sprayers work so long."""
    return made_farm(
        material="copper",
        sprayer_hours_per_hectare=0.5,
        day_round=RoundSettings(hours=hours),
        sprayers=tuple(Sprayer(f"S{place}") for place in range(sprayers)),
    )


def test_halving_the_hours_moves_no_block_up_and_marks_fewer() -> None:
    whole, half = (
        plan_spray_order(farm, SEASON, spray_windows(farm, SEASON))
        for farm in (with_hours(5.0), with_hours(2.5))
    )
    ranks = {entry.block: entry.rank for entry in whole.entries}
    assert {entry.block: entry.rank for entry in half.entries} == ranks
    # Each block takes 1.2 h.
    assert [entry.is_within for entry in whole.entries] == [True] * 4 + [False]
    assert [entry.is_within for entry in half.entries] == [True] * 2 + [False] * 3


def test_hours_of_all_sprayers_count_together() -> None:
    assert hours_today(with_hours(4.0, sprayers=3)) == 12.0
    assert hours_today(with_hours(4.0, sprayers=0)) == 4.0
    assert hours_today(with_hours(None)) is None


def test_without_hours_nothing_is_marked() -> None:
    for farm in (with_hours(None), made_farm(material="copper", day_round=RoundSettings(hours=3))):
        order = plan_spray_order(farm, SEASON, spray_windows(farm, SEASON))
        assert {entry.is_within for entry in order.entries} == {None}
    assert sprayer_hours(made_farm(), SEASON) is None
