"""Four rules for wet leaves: their printed scores, and where they must agree."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.reference.number import values
from geo.weather.humidity import vapour_pressure
from geo.weather.psychrometer import dew_point
from geo.weather.wetness import (
    CALM_SCORE,
    ESTIMATORS,
    WINDY_SCORE,
    calm_score_kim2002,
    is_wet_by_dew_point,
    is_wet_by_humidity,
    is_wet_kim2002,
    windy_score_kim2002,
)


def depression(temperature: float, humidity: float) -> np.ndarray:
    """Return it by the exact inverse of allen1998, Eq. 11, as the scores below were computed."""
    logarithm = np.log(vapour_pressure(np.array(temperature), np.array(humidity)) / 0.6108)
    return np.asarray(temperature - 237.3 * logarithm / (17.27 - logarithm))


@pytest.mark.frozen("our own numbers, by the inverse of allen1998, Eq. 11")
def test_worked_depressions() -> None:
    for temperature, humidity, expected in ((20, 90, 1.691), (20, 95, 0.826), (15, 90, 1.626)):
        assert depression(temperature, humidity) == pytest.approx(expected, abs=5e-4)


@pytest.mark.frozen("coefficients of kim2002 by a public copy; scores computed by us apart")
@pytest.mark.parametrize(("humidity", "score"), [(95, 16.139), (90, 15.325), (85, 14.492)])
def test_scores_in_little_wind(humidity: int, score: float) -> None:
    found = calm_score_kim2002(
        np.array(20.0), np.array(1.0 * humidity), depression(20.0, humidity), np.array(1.0)
    )
    assert found == pytest.approx(score, abs=1e-3)
    assert found > CALM_SCORE


@pytest.mark.frozen("the same in wind, with humidity squared: that copy leaves it out")
@pytest.mark.parametrize(("humidity", "score", "wet"), [(95, 38.18, True), (90, 36.68, False)])
def test_scores_in_wind(humidity: int, score: float, wet: bool) -> None:  # noqa: FBT001
    arrays = np.array(20.0), np.array(1.0 * humidity)
    away = depression(20.0, humidity)
    wind = np.array(3.0)
    assert windy_score_kim2002(*arrays, away, wind) == pytest.approx(score, abs=5e-3)
    assert bool(is_wet_kim2002(*arrays, arrays[0] - away, wind)) is wet


@pytest.mark.published("kim2002", "first and third branch, by a public copy")
def test_the_tree_is_dry_far_from_the_dew_point_and_in_dry_wind() -> None:
    warm, damp = np.full(3, 20.0), np.full(3, 99.0)
    far = is_wet_kim2002(warm, damp, warm - np.array([3.6, 3.8, 5.0]), np.full(3, 0.5))
    assert far.tolist() == [True, False, False]
    humidity = np.array([87.7, 100.0, 100.0])
    windy = is_wet_kim2002(warm, humidity, warm - np.array([3.0, 0.0, 3.0]), np.full(3, 3.0))
    assert windy.tolist() == [False, True, True]


def test_without_the_square_wind_could_never_leave_a_leaf_wet() -> None:
    temperature, humidity, wind = np.meshgrid(
        np.arange(1.0, 45.5, 1.0), np.arange(87.8, 100.01, 0.4), np.arange(2.5, 30.1, 0.5)
    )
    away = temperature - dew_point(vapour_pressure(temperature, humidity))
    squared = windy_score_kim2002(temperature, humidity, away, wind)
    unsquared = squared + 0.0046 * (humidity - humidity**2)
    assert unsquared.max() < 3.0 < WINDY_SCORE < squared.max()


@pytest.mark.published("gillespie1993", "dew sets in at a depression of 2.0 K, from memory")
def test_dew_sets_in_two_kelvin_above_the_dew_point() -> None:
    limit = values("microclimate", "wetness")["depression"]
    away = np.array([1.9, 2.0, 2.1, np.nan])
    found = is_wet_by_dew_point(20.0 + away, np.full(4, 20.0), depression=limit)
    assert found.tolist() == [True, True, False, False]


def test_the_names_say_what_the_table_holds() -> None:
    humid = values("microclimate", "air")["humid_threshold"]
    wetness = values("microclimate", "wetness")
    assert ESTIMATORS[:3] == (
        f"humidity_{humid:g}",
        f"humidity_{wetness['strict_threshold']:g}",
        f"dew_point_{wetness['depression']:g}k",
    )


def test_frozen_or_unknown_air_is_dry_by_the_tree() -> None:
    cold = is_wet_kim2002(
        np.array([-0.1, np.nan]), np.full(2, 100.0), np.array([-0.1, np.nan]), np.zeros(2)
    )
    assert not cold.any()


@given(temperature=st.floats(0.0, 40.0), wind=st.floats(0.0, 10.0))
def test_bone_dry_air_is_dry_by_every_rule(temperature: float, wind: float) -> None:
    humidity = np.array(30.0)
    point = dew_point(vapour_pressure(np.array(temperature), humidity))
    assert not is_wet_by_humidity(humidity, threshold=90.0)
    assert not is_wet_by_dew_point(np.array(temperature), point, depression=2.0)
    assert not is_wet_kim2002(np.array(temperature), humidity, point, np.array(wind))


def test_each_kind_of_array_is_taken(as_array) -> None:
    temperature, humidity = as_array([[20.0, 20.0]]), as_array([[97.0, 60.0]])
    point, wind = dew_point(vapour_pressure(temperature, humidity)), as_array([[0.5, 0.5]])
    for found in (
        is_wet_by_humidity(humidity, threshold=95.0),
        is_wet_by_dew_point(temperature, point, depression=2.0),
        is_wet_kim2002(temperature, humidity, point, wind),
    ):
        assert found.tolist() == [[True, False]]
