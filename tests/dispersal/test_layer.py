"""The dispersal layer on the made season."""

import numpy as np
import pytest

from geo.dispersal import DISPERSAL
from geo.dispersal.layer import KERNELS, kernel_named
from geo.reference.number import values
from tests.laws.made_season import made_season


@pytest.mark.parametrize("name", KERNELS)
def test_a_kernel_carries_its_name_and_its_size(name: str) -> None:
    kernel = kernel_named(name)
    assert (kernel.name, kernel.scale) == (name, values("dispersal", name)["scale"])


@pytest.mark.published("fitzell1984", "conidia spread in rain within the canopy, abstract")
def test_splashed_conidia_hardly_leave_their_block() -> None:
    season = made_season()
    blown = DISPERSAL.compute(season).spore_exchange.values
    splashed = DISPERSAL.compute(season.assign_coords(disease="fruit_anthracnose"))
    share = splashed.spore_exchange.values
    assert (np.diag(share) > np.diag(blown)).all()
    others = share - np.diag(np.diag(share[:, :5])) @ np.eye(5, 6)
    assert others.max() < 1e-3
