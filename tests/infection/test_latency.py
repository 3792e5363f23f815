"""How fast hidden infection ripens: computed days, limits, and nothing on fruit."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.infection.anthracnose_parameters import anthracnose_parameters
from geo.infection.latency import latency_rate, shortest_latency
from geo.infection.panicle_mildew import panicle_mildew_parameters
from geo.reference.diseases import DISEASES
from geo.reference.number import numbers

MILDEW = panicle_mildew_parameters()
ONE_DAY = np.array([0])


def days(temperature: float, disease: str = "panicle_mildew") -> float:
    fungus = MILDEW if disease.endswith("mildew") else anthracnose_parameters()
    air = np.full((1, 24), temperature)
    latent_days = shortest_latency(disease)
    return 1.0 / latency_rate(air, fungus, latent_days=latent_days, starts=ONE_DAY).item()


@pytest.mark.frozen("our own numbers, not an outside check: 7 days over the response of yan1999")
@pytest.mark.parametrize(
    ("temperature", "expected"), [(15.0, 12.4), (18.0, 8.5), (22.5, 7.0), (28.0, 10.2)]
)
def test_latent_period_of_mildew_at_steady_warmth(temperature: float, expected: float) -> None:
    assert days(temperature) == pytest.approx(expected, abs=0.05)


@pytest.mark.published("xu1999", "4-10 d over 10-28 degC, shortest near 22 degC, on rose; abstract")
def test_latency_is_shortest_near_22_degrees() -> None:
    found = [days(temperature) for temperature in np.arange(12.0, 31.0)]
    assert np.arange(12.0, 31.0)[np.argmin(found)] in {22.0, 23.0}
    assert 4.0 <= min(found) <= 10.0


def test_no_mango_number_stands_behind_anthracnose_on_blossom_and_its_row_says_so() -> None:
    row = numbers("anthracnose")["blossom anthracnose", "latent_days"]
    assert row.standing == "assumed"
    assert "no mango number was found" in row.note
    assert days(25.0, "blossom_anthracnose") == pytest.approx(row.value)


def test_hidden_infection_of_fruit_sheds_no_spores_before_harvest() -> None:
    rate = latency_rate(
        np.full((2, 24), 25.0),
        anthracnose_parameters(),
        latent_days=shortest_latency("fruit_anthracnose"),
        starts=ONE_DAY,
    )
    assert rate.tolist() == [[0.0], [0.0]]


def test_each_disease_has_a_latent_period() -> None:
    assert all(shortest_latency(disease.key) > 0.0 for disease in DISEASES)


@given(at_once=st.integers(1, 300))
def test_grouping_the_spots_never_changes_a_day_and_unknown_stays_in_its_spot(at_once: int) -> None:
    air = np.random.default_rng(4).uniform(5.0, 35.0, (6, 48))
    air[2, 30] = np.nan
    starts = np.array([0, 24])
    whole = latency_rate(air, MILDEW, latent_days=7.0, starts=starts)
    found = latency_rate(air, MILDEW, latent_days=7.0, starts=starts, values_at_once=at_once)
    np.testing.assert_array_equal(found, whole)
    assert np.argwhere(np.isnan(whole)).tolist() == [[2, 1]]
    assert ((whole >= 0.0) & (whole <= 1.0 / 7.0) | np.isnan(whole)).all()


def test_a_day_of_swinging_warmth_is_not_its_mean() -> None:
    swing = 22.5 + 9.0 * np.cos(2.0 * np.pi * np.arange(24) / 24.0)[None]
    rate = latency_rate(swing, MILDEW, latent_days=7.0, starts=ONE_DAY).item()
    assert rate < 0.8 / days(22.5)


def test_each_kind_of_array_is_taken(as_array) -> None:
    air = as_array([[15.0] * 24])
    found = latency_rate(air, MILDEW, latent_days=7.0, starts=ONE_DAY)
    np.testing.assert_allclose(found, [[0.5653 / 7.0]], rtol=1e-4)
