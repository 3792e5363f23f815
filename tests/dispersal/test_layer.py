"""The dispersal layer on the made season."""

import numpy as np
import pytest

from geo.dispersal import DISPERSAL
from geo.dispersal.layer import KERNELS, kernel_named
from geo.reference.number import values
from tests.laws.made_season import BLOCK_COUNT, made_season, replaced

MILDEW = values("mildew", "panicle mildew")
NO_MILDEW = np.zeros(BLOCK_COUNT, dtype=np.int64)


@pytest.mark.parametrize("name", KERNELS)
def test_a_kernel_carries_its_name_and_its_size(name: str) -> None:
    kernel = kernel_named(name)
    assert (kernel.name, kernel.scale) == (name, values("dispersal", name)["scale"])


def test_nobody_looked_anywhere_and_statuses_speak() -> None:
    season = replaced(made_season().isel(visit=[]), had_mildew_last_season=NO_MILDEW)
    statuses = ["scouted"] * BLOCK_COUNT + ["known"]
    given = DISPERSAL.compute(replaced(season, source_status=statuses))
    unseen, known = MILDEW["status_unknown"], MILDEW["status_known"]
    np.testing.assert_array_equal(given.sporulating.values[:, 0], [unseen] * 5 + [known])


def test_a_block_nobody_counted_in_has_the_farms_own_mean() -> None:
    season = replaced(made_season(), had_mildew_last_season=NO_MILDEW)
    is_own = season.visit_block.values < BLOCK_COUNT
    counted = season.visit_inspected.values[is_own].sum()
    found = season.visit_infected.values[is_own].sum()
    given = DISPERSAL.compute(season)
    assert given.sporulating.values[4, 0] == pytest.approx((found + 0.5) / (counted + 1.0))


def test_todays_spores_are_those_of_yesterdays_panicles() -> None:
    # Block 3 is counted on days 1 and 4: the jump is felt on day 5.
    home = DISPERSAL.compute(made_season()).home_inoculum.values[2]
    assert home[4] == home[2] < home[5] == home[8]


def test_last_seasons_mildew_stands_for_panicles_nobody_has_counted() -> None:
    plain = replaced(made_season(), had_mildew_last_season=NO_MILDEW)
    flagged = replaced(plain, had_mildew_last_season=np.ones(BLOCK_COUNT, dtype=np.int64))
    one, other = (DISPERSAL.compute(season).sporulating.values for season in (plain, flagged))
    more = np.zeros(BLOCK_COUNT + 1)
    more[4] = MILDEW["carry_over_inoculum"]  # the one block without a count
    np.testing.assert_allclose(other - one, more[:, None] * np.ones(9), atol=1e-12)


@pytest.mark.common_practice("a nearer diseased neighbour is worse than a farther one")
def test_a_nearer_neighbour_gives_more() -> None:
    season = made_season()
    is_neighbour = season.edge_source.values == BLOCK_COUNT
    shift = np.where(is_neighbour, 400.0, 0.0)
    farther = replaced(
        season,
        edge_start_x=season.edge_start_x.values + shift,
        edge_end_x=season.edge_end_x.values + shift,
    )
    near, far = (DISPERSAL.compute(one).incoming_inoculum.values for one in (season, farther))
    assert (near > far).all()
