"""What is left of each block's sprays, and how much rain or dry time it stands, in words."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

import numpy as np
import xarray as xr

from geo.arrays import IntArray
from geo.ranking.sentences import two_digits
from geo.reference.diseases import disease_with
from geo.reference.fungicides import fungicides
from geo.reference.number import values
from geo.season.disease import disease_key
from geo.texts import mark, phrase, phrase_of, phrases
from geo.texts.days import long_day_words

MOST_NAMED = 3  # our own choice: more is not read in the field
WORTH_NAMING = 0.005  # our own choice: two decimals are shown
HOURS_PER_DAY = 24  # by definition
NONE = mark("Sprays: none in the diary.")


def spray_words(season: xr.Dataset, blocks: Iterable[int]) -> list[str]:
    """
    Return what is left of the sprays of some blocks now.

    Parameters
    ----------
    season : xarray.Dataset
        After the protection layer, with all its days.
    blocks : iterable of int
        Places of the blocks.

    Returns
    -------
    list of str
        A line each, newest spray first. Growth to come is not counted.
    """
    now = np.flatnonzero(season["is_forecast"].values == 0).max(initial=-1) + 1
    hour, block = season["spray_hour"].values, season["spray_block"].values
    # Newest first within a block.
    order = np.lexsort((-hour, block))
    order = order[hour[order] <= now]
    edges = np.searchsorted(block[order], np.arange(season.sizes["block"] + 1))
    return [_words(season, place, order[edges[place] : edges[place + 1]]) for place in blocks]


def reapply_line(season: xr.Dataset) -> float:
    """
    Return the protection at which a new spray is worth a thought.

    Parameters
    ----------
    season : xarray.Dataset
        Its attributes hold the user's, if there is one.

    Returns
    -------
    float
        The user's, else the table's.
    """
    line = season.attrs.get("reapply_line", values("fungicides", "any")["reapply_line"])
    return float(line)


def _words(season: xr.Dataset, block: int, sprays: IntArray) -> str:
    if not sprays.size:
        return phrase_of(NONE)
    rules = values("fungicides", "any")
    line = reapply_line(season)
    left = season["spray_left"].values[sprays]
    together = min(1.0 - float(np.prod(1.0 - left)), rules["cap"])
    told = [_spray(season, int(spray)) for spray in _worth_naming(season, sprays)]
    if np.count_nonzero(left >= WORTH_NAMING) > 1:
        told.append(phrase("together {protection:.2f}", protection=together))
    if together <= line:
        return phrase(
            "Sprays: {sprays}; at or below the reapply line of {line:.2f}.",
            sprays="; ".join(told),
            line=line,
        )
    return phrase(
        "Sprays: {sprays}; about {rain} mm of rain or {dry_days} to the reapply line of "
        "{line:.2f}, growth not counted.",
        sprays="; ".join(told),
        rain=two_digits(float(season["rain_to_reapply"].values[block])),
        dry_days=_days(float(season["dry_days_to_reapply"].values[block])),
        line=line,
    )


def _worth_naming(season: xr.Dataset, sprays: IntArray) -> Iterator[int]:
    """Return the newest sprays that still protect; if none does, the newest of all."""
    left = season["spray_left"].values[sprays]
    found = sprays[left >= WORTH_NAMING] if (left >= WORTH_NAMING).any() else sprays[:1]
    yield from found[:MOST_NAMED].tolist()


def _spray(season: xr.Dataset, spray: int) -> str:
    material = str(season["spray_material"].values[spray])
    day = _day_of(season, float(season["spray_hour"].values[spray]))
    left = float(season["spray_left"].values[spray])
    disease = disease_with(disease_key(season))
    if fungicides()[material].efficacy[disease.key].value == 0.0:
        return phrase(
            "{material} of {day}: nothing is counted against {disease}",
            material=phrase_of(material),
            day=long_day_words(day),
            disease=phrase_of(disease.name),
        )
    return phrase(
        "{material} of {day}: {left:.2f} left",
        material=phrase_of(material),
        day=long_day_words(day),
        left=left,
    )


def _days(days: float) -> str:
    words = two_digits(days) if days < 1.0 else f"{days:.0f}"
    return phrases("{days} dry day", "{days} dry days", 1 if words == "1" else 2, days=words)


def _day_of(season: xr.Dataset, hour: float) -> date:
    """Return the local day of a spray; of one from before the season, counted back in days."""
    first: date = season["day"].values[0].astype("datetime64[D]").item()
    if hour < 0:
        return first + timedelta(days=int(hour // HOURS_PER_DAY))
    return first + timedelta(days=int(season["hour_day"].values[int(hour)]))
