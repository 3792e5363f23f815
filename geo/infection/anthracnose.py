"""How favourable was each day for anthracnose: rain to bring conidia, wet hours to let them in?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.infection.anthracnose_parameters import Anthracnose
from geo.infection.infected_share import LogitCoefficients, infected_share_of
from geo.infection.splash import NO_RAIN_YET, RainState, hourly_deposit
from geo.infection.wet_period import SUMS, hourly_sums, running_sums, wet_share
from geo.season.days import day_extremes, day_sum

VALUES_AT_ONCE = 1 << 18  # our own choice: some megabytes for each working array


@dataclass(frozen=True, slots=True)
class Carried:
    """
    What a day hands to the next, so that a wet night is not cut in two.

    Attributes
    ----------
    rain : RainState
        Deposits on the canopy.
    sums : ndarray
        Sums of the wet period, shape (sum, spot).
    dry_hours : ndarray
        [h] Dry hours in a row, shape (spot,).
    infected : ndarray
        [1] Highest infected share of the wet period so far, shape (spot,).
    """

    rain: RainState
    sums: FloatArray
    dry_hours: FloatArray
    infected: FloatArray


@dataclass(frozen=True, slots=True)
class AnthracnoseDays:
    """
    The days of anthracnose weather.

    Attributes
    ----------
    favourability : ndarray
        [1] Shape (spot, day): share of a full deposit that infected wet tissue that day.
    infected_share : ndarray
        [1] Shape (spot, day): highest infected share of a wet period that day, whether or not
        there were conidia; an alert is a share above ``alert_share``.
    event_rain : ndarray
        [mm] Shape (day,): largest total of a rain up to that day, 0 on a day without.
    carried : Carried
        For the days that follow.
    """

    favourability: FloatArray
    infected_share: FloatArray
    event_rain: FloatArray
    carried: Carried


def nothing_yet(spots: int) -> Carried:
    """
    Return the state of a dry orchard on which no conidia lie.

    Parameters
    ----------
    spots : int
        How many.

    Returns
    -------
    Carried
        For the first day of a season.
    """
    return Carried(NO_RAIN_YET, np.zeros((len(SUMS), spots)), np.zeros(spots), np.zeros(spots))


def anthracnose_days(
    air_temperature: FloatArray,
    relative_humidity: FloatArray,
    precipitation: FloatArray,
    anthracnose: Anthracnose,
    *,
    starts: IntArray,
    before: Carried | None = None,
    coefficients: LogitCoefficients | None = None,
    values_at_once: int = VALUES_AT_ONCE,
) -> AnthracnoseDays:
    r"""
    Return how favourable each day was for anthracnose.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    relative_humidity : [%]
        Same shape.
    precipitation : [mm]
        Shape (hour,).
    anthracnose : Anthracnose
        Sizes.
    starts : [1]
        First hour of each day, shape (day,).
    before : Carried or None
        As the days before ended; without it the season begins dry and clean.
    coefficients : LogitCoefficients or None
        Of a regression to take instead of our stand-in for the infected share.
    values_at_once : [1]
        Days are taken in groups of about so many hours of all spots, so that memory stays
        bounded; the result does not depend on it.

    Returns
    -------
    AnthracnoseDays
        With the state to go on from.

    Notes
    -----
    Rain deposits conidia :math:`D` and wetness infects a share :math:`A` of them, which grows
    within a wet period: a day is the sum over its hours of
    :math:`D_h (A_h - A_{h-1})`, at most 1, so that a wet period over midnight is shared between
    its days without loss. Dry weather keeps a deposit alive for a week or two (estrada1993), so
    rain deposits and later wetness, dew included, infects. Conidia spent in one wet period are not
    taken off the deposit of the next, so that several wet nights after one rain add up to more
    than the deposit: nobody has published how many are spent. An unknown hour leaves its spot
    unknown until a dry gap ends the wet period, but not where no conidia lie.
    """
    spots, hours = air_temperature.shape
    carried = nothing_yet(spots) if before is None else before
    deposit, event_rain, rain_state = hourly_deposit(
        precipitation, anthracnose, before=carried.rain
    )
    infected_share = infected_share_of(anthracnose, coefficients)
    favourability, highest = np.empty((2, spots, starts.size))
    ends = np.append(starts[1:], hours)
    sums, dry_hours, infected = carried.sums, carried.dry_hours, carried.infected
    for days in _groups_of_days(starts, ends, max(1, values_at_once // max(1, spots))):
        span = slice(starts[days.start], ends[days.stop - 1])
        wet = wet_share(relative_humidity[:, span], precipitation[span], anthracnose)
        running, dry_hours = running_sums(
            hourly_sums(air_temperature[:, span], wet, anthracnose),
            (wet == 0.0).T.astype(np.float64),
            anthracnose,
            sums=sums,
            dry_hours=dry_hours,
        )
        sums = running[-1]
        reached, newly = _infected(infected_share(running), running[:, 1] != 0.0, infected)
        infected = reached[-1]
        laid = deposit[span, None]
        within = starts[days] - span.start
        caught = np.where(laid == 0.0, 0.0, laid * newly).T
        favourability[:, days] = np.minimum(day_sum(caught, within), 1.0)
        highest[:, days] = day_extremes(reached.T, within)[1]
    return AnthracnoseDays(
        favourability,
        highest,
        day_extremes(event_rain, starts)[1],
        Carried(rain_state, sums, dry_hours, infected),
    )


def _groups_of_days(starts: IntArray, ends: IntArray, hours_at_once: int) -> list[slice]:
    """Return runs of whole days of about so many hours, each of at least one day."""
    groups, first = [], 0
    while first < starts.size:
        until = int(np.searchsorted(ends, starts[first] + hours_at_once, side="right"))
        until = max(until, first + 1)
        groups.append(slice(first, until))
        first = until
    return groups


def _infected(
    share: FloatArray, is_open: BoolArray, infected: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the highest share of each wet period so far, and what each hour adds to it."""
    reached, newly = np.empty((2, *share.shape))
    for hour in range(share.shape[0]):
        earlier = np.where(is_open[hour], infected, 0.0)
        infected = np.maximum(share[hour], earlier)
        reached[hour], newly[hour] = infected, infected - earlier
    return reached, newly
