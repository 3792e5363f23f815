"""What sprays do to infections that are inside already."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.protection import PROTECTION
from geo.protection.curative import cured_share
from geo.reference.fungicides import fungicides
from tests.laws.made_season import made_before, replaced

PROTECTANTS = [name for name, one in fungicides().items() if one.mobility == "contact"]


def cured(material: str, *, hour: float = 31.0) -> tuple[np.ndarray, np.ndarray]:
    """Return what one spray of block 0 on the second day cures, in a dry season."""
    found = made_before(PROTECTION).isel(spray=[0])
    dry = np.zeros(found.sizes["hour"])
    season = PROTECTION.add_to(
        replaced(found, spray_hour=[hour], spray_material=[material], precipitation=dry)
    )
    return season.cured.values, season.cured_age.values


@pytest.mark.parametrize("material", PROTECTANTS)
def test_a_protectant_never_reaches_what_is_inside(material: str) -> None:
    share, age = cured(material)
    assert not share.any()
    assert not age.any()


@pytest.mark.parametrize(("material", "days"), [("penconazole", 3.0), ("azoxystrobin", 1.0)])
def test_codes_3_and_11_reach_back_on_the_day_of_the_spray_only(material, days) -> None:
    share, age = cured(material)
    fresh = fungicides()[material].efficacy["panicle_mildew"].value * 0.8
    assert share[0, 1] == pytest.approx(0.5 * fresh)  # half of it by the table's row
    assert age[0, 1] == days
    assert np.count_nonzero(share) == np.count_nonzero(age) == 1


def test_a_spray_from_before_the_season_cures_nothing_in_it() -> None:
    assert not cured("penconazole", hour=-1.0)[0].any()


def test_of_a_mixture_the_part_that_reaches_most_counts_once() -> None:
    share, age = cured_share(
        np.array([0.3, 0.4, 0.2]),
        np.array([3.0, 1.0, 1.0]),
        np.array([0, 0, 1]),
        np.array([2, 2, 2]),
        shape=(2, 4),
    )
    assert (share[0, 2], age[0, 2]) == (0.3, 3.0)
    assert (share[1, 2], age[1, 2]) == (0.2, 1.0)


few = st.lists(st.tuples(st.floats(0.0, 1.0), st.floats(0.0, 4.0)), min_size=1, max_size=5)


@given(sprays=few)
def test_a_further_spray_never_cures_less(sprays: list[tuple[float, float]]) -> None:
    def total(count: int) -> float:
        strength, reach = np.array(sprays[:count]).reshape(-1, 2).T
        nought = np.zeros(count, dtype=int)
        share, age = cured_share(strength, reach, nought, nought, shape=(1, 1))
        return float(share[0, 0] * age[0, 0])

    assert total(len(sprays)) >= total(len(sprays) - 1)
