"""Wind at blocks: sectors of the station's wind against a plain loop over hours."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.season.days import day_starts
from geo.season.sectors import SECTORS
from geo.weather.wind import wind_at_blocks, wind_by_side

STARTS = day_starts(np.repeat([0, 1], [24, 25]))
seeds = st.integers(0, 60)


def made_wind(seed: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    chance = np.random.default_rng(seed)
    direction = np.where(chance.uniform(size=49) < 0.2, np.nan, chance.uniform(0.0, 360.0, 49))
    return chance.uniform(0.0, 9.0, 49), direction, chance.uniform(0.3, 1.2, (4, SECTORS))


def sector_of(direction: float) -> int:
    """Return the sector by its middle: the nearest of 0, 22.5, 45 ... degrees."""
    middles = 22.5 * np.arange(SECTORS)
    away = np.abs(direction - middles)
    return int(np.argmin(np.minimum(away, 360.0 - away)))


@given(seed=seeds)
def test_days_at_blocks_are_those_of_a_plain_loop_over_hours(seed: int) -> None:
    speed, direction, share = made_wind(seed)
    factor = np.array(
        [
            share.mean(axis=1) if np.isnan(angle) else share[:, sector_of(angle)]
            for angle in direction
        ]
    )
    by_hour = factor.T * speed
    mean, highest = wind_at_blocks(wind_by_side(speed, direction, STARTS), share)
    days = [by_hour[:, :24], by_hour[:, 24:]]
    np.testing.assert_allclose(mean.T, [day.mean(axis=1) for day in days])
    np.testing.assert_allclose(highest.T, [day.max(axis=1) for day in days])


@given(seed=seeds)
def test_open_ground_has_the_stations_wind_whatever_its_direction(seed: int) -> None:
    speed, direction, _ = made_wind(seed)
    mean, highest = wind_at_blocks(wind_by_side(speed, direction, STARTS), np.ones((2, SECTORS)))
    np.testing.assert_allclose(mean[1], [speed[:24].mean(), speed[24:].mean()])
    np.testing.assert_allclose(highest[1], [speed[:24].max(), speed[24:].max()])


@pytest.mark.parametrize(("direction", "sector"), [(0, 0), (359, 0), (360, 0), (12, 1), (270, 12)])
def test_sectors_are_centred_on_the_points_of_the_compass(direction: int, sector: int) -> None:
    found = wind_by_side(np.array([3.0]), np.array([1.0 * direction]), np.array([0]))
    assert np.flatnonzero(found.mean[:, 0]).tolist() == [sector]


def test_unknown_shelter_stays_with_its_block() -> None:
    speed, direction, share = made_wind(1)
    share[2, 5] = np.nan
    for found in wind_at_blocks(wind_by_side(speed, direction, STARTS), share):
        assert np.isnan(found).all(axis=1).tolist() == [False, False, True, False]
        assert np.isfinite(found[[0, 1, 3]]).all()
