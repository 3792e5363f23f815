"""The protection layer of the season."""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.protection.weathering import spray_left, together
from geo.reference.fungicides import fungicides
from geo.reference.number import values
from geo.season import variables as v
from geo.season.days import day_starts
from geo.season.layer import Layer

HOURS_PER_DAY = 24.0  # by definition: ages are elapsed time, not local days


def _compute(season: xr.Dataset) -> xr.Dataset:
    rules = values("fungicides", "any")
    known = fungicides()
    sprays = [known[name] for name in season.spray_material.values.tolist()]
    block = season.spray_block.values.astype(np.int64)
    sprayed_at = season.spray_hour.values.astype(float)
    noon = _noon_of_days(season)
    drying = np.array([spray.drying_hours for spray in sprays], dtype=float)
    was_washed_wet = _rain_between(season, sprayed_at, sprayed_at + drying) > 0
    fresh = np.array([spray.efficacy for spray in sprays], dtype=float) * rules["coverage"]
    fresh = np.where(was_washed_wet, fresh * rules["share_left_if_rained_on_wet"], fresh)
    left = spray_left(
        fresh=fresh[:, None],
        age=(noon[None, :] - sprayed_at[:, None]) / HOURS_PER_DAY,
        rain=_rain_between(season, sprayed_at[:, None], noon[None, :]),
        new_tissue=_new_tissue(season, noon),
        half_life=np.array([spray.half_life for spray in sprays], dtype=float)[:, None],
        halving_rain=np.array([spray.halving_rain for spray in sprays], dtype=float)[:, None],
    )
    protection = together(left, block, block_count=season.sizes["block"], cap=rules["cap"])
    return xr.Dataset({v.PROTECTION_LEFT.name: (v.PROTECTION_LEFT.dims, protection)})


def _noon_of_days(season: xr.Dataset) -> FloatArray:
    """Return the middle of each local day, in hours since the season's first."""
    first = day_starts(season.hour_day.values)
    length = np.diff(first, append=season.sizes["hour"])
    noon: FloatArray = first + length / 2.0
    return noon


def _rain_between(season: xr.Dataset, start: FloatArray, end: FloatArray) -> FloatArray:
    """Return the rain between two times; what fell before the season is not known, and 0."""
    fallen = np.concatenate([[0.0], np.cumsum(season.precipitation.values)])
    hours = np.arange(fallen.size)
    rain: FloatArray = np.interp(end, hours, fallen) - np.interp(start, hours, fallen)
    return np.maximum(rain, 0.0)


def _new_tissue(season: xr.Dataset, noon: FloatArray) -> FloatArray:
    """
    Return the share of each sprayed panicle that grew since, shape (spray, day).

    What grew before the season is not known, and 0.
    """
    size = season.organ_size.values[season.spray_block.values]
    day = np.clip(np.searchsorted(noon, season.spray_hour.values), 0, noon.size - 1)
    then = np.take_along_axis(size, day[:, None], axis=1)
    grown = np.divide(then, size, out=np.ones_like(size), where=size > then)
    share: FloatArray = 1.0 - grown
    return share


PROTECTION = Layer(
    name="protection",
    question="what the sprays still protect",
    needs=(
        v.SPRAY_BLOCK,
        v.SPRAY_HOUR,
        v.SPRAY_MATERIAL,
        v.PRECIPITATION,
        v.HOUR_DAY,
        v.ORGAN_SIZE,
    ),
    gives=(v.PROTECTION_LEFT,),
    compute=_compute,
)
