"""What did the weather of each spot do for a disease, day by day?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.infection.anthracnose import anthracnose_days
from geo.infection.anthracnose_parameters import anthracnose_parameters
from geo.infection.heat_stop import heat_stop_parameters, heat_weight
from geo.infection.latency import latency_rate, shortest_latency
from geo.infection.leaf_mildew import leaf_mildew_parameters
from geo.infection.over_season import daily_favourability
from geo.infection.panicle_mildew import PanicleMildew, panicle_mildew_parameters, rain_weight
from geo.reference.diseases import Disease


@dataclass(frozen=True, slots=True)
class Air:
    """
    Hourly weather.

    Attributes
    ----------
    temperature : numpy.ndarray
        [degC] Shape (spot, hour).
    humidity : numpy.ndarray
        [%] Same shape.
    precipitation : numpy.ndarray
        [mm] Shape (hour,).
    starts : numpy.ndarray
        [1] First hour of each day, shape (day,).
    """

    temperature: FloatArray
    humidity: FloatArray
    precipitation: FloatArray
    starts: IntArray


@dataclass(frozen=True, slots=True)
class DiseaseWeather:
    """
    What the weather does for a disease.

    Attributes
    ----------
    favourability : numpy.ndarray
        [1] Share of a perfect day, shape (spot, day).
    latency_rate : numpy.ndarray
        [d-1] Share of the latent period that the day completes, same shape.
    release : numpy.ndarray
        [1] What heat leaves of the day's spores, same shape.
    event_rain : numpy.ndarray
        [mm] Largest total of a rain up to the day, shape (day,); 0 where it does not matter.
    """

    favourability: FloatArray
    latency_rate: FloatArray
    release: FloatArray
    event_rain: FloatArray


def disease_weather(
    disease: Disease, air: Air, *, rain_mode: str, wetness_rule: str
) -> DiseaseWeather:
    """
    Return what the weather does for a disease.

    Parameters
    ----------
    disease : Disease
        Which one, on which organ.
    air : Air
        At the spots.
    rain_mode : str
        What rain does to mildew, one of `geo.infection.panicle_mildew.RAIN_MODES`.
    wetness_rule : str
        What counts as wet, one of `geo.infection.anthracnose_parameters.WETNESS_RULES`.

    Returns
    -------
    DiseaseWeather
        By spot and day.
    """
    if disease.agent == "anthracnose":
        return _anthracnose(disease, air, wetness_rule)
    is_leaf = disease.organ == "leaf"
    mildew = leaf_mildew_parameters() if is_leaf else panicle_mildew_parameters()
    return _mildew(disease, air, mildew, rain_mode)


def _mildew(disease: Disease, air: Air, mildew: PanicleMildew, rain_mode: str) -> DiseaseWeather:
    favourability = daily_favourability(
        air.temperature,
        air.humidity,
        rain_weight(air.precipitation, mildew, rain_mode=rain_mode),
        mildew,
        starts=air.starts,
    )
    return DiseaseWeather(
        favourability,
        latency_rate(
            air.temperature,
            mildew,
            latent_days=shortest_latency(disease.key),
            starts=air.starts,
        ),
        heat_weight(air.temperature, heat_stop_parameters(), starts=air.starts),
        np.zeros(air.starts.size),
    )


def _anthracnose(disease: Disease, air: Air, wetness_rule: str) -> DiseaseWeather:
    anthracnose = anthracnose_parameters(wetness_rule)
    days = anthracnose_days(
        air.temperature, air.humidity, air.precipitation, anthracnose, starts=air.starts
    )
    rate = latency_rate(
        air.temperature,
        anthracnose,
        latent_days=shortest_latency(disease.key),
        starts=air.starts,
    )
    # Rain carries its conidia, so no heat holds them back that the wetness would not.
    return DiseaseWeather(days.favourability, rate, np.ones_like(rate), days.event_rain)
