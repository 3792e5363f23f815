"""The exchange of a season against the table of its dispersal layer."""

import numpy as np
import pytest

from geo.dispersal import DISPERSAL
from geo.dispersal.build import exchange_of
from geo.dispersal.layer import KERNELS, kernel_named
from tests.laws.made_season import SOURCE_COUNT, made_season


@pytest.mark.parametrize("kernel", KERNELS)
def test_a_small_farm_exchanges_exactly_what_the_table_holds(kernel: str) -> None:
    season = made_season(kernel=kernel)
    table = DISPERSAL.compute(season).spore_exchange.values
    shed = np.linspace(0.1, 0.9, SOURCE_COUNT)
    home, incoming = exchange_of(season, kernel_named(kernel)).received(shed)
    np.testing.assert_allclose(home + incoming, table @ shed, rtol=1e-12)
    np.testing.assert_allclose(home, np.diag(table) * shed[: home.size], rtol=1e-12)
