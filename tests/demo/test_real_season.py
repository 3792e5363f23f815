"""
A real year in Miami: when does each disease find its weather?

Temperature and humidity are the hours of Miami's typical year (TMY2, in pvlib's data). It carries
no amount of rain, but observers wrote down in which hours it rained, and how hard: light up to
2.5 mm an hour, moderate up to 7.6 mm, heavy above (glossary of the American Meteorological Society,
from memory). Each class is taken at a round value within it, so amounts are assumed.
"""

from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
import pytest

from geo.arrays import FloatArray
from geo.infection.disease_weather import Air, disease_weather
from geo.reference.diseases import DISEASES

# Third digit of the present weather: rain, or a shower; light, moderate or heavy.
MILLIMETRES = {"0": 1.25, "3": 1.25, "1": 5.0, "4": 5.0, "2": 10.0, "5": 10.0}
WARM_AND_WET = (5, 6, 7, 8, 9, 10)  # Miami's rainy season
HOURS_PER_DAY = 24


@pytest.fixture(scope="module")
def year() -> pd.DataFrame:
    read, _ = pvlib.iotools.read_tmy2(Path(pvlib.__file__).parent / "data" / "12839.tm2")
    present = read["PresentWeather"].astype("int64").astype(str).str.zfill(10)
    return read.assign(rain=present.str[2].map(MILLIMETRES).fillna(0.0))


def by_season(year: pd.DataFrame, key: str, wetness_rule: str) -> tuple[float, float]:
    """Return the mean share of a perfect day in the warm wet months, and in the cool dry ones."""
    (disease,) = (disease for disease in DISEASES if disease.key == key)
    starts = np.arange(0, len(year), HOURS_PER_DAY)
    air = Air(
        year["DryBulb"].to_numpy()[None] / 10.0,
        year["RHum"].to_numpy(dtype=float)[None],
        year["rain"].to_numpy(),
        starts,
    )
    weather = disease_weather(disease, air, rain_mode="washoff", wetness_rule=wetness_rule)
    daily: FloatArray = weather.favourability[0]
    is_wet = year["month"].isin(WARM_AND_WET).to_numpy()[starts]
    return float(daily[is_wet].mean()), float(daily[~is_wet].mean())


def test_the_rainy_season_of_that_year_is_wet_and_warm(year: pd.DataFrame) -> None:
    is_wet = year["month"].isin(WARM_AND_WET)
    assert year["rain"][is_wet].sum() > 2.0 * year["rain"][~is_wet].sum()
    assert year["DryBulb"][is_wet].mean() > year["DryBulb"][~is_wet].mean() + 30.0


@pytest.mark.common_practice("mildew where and when it is cool and dry, anthracnose in the rains")
@pytest.mark.parametrize("key", ["panicle_mildew", "leaf_mildew"])
def test_mildew_finds_its_weather_in_the_cool_dry_months(year: pd.DataFrame, key: str) -> None:
    warm, cool = by_season(year, key, "conservative")
    assert cool > 1.1 * warm


@pytest.mark.common_practice("mildew where and when it is cool and dry, anthracnose in the rains")
@pytest.mark.parametrize("rule", ["conservative", "liberal"])
@pytest.mark.parametrize("key", ["blossom_anthracnose", "fruit_anthracnose"])
def test_anthracnose_finds_its_weather_in_the_warm_wet_months(
    year: pd.DataFrame, key: str, rule: str
) -> None:
    warm, cool = by_season(year, key, rule)
    assert warm > 3.0 * cool
