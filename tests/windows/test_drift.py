"""The published drift curve, and which places lie downwind."""

import numpy as np
import pytest

from geo.reference.number import values
from geo.windows.drift import DriftCurve, distance_downwind, drift_share

EARLY = DriftCurve(**values("spray_rules", "drift early"))


@pytest.mark.published(
    "rautmann2001", "fruit, early, 90th percentile, as a secondary page quotes it"
)
@pytest.mark.parametrize(
    ("metres", "percent", "within"),
    [
        (1.0, 66.702, 1e-3),
        (3.0, 29.1973659, 1e-4),
        (5.0, 19.8844422, 1e-4),
        (20.0, 2.7618138, 1e-4),
        (50.0, 0.3012008, 1e-4),
        (15.0, 5.55, 0.02),  # from memory, to two decimals
        (30.0, 1.04, 0.02),
        (100.0, 0.06, 0.02),
    ],
)
def test_the_curve_gives_the_values_of_its_table(metres, percent, within) -> None:
    assert float(drift_share(np.array(metres), EARLY)) == pytest.approx(percent, abs=within)


def test_drift_falls_with_distance_and_is_whole_at_the_edge() -> None:
    share = drift_share(np.linspace(0.0, 200.0, 400), EARLY)
    assert (np.diff(share) <= 0.0).all()
    assert share[0] == EARLY.near_factor


@pytest.mark.published("cfr170", "40 CFR 170.405(a)(1): 100 ft and 25 ft")
def test_the_exclusion_zones_are_a_hundred_and_twenty_five_feet() -> None:
    spray = values("spray_rules", "spray")
    assert spray["exclusion_airblast"] == pytest.approx(100 * 0.3048)
    assert spray["exclusion_other"] == pytest.approx(25 * 0.3048)


@pytest.mark.parametrize(
    ("wind_from", "nearest"),
    [(180.0, 12.0), (0.0, np.inf), (np.nan, 12.0), (90.0, 12.0), (269.0, 12.0), (89.0, np.inf)],
)
def test_a_place_to_the_north_is_reached_by_wind_from_the_south(wind_from, nearest) -> None:
    found = distance_downwind(np.array([[12.0]]), np.array([[0.0]]), np.array([wind_from]))
    assert found.tolist() == [[nearest]]


def test_a_place_within_the_block_is_always_downwind() -> None:
    found = distance_downwind(np.array([[0.0]]), np.array([[np.nan]]), np.array([10.0, 200.0]))
    assert found.tolist() == [[0.0, 0.0]]
