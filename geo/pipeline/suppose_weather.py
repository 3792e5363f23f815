"""What other weather is supposed? From the words of an option to a change of the season."""

import re

from geo.arrays import IntArray
from geo.errors import quoted, stop
from geo.pipeline.local_hours import clock, hours_between
from geo.pipeline.suppose import coming_night, warmer, with_rain
from geo.pipeline.supposition import Asked, Supposition, check_forecast, not_understood
from geo.texts import phrase

MOST_RAIN = 500.0  # mm: no hour of the season may hold more
MOST_KELVIN = 15.0  # our own choice: further off, a forecast is not off but another season's
RAIN = re.compile(r"(?P<amount>\d+(?:\.\d+)?)(?: ?mm)?(?:@(?P<hours>.+))?")
WARMER = re.compile(r"(?P<kelvin>[-+]?\d+(?:\.\d+)?)(?: ?K)?")
HOURS = re.compile(r"(?:(?P<day>\d{4}-\d{2}-\d{2})T)?(?P<first>\d{1,2})-(?P<end>\d{1,2})")
HOURS_A_DAY = 24


def rain_supposed(words: str, asked: Asked) -> Supposition:
    """
    Return more rain.

    Parameters
    ----------
    words : str
        Millimetres, and hours if not those of the coming night.
    asked : Asked
        With a forecast.

    Returns
    -------
    Supposition
        On top of what is forecast.

    Raises
    ------
    InputError
        If the words mean nothing, or no hour of the forecast is meant.
    """
    form = RAIN.fullmatch(words.strip())
    if form is None or float(form["amount"]) > MOST_RAIN:
        fix = phrase(
            "Write millimetres up to {most:.0f}: 20, 20@22-02 or 20@2026-02-20T14-18",
            most=MOST_RAIN,
        )
        raise not_understood("--rain", words, fix)
    amount = float(form["amount"])
    check_forecast("--rain", asked)
    is_night = form["hours"] is None
    hours = coming_night(asked.season) if is_night else _hours(words, form["hours"], asked)
    if not hours.size:
        found = phrase("{words} has no forecast hour", words=quoted(words))
        fix = phrase("Name hours that the forecast covers")
        raise stop("E-SUPPOSE-HOURS", "--rain", found, fix)
    told = {
        "amount": amount,
        "start": clock(asked.season, asked.zone, int(hours[0])),
        "end": clock(asked.season, asked.zone, int(hours[-1]) + 1),
    }
    said = phrase("{amount:g} mm more rain, evenly from {start} to {end} (as asked)", **told)
    if is_night:
        said = phrase(
            "{amount:g} mm more rain, evenly from {start} to {end} (the coming night)", **told
        )
    return Supposition(said, lambda season: with_rain(season, amount, hours))


def _hours(words: str, span: str, asked: Asked) -> IntArray:
    """Return the hours that are named."""
    form = HOURS.fullmatch(span.strip())
    if form is None or not 0 <= int(form["first"]) < HOURS_A_DAY >= int(form["end"]):
        fix = phrase("Write the hours as 22-02 or 2026-02-20T14-18")
        raise not_understood("--rain", words, fix)
    first, end = int(form["first"]), int(form["end"]) % HOURS_A_DAY
    return hours_between(asked.season, asked.zone, day=form["day"], first=first, end=end)


def warmth_supposed(words: str, asked: Asked) -> Supposition:
    """
    Return warmer or colder forecast air.

    Parameters
    ----------
    words : str
        Kelvins.
    asked : Asked
        With a forecast.

    Returns
    -------
    Supposition
        With as much water in the air.

    Raises
    ------
    InputError
        If the words mean nothing.
    """
    form = WARMER.fullmatch(words.strip())
    if form is None or abs(float(form["kelvin"])) > MOST_KELVIN:
        fix = phrase(
            "Write kelvins from -{most:.0f} to {most:.0f}, such as 2 or -1.5", most=MOST_KELVIN
        )
        raise not_understood("--warmer", words, fix)
    kelvin = float(form["kelvin"])
    check_forecast("--warmer", asked)
    said = phrase("forecast air {kelvin:g} K warmer, as much water in it", kelvin=kelvin)
    if kelvin < 0:
        said = phrase("forecast air {kelvin:g} K colder, as much water in it", kelvin=-kelvin)
    return Supposition(said, lambda season: warmer(season, kelvin))
