"""Wind behind shelter, hours near darkness, and warm air over cool air."""

import numpy as np
import pytest

from geo.reference.number import numbers, values
from geo.weather.psychrometer import delta_t
from geo.windows.air import hours_in_sun, may_be_inverted, wind_at_blocks

SPRAY = values("spray_rules", "spray")


@pytest.mark.published("canola_council", "below 3 km/h treat as a risk of inversion")
def test_the_lower_wind_limit_is_three_kilometres_an_hour() -> None:
    assert SPRAY["wind_low"] * 3.6 == pytest.approx(3.0, abs=0.02)


@pytest.mark.common_practice("15 km/h at most")
def test_the_upper_wind_limit_is_fifteen_kilometres_an_hour() -> None:
    assert SPRAY["wind_high"] * 3.6 == pytest.approx(15.0, abs=0.02)
    assert numbers("spray_rules")["spray", "wind_high"].standing == "assumed"


@pytest.mark.common_practice("spray at a Delta T of 2 to 8, at most 10")
def test_delta_t_limits_are_the_usual_ones() -> None:
    assert [SPRAY[f"delta_t_{name}"] for name in ("low", "ideal", "high")] == [2.0, 8.0, 10.0]


@pytest.mark.published("allen1998", "Eqs. 15 and 16, at sea level")
@pytest.mark.parametrize(
    ("air", "humidity", "expected"),
    # Rows reckoned from the psychrometer equation at 1013 hPa, to one decimal.
    [
        (15.0, 30.0, 7.6),
        (20.0, 50.0, 6.1),
        (25.0, 30.0, 10.4),
        (30.0, 50.0, 7.9),
        (35.0, 50.0, 8.7),
    ],
)
def test_worked_rows_of_delta_t(air, humidity, expected) -> None:
    found = delta_t(np.array(air), np.array(humidity), pressure=np.array(101.3))
    assert float(found) == pytest.approx(expected, abs=0.1)


def test_wind_is_weakened_by_the_shelter_of_its_side() -> None:
    share = np.ones((2, 16))
    share[1, 4] = 0.5  # from the east
    found = wind_at_blocks(np.array([4.0, 4.0, 4.0]), np.array([90.0, 270.0, np.nan]), share)
    assert found[0].tolist() == [4.0, 4.0, 4.0]
    assert found[1, :2].tolist() == [2.0, 4.0]
    assert found[1, 2] == pytest.approx(4.0 * (15.5 / 16))


def test_hours_in_the_sun_count_from_the_nearer_end_of_the_day() -> None:
    sun = np.array([-9.0, 2.0, 20.0, 40.0, 20.0, 2.0, -9.0, -20.0, 2.0, 30.0, np.nan])
    assert hours_in_sun(sun).tolist() == [0, 0, 1, 2, 1, 0, 0, 0, 0, 0, 0]


@pytest.mark.published("grdc_spray", "an hour or two before sunset to an hour after sunrise")
@pytest.mark.parametrize(
    ("sun", "cloud", "wind", "is_inverted"),
    [
        (0.0, 0.1, 2.0, True),
        (1.0, 0.1, 2.0, False),
        (0.0, 0.26, 0.84, False),
        (0.0, 0.25, 2.0, True),
        (0.0, 0.9, 0.82, True),
        (0.0, np.nan, 2.0, True),
        (0.0, 0.9, np.nan, True),
        (np.nan, 0.1, 2.0, True),
    ],
)
def test_near_darkness_only_known_cloud_and_wind_rule_an_inversion_out(
    sun, cloud, wind, is_inverted
) -> None:
    found = may_be_inverted(
        np.array([sun]), np.array([cloud]), np.array([[wind]]), limits=(1.0, 0.25, 0.83)
    )
    assert found.tolist() == [[is_inverted]]
