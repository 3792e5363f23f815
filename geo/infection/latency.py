"""How fast does hidden infection ripen into new spores?"""

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.infection.anthracnose_parameters import Anthracnose
from geo.infection.panicle_mildew import PanicleMildew
from geo.infection.temperature_response import response_yan1999
from geo.reference.number import values
from geo.season.days import day_mean

VALUES_AT_ONCE = 1 << 21  # our own choice: some tens of megabytes for the working arrays


def shortest_latency(disease: str) -> float:
    """
    Return the latent period at the optimum.

    Parameters
    ----------
    disease : str
        Key of a disease, as in `geo.reference.diseases`.

    Returns
    -------
    float
        [d] Infinite on fruit: there anthracnose stays hidden in the peel until ripening, and sheds
        no spores before harvest.

    Examples
    --------
    >>> shortest_latency("leaf_mildew"), shortest_latency("fruit_anthracnose")
    (7.0, inf)
    """
    rows = {
        "panicle_mildew": values("mildew", "panicle mildew"),
        "leaf_mildew": values("mildew", "panicle mildew") | values("mildew", "leaf mildew"),
        "blossom_anthracnose": values("anthracnose", "blossom anthracnose"),
        "fruit_anthracnose": {"latent_days": float("inf")},
    }
    return rows[disease]["latent_days"]


def latency_rate(
    air_temperature: FloatArray,
    fungus: PanicleMildew | Anthracnose,
    *,
    latent_days: float,
    starts: IntArray,
    values_at_once: int = VALUES_AT_ONCE,
) -> FloatArray:
    r"""
    Return which share of the latent period each day completes.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    fungus : PanicleMildew or Anthracnose
        Cardinal temperatures.
    latent_days : [d]
        Shortest latent period, that at the optimum.
    starts : [1]
        First hour of each day, shape (day,).
    values_at_once : [1]
        Spots are taken in groups of about so many hours, so that memory stays bounded.

    Returns
    -------
    [d-1]
        Shape (spot, day): the mean over the day of :math:`f(T) / L`, with :math:`f` of yan1999.
        New spores are ripe when the rates since infection have added up to 1. 0 where the latent
        period is infinite.

    Examples
    --------
    >>> from geo.infection.leaf_mildew import leaf_mildew_parameters
    >>> day = np.full((1, 24), 15.0)
    >>> rate = latency_rate(day, leaf_mildew_parameters(), latent_days=7.0, starts=np.array([0]))
    >>> (1.0 / rate).round(1).item()
    12.4
    """
    spots, hours = air_temperature.shape
    rate = np.empty((spots, starts.size))
    step = max(1, values_at_once // max(1, hours))
    for first in range(0, spots, step):
        group = slice(first, first + step)
        response = response_yan1999(
            air_temperature[group],
            minimum=fungus.temperature_minimum,
            optimum=fungus.temperature_optimum,
            maximum=fungus.temperature_maximum,
        )
        rate[group] = day_mean(response, starts) / latent_days
    return rate
