"""Cutting out infected panicles is offered where it may help, with honest words."""

from dataclasses import replace
from math import nan

import numpy as np
import pytest

from geo.reference.diseases import disease_with
from geo.scouting import plan_scouting_order
from geo.scouting.sanitation import sanitation_words
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_through, replaced


def words(*, infected: float, years: float = 3.0, disease: str = "panicle_mildew") -> str:
    return sanitation_words(disease_with(disease), years=years, infected=infected, inspected=100.0)


def test_a_few_finds_on_young_trees_bring_the_option_and_its_limits() -> None:
    said = words(infected=3)
    assert said.startswith(
        "An option on trees planted 3 years ago: cut out infected panicles early"
    )
    for limit in (
        "no trial of it on mango was found",
        "30 % of what shows (10 to 60 %, assumed)",
        "hidden infection stays in",
        "each panicle cut is fruit lost",
        "does not take the place of a spray",
    ):
        assert limit in said


@pytest.mark.parametrize(
    ("years", "told"),
    [(nan, "where trees are small"), (0.0, "planted this year"), (1.0, "planted last year")],
)
def test_the_age_of_the_trees_is_told_as_far_as_it_is_known(years: float, told: str) -> None:
    assert f"{told}: cut out" in words(infected=3, years=years)


@pytest.mark.parametrize(("infected", "years"), [(0, 3), (11, 3), (3, 7)])
def test_nothing_is_offered_where_it_would_not_help(infected: float, years: float) -> None:
    assert words(infected=infected, years=years) == ""


def test_leaves_are_not_cut_out() -> None:
    assert words(infected=3, disease="leaf_mildew") == ""


def test_the_order_offers_it_for_a_fresh_count_only() -> None:
    # Block 1 was counted on day 1, with 2 of 100 infected; block 2 with none.
    season, farm = made_through(), made_farm()
    young = replace(farm, blocks=farm.blocks.assign(planted=2023))
    fresh, stale = (
        {entry.block: entry.option for entry in plan_scouting_order(young, told).entries}
        for told in (season, replaced(season, days_since_look=np.full(5, 20.0)))
    )
    assert fresh["B1"].startswith("An option on trees planted 3 years ago")
    assert fresh["B2"] == ""
    assert set(stale.values()) == {""}
