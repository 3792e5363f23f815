"""The station's hours carried to a block in a pool: four worked nights."""

import numpy as np
import pytest

from geo.weather.at_spots import air_temperature_at_spots, relative_humidity_at_spots
from geo.weather.layer import pool_parameters
from geo.weather.pools import pool_strength

PARAMETERS = pool_parameters()
# Station at 120 m in a pool of 2 m, block at 95 m in one of 25 m, six hours after sunset.
# Columns: air temperature, humidity, opaque cloud, wind at 10 m; then the block's air.
NIGHTS = [
    (18.0, 85.0, 0.0, 0.8, 16.17, 95.4),
    (24.0, 80.0, 0.2, 1.5, 22.89, 85.5),
    (24.0, 80.0, 0.9, 1.5, 23.70, 81.5),
    (18.0, 85.0, 0.0, 4.5, 18.16, 84.1),
]


@pytest.mark.published("allen1998", "Eq. 11, 39 and 47 with our pool sizes, computed apart")
@pytest.mark.parametrize(("temperature", "humidity", "cloud", "wind", "cooled", "damper"), NIGHTS)
def test_worked_nights(temperature, humidity, cloud, wind, cooled, damper) -> None:
    hours = np.ones(6)
    strength = pool_strength(
        air_temperature=temperature * hours,
        relative_humidity=humidity * hours,
        cloud_cover=cloud * hours,
        wind_speed=wind * 0.748 * hours,
        solar_elevation=-30.0 * hours,
        parameters=PARAMETERS,
    )
    at_block = air_temperature_at_spots(
        temperature * hours,
        strength,
        height_above_station=np.array([-25.0]),
        pool_depth=np.array([25.0]),
        station_pool_depth=2.0,
        parameters=PARAMETERS,
    )
    humid = relative_humidity_at_spots(temperature * hours, humidity * hours, at_block)
    assert at_block[0, -1] == pytest.approx(cooled, abs=5e-3)
    assert humid[0, -1] == pytest.approx(damper, abs=0.05)


@pytest.mark.published("blandford2008", "6.5 K per km holds for mixed air only")
def test_mixed_air_cools_by_6_5_kelvin_a_kilometre() -> None:
    found = air_temperature_at_spots(
        np.array([20.0]),
        np.array([0.0]),
        height_above_station=np.array([0.0, 1000.0, np.nan]),
        pool_depth=np.array([40.0, 0.0, 0.0]),
        station_pool_depth=0.0,
        parameters=PARAMETERS,
    )
    np.testing.assert_allclose(found[:, 0], [20.0, 13.5, np.nan])


def test_a_full_pool_knows_no_lapse() -> None:
    found = air_temperature_at_spots(
        np.array([20.0]),
        np.array([1.2]),
        height_above_station=np.array([-300.0, 300.0]),
        pool_depth=np.zeros(2),
        station_pool_depth=0.0,
        parameters=PARAMETERS,
    )
    assert (found == 20.0).all()


def test_a_station_in_its_own_pool_is_its_own_reference() -> None:
    found = air_temperature_at_spots(
        np.array([20.0]),
        np.array([0.8]),
        height_above_station=np.zeros(1),
        pool_depth=np.array([12.0]),
        station_pool_depth=12.0,
        parameters=PARAMETERS,
    )
    assert found[0, 0] == 20.0
