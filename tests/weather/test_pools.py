"""How fully cool pools stand: net longwave and the worked nights."""

from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
import pytest

from geo.inputs.sun import mid_hour_elevation
from geo.weather.humidity import saturation_vapour_pressure
from geo.weather.layer import pool_parameters
from geo.weather.pools import full_pool_offset, net_longwave_loss, pool_strength

PARAMETERS = pool_parameters()
HOURS_AFTER_SUNSET = 6
# Columns: air temperature, humidity, opaque cloud, wind at 10 m; then what they give.
NIGHTS = [
    (18.0, 85.0, 0.0, 0.8, 63.0, 0.627),
    (24.0, 80.0, 0.2, 1.5, 52.9, 0.402),
    (24.0, 80.0, 0.9, 1.5, 19.3, 0.146),
    (18.0, 85.0, 0.0, 4.5, 63.0, 0.0),
]
FROM_10_M_TO_2_M = 0.748  # allen1998, Eq. 47


@pytest.mark.published("allen1998", "Example 11, from memory: 3.5 MJ m-2 d-1 by Eq. 39")
def test_net_longwave_of_the_handbooks_example() -> None:
    # 25.1 and 19.1 degC, 2.1 kPa, and sunshine that lets 0.69 of the clear loss through.
    mean = (25.1 + 19.1) / 2.0
    humidity = 100.0 * 2.1 / saturation_vapour_pressure(np.array(mean))
    clear = net_longwave_loss(np.array(mean), humidity, np.array(0.0), cloud_longwave_factor=0.8)
    megajoules_a_day = 0.69 * clear * 86400.0 / 1e6
    assert megajoules_a_day == pytest.approx(3.5, abs=0.05)


@pytest.mark.published("allen1998", "Eq. 39, computed for the four worked nights")
@pytest.mark.parametrize(("temperature", "humidity", "cloud", "wind", "loss", "strength"), NIGHTS)
def test_worked_nights(temperature, humidity, cloud, wind, loss, strength) -> None:
    found = net_longwave_loss(
        np.array(temperature),
        np.array(humidity),
        np.array(cloud),
        cloud_longwave_factor=PARAMETERS.cloud_longwave_factor,
    )
    assert found == pytest.approx(loss, abs=0.05)
    # Six hours of the same night from nothing, pools rising by a time of 2 h.
    hours = np.full(HOURS_AFTER_SUNSET, 1.0)
    stands = pool_strength(
        air_temperature=temperature * hours,
        relative_humidity=humidity * hours,
        cloud_cover=cloud * hours,
        wind_speed=wind * FROM_10_M_TO_2_M * hours,
        solar_elevation=-20.0 * hours,
        parameters=PARAMETERS,
    )
    assert stands[-1] == pytest.approx(strength, abs=5e-4)


@pytest.mark.published("sellers1965", "1 - 0.8 N^2, from memory")
def test_a_full_cover_of_cloud_holds_back_four_fifths() -> None:
    clear, covered = net_longwave_loss(
        np.full(2, 20.0), np.full(2, 70.0), np.array([0.0, 1.0]), cloud_longwave_factor=0.8
    )
    assert covered == pytest.approx(0.2 * clear)


def night(**changed: float) -> np.ndarray:
    usual = {"air_temperature": 18.0, "relative_humidity": 80.0, "cloud_cover": 0.0}
    usual |= {"wind_speed": 0.5, "solar_elevation": -20.0}
    hourly = {name: np.full(4, value) for name, value in (usual | changed).items()}
    return pool_strength(**hourly, parameters=PARAMETERS)


def test_unknown_cloud_counts_as_half_a_cover() -> None:
    np.testing.assert_array_equal(night(cloud_cover=np.nan), night(cloud_cover=0.5))


def test_a_reported_calm_counts_as_half_a_metre_a_second() -> None:
    np.testing.assert_array_equal(night(wind_speed=0.0), night(wind_speed=0.5))


def test_no_pool_stands_by_day_and_a_standing_one_decays() -> None:
    assert (night(solar_elevation=5.0) == 0.0).all()
    decaying = pool_strength(
        **{
            name: np.full(3, value)
            for name, value in {
                "air_temperature": 18.0,
                "relative_humidity": 80.0,
                "cloud_cover": 0.0,
                "wind_speed": 0.5,
                "solar_elevation": 0.0,
            }.items()
        },
        parameters=PARAMETERS,
        start=1.0,
    )
    np.testing.assert_allclose(decaying, np.exp([-1.0, -2.0, -3.0]))


def test_the_dryest_night_is_capped() -> None:
    assert night(relative_humidity=5.0, wind_speed=0.0).max() <= PARAMETERS.strength_cap


@pytest.mark.frozen("our own numbers, not an outside check: -6 (1 - exp(-D/30)) to two decimals")
def test_full_pools_of_the_note() -> None:
    depth = np.array([0.0, 2.0, 5.0, 10.0, 25.0, 50.0, 100.0])
    expected = [0.0, -0.39, -0.92, -1.70, -3.39, -4.87, -5.79]
    np.testing.assert_allclose(full_pool_offset(depth, PARAMETERS), expected, atol=5e-3)


@pytest.mark.published("surfrad", "net longwave of the 14 dark hours of 1 January 2016, Alamosa")
def test_the_clear_sky_formula_is_within_a_tenth_of_a_measured_night() -> None:
    _, measured, temperature, humidity = np.loadtxt(
        Path(__file__).parent / "data" / "alamosa_2016_01_01.csv", delimiter=",", skiprows=1
    ).T
    modelled = -net_longwave_loss(
        temperature, humidity, np.zeros(measured.size), cloud_longwave_factor=0.8
    )
    assert measured.size == 14
    assert measured.mean() == pytest.approx(-66.2, abs=0.05)
    assert modelled.mean() == pytest.approx(-71.4, abs=0.05)
    assert abs(modelled.mean() / measured.mean() - 1.0) < 0.1


@pytest.mark.frozen(
    "plausibility, no check: a valley in Britain was 1 K colder on 45 % of nights and 4 K on 12 %"
)
def test_a_deep_pool_in_a_humid_years_nights_is_often_cold_and_seldom_very_cold() -> None:
    # Miami's typical year (TMY2, in pvlib's data), in Eastern Standard Time.
    year, _ = pvlib.iotools.read_tmy2(Path(pvlib.__file__).parent / "data" / "12839.tm2")
    hours = pd.date_range("2025-01-01T05:00", periods=len(year), freq="h")
    strength = pool_strength(
        air_temperature=year["DryBulb"].to_numpy() / 10.0,
        relative_humidity=year["RHum"].to_numpy() * 1.0,
        cloud_cover=year["OpqCld"].to_numpy() / 10.0,
        wind_speed=year["Wspd"].to_numpy() / 10.0 * FROM_10_M_TO_2_M,
        solar_elevation=mid_hour_elevation(hours, longitude=-80.27, latitude=25.8, elevation=2.0),
        parameters=PARAMETERS,
    )
    colder = -strength * full_pool_offset(np.array(100.0), PARAMETERS)
    coldest_of_night = colder[12 : 12 + 364 * 24].reshape(364, 24).max(axis=1)
    assert (coldest_of_night >= 1.0).mean() == pytest.approx(0.55, abs=0.01)
    assert (coldest_of_night >= 4.0).mean() < 0.02
