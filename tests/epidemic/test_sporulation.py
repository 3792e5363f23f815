"""What share of panicles sheds spores, from counts."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta

from geo.epidemic.sporulation import infected_share, sporulating_share
from geo.season.visits import looks


@pytest.mark.published("jeffreys1946", "prior Beta(1/2, 1/2), from memory; mean by scipy.stats")
@given(inspected=st.integers(1, 2000), part=st.floats(0.0, 1.0))
def test_the_share_is_the_mean_of_the_posterior(inspected: int, part: float) -> None:
    infected = round(part * inspected)
    expected = beta(infected + 0.5, inspected - infected + 0.5).mean()
    found = infected_share(np.array(float(infected)), np.array(float(inspected)))
    assert found == pytest.approx(expected, rel=1e-12)
    assert 0.0 < found < 1.0


def test_the_last_look_holds_and_the_first_look_holds_before_it() -> None:
    # Source 0 is looked at on days 1 and 3, source 1 never.
    seen = looks(np.array([0, 0]), np.array([1, 3]), subject_count=2, day_count=5)
    found = sporulating_share(seen, np.array([0.1, 0.4]), np.array([0.9, 0.04]))
    np.testing.assert_array_equal(found, [[0.1, 0.1, 0.1, 0.4, 0.4], [0.04] * 5])
