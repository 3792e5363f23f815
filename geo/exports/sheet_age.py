"""How old are the data that a day sheet rests on?"""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import xarray as xr

from geo.exports.page_words import ago, newest_measured
from geo.rounds.day_round import DayRound
from geo.season.farm import Farm
from geo.texts import phrase

STALE_HOURS = 24.0  # our own choice: by then a new night has not been measured
STALE_LOOK_DAYS = 10  # our own choice: two looks a fortnight follow a bloom


def data_age(farm: Farm, season: xr.Dataset, day_round: DayRound) -> tuple[str, bool]:
    """
    Return how old the data are that the order rests on, and whether they are stale.

    Parameters
    ----------
    farm : Farm
        For its zone.
    season : xarray.Dataset
        With the hours and the looks.
    day_round : DayRound
        For the hour in which the first sprayer leaves.

    Returns
    -------
    str
        A sentence or two.
    bool
        True if the newest measured hour lies a day or more before that, or if nobody has looked
        for longer than ten days.
    """
    look = _newest_look(season)
    words = _age_words(newest_measured(season, farm.zone), look)
    is_stale = (
        look is None
        or look > STALE_LOOK_DAYS
        or _hours_since(farm, season, day_round) >= STALE_HOURS
    )
    if is_stale:
        stale = phrase(
            "The data are stale. {ages} Look and measure before you rely on the order.", ages=words
        )
        return stale, True
    return phrase("{ages} Uncertain all the same: an order, no probabilities.", ages=words), False


def _age_words(hour: str, look: int | None) -> str:
    if look is None:
        return phrase("Weather measured until {hour}; nobody has looked at the trees.", hour=hour)
    return phrase("Weather measured until {hour}; newest look {ago}.", hour=hour, ago=ago(look))


def _newest_look(season: xr.Dataset) -> int | None:
    ages = season["days_since_look"].values
    known = ages[np.isfinite(ages)]
    return int(known.min()) if known.size else None


def _hours_since(farm: Farm, season: xr.Dataset, day_round: DayRound) -> float:
    measured = season["hour"].values[season["is_forecast"].values == 0]
    last = season.attrs.get("last_measured") or (measured.max() if measured.size else None)
    if last is None:
        return np.inf
    newest = np.datetime64(last).astype("datetime64[s]").astype(datetime)
    local = newest.replace(tzinfo=ZoneInfo("UTC")).astimezone(ZoneInfo(farm.zone))
    midnight = datetime.combine(day_round.day, datetime.min.time())
    leaves = min((one.leaves for one in day_round.sprayers), default=midnight)
    since: timedelta = leaves - local.replace(tzinfo=None)
    return since / timedelta(hours=1)
