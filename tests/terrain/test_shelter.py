"""Shelter from wind: the steepest angle up to ground upwind, against a plain loop."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geo.season.sectors import sector_directions
from geo.terrain.shelter import upwind_shelter, wind_share

GRID = {"cell_width": 10.0, "cell_height": 20.0}
BOUNDS = {"share_per_degree": 0.02, "least_share": 0.3, "most_share": 1.2}


@pytest.mark.published("winstral2002", "definition of the upwind slope, from memory")
@settings(max_examples=20)
@given(seed=st.integers(0, 10_000), direction=st.sampled_from(sector_directions().tolist()))
def test_it_is_the_steepest_angle_of_a_plain_loop(seed: int, direction: float) -> None:
    chance = np.random.default_rng(seed)
    ground = chance.normal(100.0, 10.0, (14, 18))
    ground[chance.uniform(size=ground.shape) < 0.1] = np.nan
    other, found = upwind_shelter(
        ground,
        np.arange(ground.size),
        wind_from_directions=[direction + 90.0, direction],
        reach=75.0,
        half_sector=15.0,
        **GRID,
    )
    assert not np.array_equal(other, found, equal_nan=True)
    found = found.reshape(ground.shape)
    for row, column in np.ndindex(*ground.shape):
        angles = []
        for turn in (-15.0, 0.0, 15.0):
            towards = np.radians(direction + turn)
            for distance in np.arange(10.0, 75.1, 10.0):
                up = row - round(float(distance * np.cos(towards) / 20.0))
                right = column + round(float(distance * np.sin(towards) / 10.0))
                if (up, right) == (row, column) or not (0 <= up < 14 and 0 <= right < 18):
                    continue
                away = np.hypot((up - row) * 20.0, (right - column) * 10.0)
                angles.append(
                    np.degrees(np.arctan((ground[up, right] - ground[row, column]) / away))
                )
        known = [angle for angle in angles if not np.isnan(angle)]
        expected = max(known) if known else np.nan
        assert found[row, column] == pytest.approx(expected, abs=1e-9, nan_ok=True)


def test_a_wall_shelters_its_lee_and_not_its_other_side() -> None:
    ground = np.zeros((21, 21))
    ground[:, 10] = 20.0
    sizes = {"cell_width": 10.0, "cell_height": 10.0, "reach": 300.0, "half_sector": 15.0}
    east_of_it = np.array([10 * 21 + 12])
    from_west, from_east = upwind_shelter(
        ground, east_of_it, wind_from_directions=[270.0, 90.0], **sizes
    )
    assert from_west[0] == pytest.approx(45.0)  # 20 m high, 20 m away
    assert from_east[0] == pytest.approx(0.0)


def test_shelter_takes_wind_and_exposure_gives_some_within_bounds() -> None:
    shelter = np.array([0.0, 10.0, 60.0, -5.0, -60.0, np.nan])
    np.testing.assert_allclose(
        wind_share(shelter, **BOUNDS), [1.0, 0.8, 0.3, 1.1, 1.2, 1.0], atol=1e-12
    )
