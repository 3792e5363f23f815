"""What every grower says of mildew, held against the model of panicles and of leaves."""

import numpy as np
import pytest

from geo.infection.leaf_mildew import leaf_mildew_parameters
from geo.infection.over_season import daily_favourability
from geo.infection.panicle_mildew import PanicleMildew, panicle_mildew_parameters, rain_weight

KINDS = {"panicles": panicle_mildew_parameters(), "leaves": leaf_mildew_parameters()}
each_kind = pytest.mark.parametrize("mildew", KINDS.values(), ids=KINDS)
# 60s to low 70s F.
COOL = (np.array([60.0, 65.0, 69.0, 72.0]) - 32.0) / 1.8


def day(
    temperature: float, humidity: float, mildew: PanicleMildew, *, rain=0.0, rain_mode="washoff"
) -> float:
    """Return the favourability of a day of steady weather with one rain at 6 in the evening."""
    fallen = np.zeros(24)
    fallen[18] = rain
    return daily_favourability(
        np.full((1, 24), temperature),
        np.full((1, 24), humidity),
        rain_weight(fallen, mildew, rain_mode=rain_mode),
        mildew,
        starts=np.array([0]),
    ).item()


@pytest.mark.common_practice(
    "cool humid rain-free hours are worst, 60s to low 70s F and 80-90 % humidity: no source"
)
@each_kind
def test_cool_humid_rain_free_hours_are_worse_than_hot_dry_and_rainy_ones(mildew) -> None:
    for temperature in COOL:
        for humidity in (80.0, 90.0):
            worst = day(temperature, humidity, mildew)
            assert worst > 2.0 * day(31.0, humidity, mildew)
            assert worst > 1.5 * day(temperature, 30.0, mildew)
            assert worst > day(temperature, humidity, mildew, rain=5.0)
            assert worst > 0.55


@pytest.mark.common_practice("heat stops mildew: no source")
@each_kind
def test_heat_stops_mildew(mildew) -> None:
    found = [day(temperature, 85.0, mildew) for temperature in (24.0, 28.0, 31.0, 33.0)]
    assert (np.diff(found) < 0.0).all()
    assert found[-1] == 0.0


@pytest.mark.common_practice("heavy rain washes spores: no source")
@each_kind
def test_heavy_rain_washes_spores_in_washoff_and_not_in_neutral(mildew) -> None:
    dry = day(20.0, 85.0, mildew)
    assert day(20.0, 85.0, mildew, rain=25.0) < 0.5 * dry
    # In each mode the hour of rain itself weighs less.
    neutral = day(20.0, 85.0, mildew, rain=25.0, rain_mode="neutral")
    assert neutral == pytest.approx(dry * (1.0 - 0.7 / 24.0))


@pytest.mark.published("reuveni2018", "rain in bloom promotes mildew; abstract")
@each_kind
def test_rain_in_the_mode_promote_favours(mildew) -> None:
    promoted, neutral = (
        day(20.0, 85.0, mildew, rain=25.0, rain_mode=mode) for mode in ("promote", "neutral")
    )
    assert promoted > neutral


@each_kind
def test_humidity_never_gates_mildew_to_zero(mildew) -> None:
    for humidity in (0.0, 20.0, 43.0, 100.0):
        assert day(22.5, humidity, mildew) >= 0.2
