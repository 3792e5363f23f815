"""Six weeks of made weather at a made station, and a made forecast."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from layers_demo.valley_place import Numbers

SEED = 11
FIRST_DAY = pd.Timestamp("2026-01-04")
TODAY = pd.Timestamp("2026-02-18")
LAST_MEASURED = TODAY + pd.Timedelta(hours=5)
LAST_DAY = TODAY + pd.Timedelta(days=5)
SUNRISE, WARMEST = 6.8, 15.0  # local hours
# Warmest hour (degC) of today and the days after. The station stays under 29.4 degC, ground 40 m
# lower does not: the heat limit of sulfur divides the farm.
AHEAD_MAXIMA = [27.0, 28.2, 29.2, 29.3, 28.0, 27.4]
AHEAD_MINIMA = [12.0, 12.4, 13.2, 13.6, 13.0, 12.6]
RAIN_DAY, SHOWER_DAY = 23, 36  # days after FIRST_DAY: 27 January and 9 February


@dataclass(frozen=True)
class _Days:
    minimum: Numbers
    maximum: Numbers
    cloud: Numbers
    dew_rise: Numbers


def weather() -> pd.DataFrame:
    """
    Return measured and forecast hours in local time.

    Returns
    -------
    pandas.DataFrame
        Indexed by local hour, with the columns of a weather file.
    """
    chance = np.random.default_rng(SEED)
    hours = pd.date_range(FIRST_DAY, LAST_DAY + pd.Timedelta(hours=23), freq="h")
    count = len(hours) // 24
    rain = _rain(count, chance)
    days = _days(count, rain.reshape(count, 24).sum(axis=1), chance)
    clock = np.tile(np.arange(24.0), count)
    day = np.repeat(np.arange(count), 24)
    temperature = _temperature(days, day, clock)
    cloud = np.clip(days.cloud[day] + chance.normal(0.0, 0.06, len(hours)), 0.0, 1.0)
    cloud[rain > 0.0] = 1.0
    dew = _dew_point(days, day, clock)
    humidity = 100.0 * _vapour_pressure(dew) / _vapour_pressure(temperature)
    humidity = np.clip(humidity, 22.0, 96.0)
    humidity[rain > 0.0] = np.maximum(humidity[rain > 0.0], 93.0)
    wind = _wind(clock, rain, chance)
    return pd.DataFrame(
        {
            "air_temperature_degC": np.round(temperature, 1),
            "relative_humidity_percent": np.round(humidity),
            "wind_speed_m_s": np.round(wind, 1),
            "precipitation_mm": rain,
            "cloud_cover_fraction": np.round(cloud, 1),
        },
        index=pd.Index(hours.strftime("%Y-%m-%dT%H:%M"), name="time"),
    )


def _rain(count: int, chance: np.random.Generator) -> Numbers:
    rain = np.zeros(count * 24)
    # Three wet days from the evening of the first to the noon of the third, then one shower.
    wet = RAIN_DAY * 24 + np.array(
        [17, 18, 19, 21, 22, 26, 27, 28, 29, 33, 38, 39, 44, 45, 46, 57, 58]
    )
    rain[wet] = np.round(0.2 + chance.gamma(1.4, 1.5, len(wet)), 1)
    rain[SHOWER_DAY * 24 + np.array([16, 17])] = [1.6, 0.8]
    return rain


def _days(count: int, rain: Numbers, chance: np.random.Generator) -> _Days:
    drift = np.zeros(count)
    for day in range(1, count):
        drift[day] = 0.7 * drift[day - 1] + chance.normal(0.0, 0.8)
    is_wet = rain > 0.0
    is_soaked = rain > 4.0
    cloud = np.clip(0.12 + 0.25 * chance.random(count) ** 3 + 0.55 * is_wet + 0.3 * is_soaked, 0, 1)
    minimum = 11.0 + drift + 2.5 * cloud
    maximum = 26.4 + 0.8 * drift - 7.0 * np.clip(cloud - 0.3, 0.0, 1.0)
    ahead = len(AHEAD_MAXIMA)
    minimum[-ahead:], maximum[-ahead:], cloud[-ahead:] = AHEAD_MINIMA, AHEAD_MAXIMA, 0.15
    # Nights after rain are dewy; the air dries out over about ten days.
    since = np.array(
        [day - np.max(np.flatnonzero(is_wet[: day + 1]), initial=-9) for day in range(count)]
    )
    dew_rise = -2.2 + 2.0 * np.exp(-since / 8.0) + chance.normal(0.0, 0.5, count)
    return _Days(np.clip(minimum, 8.6, 16.0), np.clip(maximum, 19.0, 29.3), cloud, dew_rise)


def _temperature(days: _Days, day: Numbers, clock: Numbers) -> Numbers:
    """Rise from sunrise to mid-afternoon as half a cosine, then fall to the next sunrise."""
    following = np.minimum(day + 1, len(days.minimum) - 1)
    before = np.maximum(day - 1, 0)
    rising = (clock - SUNRISE) / (WARMEST - SUNRISE)
    up = days.minimum[day] + (days.maximum - days.minimum)[day] * 0.5 * (1 - np.cos(np.pi * rising))
    night = 24.0 - WARMEST + SUNRISE
    share = ((clock - WARMEST) % 24.0) / night
    fall = (np.exp(-2.6 * share) - np.exp(-2.6)) / (1.0 - np.exp(-2.6))
    evening = days.minimum[following] + (days.maximum[day] - days.minimum[following]) * fall
    morning = days.minimum[day] + (days.maximum[before] - days.minimum[day]) * fall
    return np.where(clock < SUNRISE, morning, np.where(clock < WARMEST, up, evening))


def _dew_point(days: _Days, day: Numbers, clock: Numbers) -> Numbers:
    """Follow the night's minimum from day to day, and rise by day as the wet ground breathes."""
    middle = (np.arange(len(days.minimum)) + 0.25) * 24.0
    slow = np.interp(day * 24.0 + clock, middle, days.minimum + days.dew_rise)
    by_day = np.clip(np.sin(np.pi * (clock - 7.0) / 12.0), 0.0, 1.0) * ((clock > 7) & (clock < 19))
    return slow + 3.4 * by_day


def _wind(clock: Numbers, rain: Numbers, chance: np.random.Generator) -> Numbers:
    afternoon = np.exp(-(((clock - 15.0) / 3.6) ** 2))
    wind = 0.35 + 2.5 * afternoon + 1.2 * (rain > 0.0)
    return wind * np.exp(chance.normal(0.0, 0.28, len(clock)))


def _vapour_pressure(temperature: Numbers) -> Numbers:
    """Eq. 11 of FAO-56, kPa: saturation over water."""
    return 0.6108 * np.exp(17.27 * temperature / (temperature + 237.3))
