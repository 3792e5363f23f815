"""The infected share: its check values, and a regression in its place."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.anthracnose_parameters import anthracnose_parameters
from geo.infection.infected_share import (
    LogitCoefficients,
    infected_share_of,
    logit_share,
    weibull_share,
)
from geo.infection.temperature_response import response_yan1999

ANTHRACNOSE = anthracnose_parameters()
# Made up for the test: coefficients of no paper, and no result of them means anything.
MADE = LogitCoefficients(constant=-9.0, per_wet_hour=0.2, per_degree=0.5, per_degree_squared=-0.01)


@pytest.mark.frozen("our own numbers, not an outside check: 6 h, 12 h and 24 h at the optimum")
def test_infected_share_after_6_and_12_and_24_hours() -> None:
    found = weibull_share(np.array([0.0, 6.0, 12.0, 24.0]), ANTHRACNOSE)
    np.testing.assert_allclose(found, [0.0, 0.203, 0.596, 0.973], atol=5e-4)


@pytest.mark.published("estrada1996", "high risk above 40 % of conidia with appressoria; abstract")
def test_the_alert_of_40_percent_takes_9_hours_at_the_optimum() -> None:
    hours = np.arange(8.0, 10.0, 0.01)
    is_alert = weibull_share(hours, ANTHRACNOSE) >= ANTHRACNOSE.alert_share
    assert hours[is_alert][0] == pytest.approx(9.0, abs=0.02)


@pytest.mark.published("magarey2005", "hours of wetness for 20 % are Wmin / f(T); Wmin 6 is ours")
@pytest.mark.parametrize(
    ("temperature", "hours"),
    [(15, 15.588), (18, 9.062), (20, 7.348), (25, 6), (30, 7.794), (32, 11.260)],
)
def test_wet_hours_for_a_fifth_at_other_temperatures(temperature: float, hours: float) -> None:
    response = response_yan1999(
        np.array([float(temperature)]), minimum=10.0, optimum=25.0, maximum=35.0
    )
    assert weibull_share(hours * response, ANTHRACNOSE)[0] == pytest.approx(0.203, abs=5e-4)


@given(hours=st.floats(0.0, 500.0), more=st.floats(0.0, 500.0))
def test_longer_wetness_never_infects_less(hours: float, more: float) -> None:
    first, second = weibull_share(np.array([hours, hours + more]), ANTHRACNOSE)
    assert 0.0 <= first <= second <= 1.0


def test_the_logit_is_the_generic_form() -> None:
    coefficients = LogitCoefficients(-9.0, 0.2, 0.5, -0.01, 0.003)
    share = logit_share(np.array([24.0]), np.array([25.0]), coefficients)[0]
    expected = -9.0 + 0.2 * 24 + 0.5 * 25 - 0.01 * 625 + 0.003 * 24 * 25
    assert np.log(share / (1.0 - share)) == pytest.approx(expected)


@given(hours=st.floats(0.0, 1e4), temperature=st.floats(-20.0, 50.0))
def test_the_logit_gives_a_share_and_none_without_wetness(hours, temperature) -> None:
    share = logit_share(np.array([hours, 0.0]), np.array([temperature] * 2), MADE)
    assert 0.0 <= share[0] <= 1.0
    assert share[1] == 0.0


def test_a_regression_takes_the_place_of_our_stand_in() -> None:
    sums = np.array([[[5.0, 0.0]], [[10.0, 0.0]], [[240.0, 0.0]]]).transpose(1, 0, 2)
    ours = infected_share_of(ANTHRACNOSE)(sums)
    theirs = infected_share_of(ANTHRACNOSE, MADE)(sums)
    np.testing.assert_array_equal(ours, weibull_share(np.array([[5.0, 0.0]]), ANTHRACNOSE))
    np.testing.assert_array_equal(
        theirs, logit_share(np.array([[10.0, 0.0]]), np.array([[24.0, 0.0]]), MADE)
    )


def test_each_kind_of_array_is_taken(as_array) -> None:
    found = weibull_share(as_array([[0.0, 6.0], [12.0, 24.0]]), ANTHRACNOSE)
    np.testing.assert_allclose(found, [[0.0, 0.203], [0.596, 0.973]], atol=5e-4)
