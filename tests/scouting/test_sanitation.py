"""Cutting out infected panicles is offered where it may help, with honest words."""

from dataclasses import replace

import numpy as np
import pytest
import xarray as xr

from geo.scouting import plan_scouting_order
from geo.scouting.sanitation import sanitation_words
from geo.season.farm import Farm
from tests.laws.made_farm import made_farm
from tests.laws.made_season import made_season, replaced, through


@pytest.fixture(scope="module")
def season() -> xr.Dataset:
    return through(made_season())


def planted(year: float) -> Farm:
    farm = made_farm()
    return replace(farm, blocks=farm.blocks.assign(planted=year))


def words(season: xr.Dataset, *, infected: float, year: float = 2023) -> str:
    return sanitation_words(planted(year), season, 0, infected=infected, inspected=100.0)


def test_a_few_finds_on_young_trees_bring_the_option_and_its_limits(season) -> None:
    said = words(season, infected=3)
    assert said.startswith("An option on trees planted 2023: cut out infected panicles early")
    for limit in (
        "no trial of it on mango was found",
        "30 % of what shows (10 to 60 %, assumed)",
        "hidden infection stays in",
        "each panicle cut is fruit lost",
        "does not take the place of a spray",
    ):
        assert limit in said


def test_without_a_year_of_planting_the_trees_are_to_be_judged_by_eye(season) -> None:
    assert words(season, infected=3, year=np.nan).startswith("An option where trees are small: ")


@pytest.mark.parametrize(("infected", "year"), [(0, 2023), (11, 2023), (3, 2019)])
def test_nothing_is_offered_where_it_would_not_help(season, infected, year) -> None:
    assert words(season, infected=infected, year=year) == ""


def test_leaves_are_not_cut_out(season) -> None:
    of_leaves = season.assign_coords(disease="leaf_mildew")
    assert words(of_leaves, infected=3) == ""


def test_the_order_offers_it_for_a_fresh_count_only(season) -> None:
    # Block 1 was counted on day 1, with 2 of 100 infected.
    fresh, stale = (
        {entry.block: entry.option for entry in plan_scouting_order(planted(2023), told).entries}
        for told in (season, replaced(season, days_since_look=np.full(5, 20.0)))
    )
    assert fresh["B1"].startswith("An option on trees planted 2023")
    assert fresh["B2"] == ""
    assert set(stale.values()) == {""}
