"""Everything the page's scripts need to know, as one object ready for JSON."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.exports.outlines import encoded_outlines
from geo.exports.page_blocks import blocks_data, plain
from geo.exports.page_classes import CLASS_COLOURS, NOT_KNOWN_WORD
from geo.exports.page_ground import ground_data
from geo.exports.page_places import apart_data, neighbours_data, places_data
from geo.exports.page_risk import Risk, disease_data
from geo.exports.page_words import HONESTY, as_date, newest_measured
from geo.ranking.classes import CLASS_BREAKS, CLASS_WORDS
from geo.scouting.coolest import coolest_tenth
from geo.season.farm import Farm
from geo.season.looked_up import LookedUp
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words, weekday_words

DAYS_BACK = 14


def page_data(farm: Farm, risks: Sequence[Risk]) -> dict[str, Any]:
    """
    Return what the page's scripts read.

    Parameters
    ----------
    farm : Farm
        Names and outlines.
    risks : sequence of Risk
        Of each disease; the first is the one shown when the page opens.

    Returns
    -------
    dict
        Ready for JSON. Names are as the user wrote them: the scripts put them in as text.
    """
    first = risks[0]
    season, spray = first.season, first.spray
    days = shown_days(season, farm)
    return {
        "farm": {
            "name": farm.name,
            "honesty": phrase_of(HONESTY),
            "measured": newest_measured(season, farm.zone),
            "horizon": spray.horizon_days,
            "first": day_words(spray.first_day),
        },
        "classes": {
            "breaks": list(CLASS_BREAKS),
            "words": [phrase_of(word) for word in CLASS_WORDS],
            "unknown": phrase_of(NOT_KNOWN_WORD),
            "colours": list(CLASS_COLOURS),
        },
        "days": _days_data(season, farm, days),
        "blocks": blocks_data(LookedUp(season.isel(day=days)), farm),
        "diseases": [disease_data(risk, days) for risk in risks],
        "neighbours": neighbours_data(farm),
        "places": places_data(farm),
        "apart": apart_data(farm),
        "coolest": encoded_outlines(coolest_tenth(farm, season).geometry),
        "ground": ground_data(farm, season),
    }


def shown_days(season: xr.Dataset, farm: Farm) -> IntArray:
    """
    Return the days that the slider runs over.

    Parameters
    ----------
    season : xarray.Dataset
        The season.
    farm : Farm
        Knows today.

    Returns
    -------
    [1]
        Places among the season's days, from two weeks before today, as far as there are any, to
        the end of the forecast.
    """
    first = np.datetime64(farm.today) - np.timedelta64(DAYS_BACK, "D")
    return np.flatnonzero(season["day"].values.astype("datetime64[D]") >= first)


def _days_data(season: xr.Dataset, farm: Farm, days: IntArray) -> dict[str, Any]:
    shown = season.isel(day=days)
    dates = [as_date(day) for day in shown["day"].values]
    coolest = shown["day_minimum_temperature"].transpose("day", "block").values
    return {
        "words": [day_words(day) for day in dates],
        "weekdays": [weekday_words(day) for day in dates],
        "numbers": [day.day for day in dates],
        "today": max(0, sum(day <= farm.today for day in dates) - 1),
        "isToday": farm.today in dates,
        "todayName": phrase("today") if farm.today in dates else phrase("last whole day"),
        "basis": [_basis(season, int(day)) for day in days],
        "rain": plain(shown["rain"].values, 2),
        "coolest": plain(_known_edge(coolest, np.inf, np.fmin), 1),
        "warmest": plain(_known_edge(coolest, -np.inf, np.fmax), 1),
    }


def _known_edge(values: FloatArray, start: float, edge: np.ufunc) -> FloatArray:
    found: FloatArray = edge.reduce(values, axis=1, initial=start)
    return np.where(np.isfinite(found), found, np.nan)


def _basis(season: xr.Dataset, day: int) -> str:
    is_forecast = season["is_forecast"].values[season["hour_day"].values == day]
    if not is_forecast.size:
        return "no weather"
    if is_forecast.all():
        return "forecast"
    return "part measured, part forecast" if is_forecast.any() else "measured"
