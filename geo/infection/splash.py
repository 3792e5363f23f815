"""How much living inoculum of anthracnose has rain left on the canopy, hour by hour?"""

from dataclasses import dataclass
from math import exp, inf

import numpy as np

from geo.arrays import FloatArray
from geo.infection.anthracnose_parameters import Anthracnose

HOURS_OF_DAY = 24  # arithmetic


@dataclass(frozen=True, slots=True)
class RainState:
    """
    What an hour hands to the next.

    Attributes
    ----------
    deposit : float
        [1] All that lies on the canopy.
    earlier_deposit : float
        [1] What of it rains before the latest have left.
    event_rain : float
        [mm] Total of the latest rain so far.
    hours_since_rain : float
        [h] Since its last hour.
    """

    deposit: float = 0.0
    earlier_deposit: float = 0.0
    event_rain: float = 0.0
    hours_since_rain: float = inf


NO_RAIN_YET = RainState()


def splash_share(event_rain: FloatArray, anthracnose: Anthracnose) -> FloatArray:
    """
    Return how much of a full deposit a rain splashes onto blossom and fruit.

    Parameters
    ----------
    event_rain : [mm]
        Total of the rain, any shape.
    anthracnose : Anthracnose
        The two rains it lies between.

    Returns
    -------
    [1]
        Same shape: nothing up to the lower rain, all from the upper one on. NaN stays NaN.

    Notes
    -----
    The ends are those of estrada1996: fruit stayed virtually free of disease where rains did
    not exceed 4 mm, and infection was relatively high after rains of more than 20 mm. The
    straight line between them is our own reading; nobody measured it.

    Examples
    --------
    >>> from geo.infection.anthracnose_parameters import anthracnose_parameters
    >>> splash_share(np.array([4.0, 12.0, 30.0]), anthracnose_parameters()).tolist()
    [0.0, 0.5, 1.0]
    """
    none, full = anthracnose.rain_without_splash, anthracnose.rain_of_full_splash
    share: FloatArray = np.clip((event_rain - none) / (full - none), 0.0, 1.0)
    return share


def hourly_deposit(
    precipitation: FloatArray, anthracnose: Anthracnose, *, before: RainState = NO_RAIN_YET
) -> tuple[FloatArray, FloatArray, RainState]:
    """
    Return the deposit of conidia that rain has left, with the rain each hour belongs to.

    Parameters
    ----------
    precipitation : [mm]
        Shape (hour,).
    anthracnose : Anthracnose
        Splash, decay and the longest gap within a rain.
    before : RainState
        As the hours before ended; without it nothing lies on the canopy yet.

    Returns
    -------
    [1]
        Deposit, shape (hour,), between 0 and 1: 1 is what one heavy rain leaves.
    [mm]
        Total so far of the rain that falls or has just stopped, shape (hour,); 0 once a gap has
        ended it.
    RainState
        For the hours that follow.

    Notes
    -----
    A rain goes on over short dry gaps, and its deposit counts from its last hour: as long as it
    rains, conidia are splashed anew. Older deposits decay beneath it and add up to at most 1. Dew
    deposits nothing: no conidia were trapped after dew (fitzell1984). Unknown rain leaves the
    deposit unknown from then on.
    """
    kept_an_hour = exp(-1.0 / (anthracnose.deposit_decay_days * HOURS_OF_DAY))
    laid, earlier, total = before.deposit, before.earlier_deposit, before.event_rain
    since = before.hours_since_rain
    deposit, running = np.empty(precipitation.size), np.empty(precipitation.size)
    for hour, rain in enumerate(precipitation.tolist()):
        laid, earlier = laid * kept_an_hour, earlier * kept_an_hour
        if rain == 0.0:
            since += 1.0
        else:
            if since > anthracnose.rain_gap_hours:
                earlier, total = laid, 0.0
            total, since = total + rain, 0.0
            share = float(splash_share(np.array(total), anthracnose))
            laid = float(np.minimum(1.0, earlier + share))
        deposit[hour] = laid
        running[hour] = total if since <= anthracnose.rain_gap_hours else 0.0
    return deposit, running, RainState(laid, earlier, total, since)
