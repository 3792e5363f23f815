"""The beta response: computed values, its other form, and its limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.temperature_response import response_yan1999

MILDEW = {"minimum": 9.0, "optimum": 22.5, "maximum": 32.0}
ANTHRACNOSE = {"minimum": 10.0, "optimum": 25.0, "maximum": 35.0}


@pytest.mark.published("yan1999", "the beta function with a minimum, computed for 9/22.5/32 degC")
@pytest.mark.parametrize(
    ("temperature", "response"),
    list(
        zip(
            [-5, 9, 10, 12, 15, 18, 20, 21, 22.5, 25, 28, 30, 31, 32, 45],
            [
                0,
                0,
                0.0573,
                0.2483,
                0.5653,
                0.8283,
                0.9442,
                0.9794,
                1,
                0.9381,
                0.6843,
                0.3944,
                0.2107,
                0,
                0,
            ],
            strict=True,
        )
    ),
)
def test_cardinal_temperatures_of_mildew(temperature: float, response: float) -> None:
    assert response_yan1999(np.array(float(temperature)), **MILDEW) == pytest.approx(
        response, abs=5e-5
    )


@pytest.mark.published("yan1999", "the beta function with a minimum, computed for 10/25/35 degC")
@pytest.mark.parametrize(
    ("temperature", "response"),
    list(
        zip(
            [12, 15, 18, 20, 22, 25, 28, 30, 32, 34],
            [0.1120, 0.3849, 0.6621, 0.8165, 0.9302, 1, 0.9202, 0.7698, 0.5329, 0.2024],
            strict=True,
        )
    ),
)
def test_other_cardinal_temperatures(temperature: float, response: float) -> None:
    found = response_yan1999(np.array(float(temperature)), **ANTHRACNOSE)
    assert found == pytest.approx(response, abs=5e-5)


@pytest.mark.published("yan1999", "equal to Analytis' a t^b (1 - t) with these a and b; derived")
@given(
    minimum=st.floats(0.0, 12.0),
    rise=st.floats(2.0, 20.0),
    fall=st.floats(2.0, 15.0),
    share=st.floats(0.0, 1.0),
)
def test_it_is_the_beta_function_of_analytis(minimum, rise, fall, share) -> None:
    optimum, maximum = minimum + rise, minimum + rise + fall
    temperature = minimum + share * (maximum - minimum)
    b = (optimum - minimum) / (maximum - optimum)
    a = (1.0 + b) ** (1.0 + b) / b**b
    analytis = a * share**b * (1.0 - share)
    found = response_yan1999(
        np.array(temperature), minimum=minimum, optimum=optimum, maximum=maximum
    )
    assert found == pytest.approx(analytis, rel=1e-9, abs=1e-12)


@given(temperature=st.floats(-40.0, 60.0))
def test_the_response_lies_between_0_and_1(temperature: float) -> None:
    assert 0.0 <= response_yan1999(np.array(temperature), **MILDEW) <= 1.0 + 1e-12


def test_unknown_warmth_stays_unknown() -> None:
    found = response_yan1999(np.array([np.nan, 20.0]), **MILDEW)
    assert np.isnan(found).tolist() == [True, False]


def test_each_kind_of_array_is_taken(as_array) -> None:
    found = response_yan1999(as_array([[9.0, 22.5], [30.0, 40.0]]), **MILDEW)
    np.testing.assert_allclose(found, [[0.0, 1.0], [0.3944, 0.0]], atol=1e-4)
