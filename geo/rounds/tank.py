"""What would the planned tank protect if it went out today?"""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.protection.weathering import new_share, rain_between, spray_left
from geo.reference.fungicides import coverage, fungicides
from geo.reference.number import values
from geo.season.days import day_of_size
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.windows.ask_material import planned

HOURS_PER_DAY = 24.0  # by definition: ages are elapsed time, not local days


def tank_effect(farm: Farm, material: str, disease: str) -> FloatArray:
    """
    Return which share of infections a material prevents when fresh.

    Parameters
    ----------
    farm : Farm
        For the kind of sprayer.
    material : str
        Active ingredient.
    disease : str
        Key of the disease.

    Returns
    -------
    [1]
        Lowest, expected and highest: efficacy times coverage, each with the doubt of its table.
        All 0 for what is no fungicide.
    """
    known = fungicides().get(material)
    if known is None:
        return np.zeros(3)
    effect, reached = known.efficacy[disease], coverage(farm.settings.sprayer)
    return np.array(
        [effect.low * reached.low, effect.value * reached.value, effect.high * reached.high]
    )


def tank_left(
    farm: Farm, season: xr.Dataset, *, start: FloatArray, when: FloatArray, days: slice
) -> FloatArray:
    """
    Return what would be left of the planned tank, sprayed in each block at a time of its own.

    Parameters
    ----------
    farm : Farm
        For the tank and the sprayer.
    season : xarray.Dataset
        Of a disease, with its weather and the size of its organ.
    start : [h]
        Shape (block,): of the spray, since the season's first hour.
    when : [h]
        Shape (block, day): times asked about, one on each of some days.
    days : slice
        Those days among the season's.

    Returns
    -------
    [1]
        Share of infections prevented, shape (3, block, day): at the lowest, the expected and the
        highest effect of the materials. The same as if the spray stood in the diary.
    """
    share_if_wet = values("fungicides", "any")["share_left_if_rained_on_wet"]
    rain = season.precipitation.values
    then = season.organ_size.values[
        np.arange(start.size), day_of_size(season.hour_day.values, start)
    ]
    unprotected = np.ones((3, *when.shape))
    for material in planned(farm):
        known = fungicides().get(material)
        if known is None:
            continue
        is_washed = rain_between(rain, start, start + known.drying_hours) > 0.0
        fresh = np.where(is_washed, share_if_wet, 1.0)[:, None] * tank_effect(
            farm, material, disease_key(season)
        ).reshape(3, 1, 1)
        unprotected *= 1.0 - spray_left(
            fresh=fresh,
            age=(when - start[:, None]) / HOURS_PER_DAY,
            rain=rain_between(rain, start[:, None], when),
            new_tissue=new_share(then[:, None], season.organ_size.values[:, days]),
            half_life=np.asarray(known.half_life),
            halving_rain=np.asarray(known.halving_rain),
        )
    return 1.0 - unprotected
