"""The infection layer of the season: powdery mildew on panicles."""

from dataclasses import fields

import numpy as np
import xarray as xr

from geo.infection.hazard import hazard_index
from geo.infection.host import block_susceptibility, cultivar_shares
from geo.infection.over_season import daily_favourability
from geo.infection.panicle_mildew import PanicleMildew, rain_weight
from geo.reference.number import values
from geo.season import variables as v
from geo.season.between import at_blocks
from geo.season.days import day_starts
from geo.season.layer import Layer


def mildew_parameters() -> PanicleMildew:
    """
    Return the parameters of panicle mildew from the reference table.

    Returns
    -------
    PanicleMildew
        The defaults.
    """
    table = values("mildew", "panicle mildew")
    return PanicleMildew(**{field.name: table[field.name] for field in fields(PanicleMildew)})


def _compute(season: xr.Dataset) -> xr.Dataset:
    table = values("mildew", "panicle mildew")
    mildew = mildew_parameters()
    daily = daily_favourability(
        season.air_temperature_at_spot.values,
        season.relative_humidity_at_spot.values,
        rain_weight(season.precipitation.values, mildew, rain_mode=season.attrs["rain_mode"]),
        mildew,
        starts=day_starts(season.hour_day.values),
    )
    favourability = at_blocks(daily, season.spot_of_block.values, season.spot_weight.values)
    site = at_blocks(daily, season.spot_of_site.values, season.site_weight.values)
    ratings = [
        block_susceptibility(cultivar_shares(text))
        for text in season.cultivar_share_text.values.tolist()
    ]
    susceptibility, doubt = np.array(ratings).T
    age = np.full(susceptibility.shape, table["age_weight"])
    hazard = hazard_index(
        favourability,
        (susceptibility * age)[:, None] * season.stage_susceptibility.values,
        season.home_inoculum.values + season.incoming_inoculum.values,
        season.protection_left.values,
    )
    given = {
        v.FAVOURABILITY: favourability,
        v.SITE_FAVOURABILITY: site,
        v.CULTIVAR_SUSCEPTIBILITY: susceptibility,
        v.CULTIVAR_DOUBT: doubt,
        v.AGE_SUSCEPTIBILITY: age,
        v.HAZARD: hazard,
        v.FAVOURABILITY_AT_SPOT: daily,
    }
    return xr.Dataset({variable.name: (variable.dims, array) for variable, array in given.items()})


INFECTION = Layer(
    name="infection",
    question="how large the mildew hazard is",
    needs=(
        v.AIR_TEMPERATURE_AT_SPOT,
        v.RELATIVE_HUMIDITY_AT_SPOT,
        v.PRECIPITATION,
        v.HOUR_DAY,
        v.SPOT_OF_BLOCK,
        v.SPOT_WEIGHT,
        v.SPOT_OF_SITE,
        v.SITE_WEIGHT,
        v.CULTIVAR_SHARE_TEXT,
        v.STAGE_SUSCEPTIBILITY,
        v.HOME_INOCULUM,
        v.INCOMING_INOCULUM,
        v.PROTECTION_LEFT,
    ),
    gives=(
        v.FAVOURABILITY,
        v.SITE_FAVOURABILITY,
        v.CULTIVAR_SUSCEPTIBILITY,
        v.CULTIVAR_DOUBT,
        v.AGE_SUSCEPTIBILITY,
        v.HAZARD,
        v.FAVOURABILITY_AT_SPOT,
    ),
    compute=_compute,
)
