"""How doubtful a count is, against moments by numerical integration."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import beta, norm

from geo.ranking.doubt import count_doubt, spread


def doubt_by_integration(infected: float, inspected: float) -> float:
    """Return the standard deviation of log(p) under the posterior, with u = log(p)."""
    posterior = beta(infected + 0.5, inspected - infected + 0.5)

    def moment(power: int) -> float:
        def weigh(u: float) -> float:
            return u**power * np.exp(posterior.logpdf(np.exp(u)) + u)

        middle = float(np.log(posterior.median()))
        pieces = [(-60.0, middle - 3.0), (middle - 3.0, min(middle + 3.0, -1e-12))]
        pieces.append((min(middle + 3.0, -1e-12), -1e-12))
        return sum(quad(weigh, low, high, limit=300)[0] for low, high in pieces)

    return float(np.sqrt(moment(2) - moment(1) ** 2))


@pytest.mark.published("jeffreys1946", "prior Beta(1/2, 1/2), from memory; integrated numerically")
@pytest.mark.parametrize(("infected", "inspected"), [(1, 50), (3, 20), (50, 500), (19, 20), (0, 9)])
def test_doubt_is_the_spread_of_the_logarithm(infected: float, inspected: float) -> None:
    found = float(count_doubt(np.array(infected), np.array(inspected)))
    assert found == pytest.approx(doubt_by_integration(infected, inspected), rel=1e-4)


# A count of none is left out: in a logarithm, none of many is as doubtful as none of few.
@given(infected=st.integers(1, 50), more=st.integers(1, 40))
def test_counting_more_at_the_same_share_is_less_doubtful(infected: int, more: int) -> None:
    inspected = infected + 10
    times = np.array([1.0, 1.0 + more])
    found = count_doubt(infected * times, inspected * times)
    assert found[1] <= found[0]


@given(doubt=st.floats(0.0, 3.0))
def test_the_spread_holds_the_middle_80_percent(doubt: float) -> None:
    factor = float(spread(np.array(doubt)))
    assert factor >= 1.0
    if doubt > 1e-3:
        inside = norm.cdf(np.log(factor), scale=doubt) - norm.cdf(-np.log(factor), scale=doubt)
        assert inside == pytest.approx(0.8, abs=1e-4)
