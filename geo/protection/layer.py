"""The protection layer of the season."""

from dataclasses import dataclass, fields

import numpy as np
import xarray as xr

from geo.arrays import AnyArray, FloatArray, IntArray
from geo.protection.curative import cured_share
from geo.protection.reapply import until_line
from geo.protection.weathering import new_share, rain_between, spray_left, together
from geo.reference.fungicides import coverage, fungicides
from geo.reference.number import values
from geo.season import variables as v
from geo.season.days import day_noons, day_of_size, day_starts
from geo.season.disease import disease_key
from geo.season.layer import Layer
from geo.season.today import today_index
from geo.season.variable import Variable
from geo.texts import mark

SPRAYS_AT_ONCE = 2000  # our own choice; the result does not depend on it
HOURS_PER_DAY = 24.0  # by definition: ages are elapsed time, not local days


@dataclass(frozen=True, slots=True)
class Sprays:
    """
    The sprays of the diary, each with what it is against the season's disease.

    Attributes
    ----------
    block : numpy.ndarray
        [1] Shape (spray,), as are all below.
    hour : numpy.ndarray
        [h] Since the season's first hour.
    fresh : numpy.ndarray
        [1] Efficacy times coverage, less what rain took before it was dry.
    half_life, halving_rain, reach : numpy.ndarray
        [d], [mm], [d] How it fades, and how far it reaches back.
    """

    block: IntArray
    hour: FloatArray
    fresh: FloatArray
    half_life: FloatArray
    halving_rain: FloatArray
    reach: FloatArray


def _compute(season: xr.Dataset) -> xr.Dataset:
    rules = values("fungicides", "any")
    block_count, day_count = season.sizes["block"], season.sizes["day"]
    sprays = _sprays(season, rules["share_left_if_rained_on_wet"])
    noon = day_noons(season.hour_day.values)
    left = _left(season, sprays, noon, season.organ_size.values)
    now, today = _now(season)
    left_now = _left(season, sprays, now, season.organ_size.values[:, [today]])[:, 0]
    line = season.attrs.get("reapply_line", rules["reapply_line"])
    done = sprays.hour <= now[0]

    def until(halving: FloatArray) -> FloatArray:
        return until_line(
            left_now[done], halving[done], sprays.block[done], block_count=block_count, line=line
        )

    cured, cured_age = cured_share(
        sprays.fresh * rules["curative_share"],
        sprays.reach,
        sprays.block,
        _day_of(season, sprays.hour),
        shape=(block_count, day_count),
    )
    given: dict[Variable, AnyArray] = {
        v.PROTECTION_LEFT: together(left, sprays.block, block_count=block_count, cap=rules["cap"]),
        v.SPRAY_LEFT: left_now,
        v.RAIN_TO_REAPPLY: until(sprays.halving_rain),
        v.DRY_DAYS_TO_REAPPLY: until(sprays.half_life),
        v.CURED: cured,
        v.CURED_AGE: cured_age,
    }
    return xr.Dataset({variable.name: (variable.dims, array) for variable, array in given.items()})


def _sprays(season: xr.Dataset, share_if_wet: float) -> Sprays:
    disease = disease_key(season)
    known = fungicides()
    materials = [known[name] for name in season.spray_material.values.tolist()]
    hour = season.spray_hour.values.astype(float)
    drying = np.array([material.drying_hours for material in materials], dtype=float)
    was_washed_wet = rain_between(season.precipitation.values, hour, hour + drying) > 0
    efficacy = [material.efficacy[disease].value for material in materials]
    fresh = np.array(efficacy, dtype=float) * coverage(season.attrs.get("sprayer")).value
    return Sprays(
        block=season.spray_block.values.astype(np.int64),
        hour=hour,
        fresh=np.where(was_washed_wet, fresh * share_if_wet, fresh),
        half_life=np.array([material.half_life for material in materials], dtype=float),
        halving_rain=np.array([material.halving_rain for material in materials], dtype=float),
        reach=np.array([material.curative_reach for material in materials], dtype=float),
    )


def _left(season: xr.Dataset, sprays: Sprays, when: FloatArray, size: FloatArray) -> FloatArray:
    """Return what is left of each spray at some hours, when organs of blocks have some size."""
    left = np.empty((sprays.hour.size, when.size))
    for first in range(0, sprays.hour.size, SPRAYS_AT_ONCE):
        group = slice(first, first + SPRAYS_AT_ONCE)
        some = Sprays(**{each.name: getattr(sprays, each.name)[group] for each in fields(Sprays)})
        left[group] = spray_left(
            fresh=some.fresh[:, None],
            age=(when[None, :] - some.hour[:, None]) / HOURS_PER_DAY,
            rain=rain_between(season.precipitation.values, some.hour[:, None], when[None, :]),
            new_tissue=_new_tissue(season, some, size[some.block]),
            half_life=some.half_life[:, None],
            halving_rain=some.halving_rain[:, None],
        )
    return left


def _now(season: xr.Dataset) -> tuple[FloatArray, int]:
    """Return the end of the last measured hour, and its day."""
    measured = np.flatnonzero(season.is_forecast.values == 0)
    return np.array([measured[-1] + 1.0]), today_index(season)


def _day_of(season: xr.Dataset, hour: FloatArray) -> IntArray:
    """Return the local day of each hour; -1 before the season."""
    starts = day_starts(season.hour_day.values)
    return np.asarray(np.searchsorted(starts, hour, side="right") - 1, dtype=np.int64)


def _new_tissue(season: xr.Dataset, sprays: Sprays, size: FloatArray) -> FloatArray:
    """
    Return the share of each sprayed organ that grew since, in the shape of the sizes.

    What grew before the season is not known, and 0.
    """
    day = day_of_size(season.hour_day.values, sprays.hour)
    return new_share(season.organ_size.values[sprays.block, day][:, None], size)


PROTECTION = Layer(
    name="protection",
    question=mark("what the sprays still protect"),
    needs=(
        v.SPRAY_BLOCK,
        v.SPRAY_HOUR,
        v.SPRAY_MATERIAL,
        v.PRECIPITATION,
        v.HOUR_DAY,
        v.IS_FORECAST,
        v.ORGAN_SIZE,
    ),
    gives=(
        v.PROTECTION_LEFT,
        v.SPRAY_LEFT,
        v.RAIN_TO_REAPPLY,
        v.DRY_DAYS_TO_REAPPLY,
        v.CURED,
        v.CURED_AGE,
    ),
    compute=_compute,
)
