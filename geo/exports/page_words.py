"""Ages and titles as the pages say them, and what every page repeats."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import numpy as np
import xarray as xr

from geo.reference.diseases import Disease
from geo.scouting.order import ScoutingOrder
from geo.season.farm import Farm
from geo.texts import mark, phrase, phrase_for, phrase_of, phrases
from geo.texts.days import day_words

# Said by `phrase_of` wherever a person reads them.
HONESTY = mark("Relative: ratios and orders, no probabilities")
CAUTIONS = mark(
    "Planning aid. The label is the law; local registration and codes hold; a licensed applicator "
    "decides. Check wind, inversion and people on site."
)
MEANING_OF_ONE = mark(
    "1 is fully susceptible, unsprayed tissue in perfect weather for the disease that meets "
    "background spores only. The classes hold all season."
)


def as_date(day: np.datetime64) -> date:
    """
    Return a day of the season as a date.

    Parameters
    ----------
    day : numpy.datetime64
        A local day.

    Returns
    -------
    datetime.date
        The same.
    """
    return date.fromisoformat(str(day.astype("datetime64[D]")))


def newest_measured(season: xr.Dataset, zone: str) -> str:
    """
    Return when the newest measured hour began.

    Parameters
    ----------
    season : xarray.Dataset
        With ``is_forecast``.
    zone : str
        IANA name of the farm's time zone.

    Returns
    -------
    str
        Such as ``14:00 on Wed 14 Aug``, or ``none``.
    """
    measured = season["hour"].values[season["is_forecast"].values == 0]
    # Hours of a day that is not whole are measured too, although they are not in the season.
    last = season.attrs.get("last_measured") or (measured.max() if measured.size else None)
    if last is None:
        return phrase_for("the newest measured hour", "none")
    newest = np.datetime64(last).astype("datetime64[s]").astype(datetime)
    local = newest.replace(tzinfo=ZoneInfo("UTC")).astimezone(ZoneInfo(zone))
    return phrase("{hour:%H:%M} on {day}", hour=local, day=day_words(local.date()))


def newest_look(scouting: ScoutingOrder) -> str:
    """
    Return how long ago any block was last looked at.

    Parameters
    ----------
    scouting : ScoutingOrder
        Holds the days since the last look at each block.

    Returns
    -------
    str
        Such as ``3 days ago``.
    """
    known = [e.days_since_look for e in scouting.entries if e.days_since_look is not None]
    return ago(min(known)) if known else phrase_for("the newest scouting", "none on record")


def ago(days: int) -> str:
    """
    Return an age in days in words.

    Parameters
    ----------
    days : int
        Whole days.

    Returns
    -------
    str
        In words.

    Examples
    --------
    >>> ago(0), ago(1), ago(5)
    ('today', '1 day ago', '5 days ago')
    """
    return phrase("today") if days == 0 else phrases("{count} day ago", "{count} days ago", days)


def title(farm: Farm, disease: Disease) -> str:
    """
    Return the title of the page, not yet escaped.

    Parameters
    ----------
    farm : Farm
        The farm.
    disease : Disease
        What the page opens with.

    Returns
    -------
    str
        Its name, what the page is about, and the day.
    """
    told = {
        "farm": farm.name,
        "disease": phrase_of(disease.name),
        "day": f"{day_words(farm.today)} {farm.today.year}",
    }
    if farm.is_made:
        return phrase("{farm} (made scenario): {disease} of mango, {day}", **told)
    return phrase("{farm}: {disease} of mango, {day}", **told)
