"""The infection layer of the season: what weather and host do for a disease, spores apart."""

import numpy as np
import xarray as xr

from geo.infection.disease_weather import Air, disease_weather
from geo.infection.host import block_susceptibility, cultivar_shares
from geo.infection.latency import shortest_latency
from geo.reference.diseases import disease_with
from geo.reference.number import values
from geo.season import variables as v
from geo.season.between import at_blocks
from geo.season.days import day_starts
from geo.season.disease import disease_key
from geo.season.layer import Layer
from geo.texts import mark


def _compute(season: xr.Dataset) -> xr.Dataset:
    disease = disease_key(season)
    weather = disease_weather(
        disease_with(disease),
        Air(
            season.air_temperature_at_spot.values,
            season.relative_humidity_at_spot.values,
            season.precipitation.values,
            day_starts(season.hour_day.values),
        ),
        rain_mode=season.attrs["rain_mode"],
        wetness_rule=season.attrs["wetness_rule"],
    )
    spot, weight = season.spot_of_block.values, season.spot_weight.values
    # Many blocks carry the same cultivars: each mixture is rated once.
    texts, mixture = np.unique(season.cultivar_share_text.values, return_inverse=True)
    ratings = [block_susceptibility(cultivar_shares(text), disease) for text in texts.tolist()]
    susceptibility, doubt = np.array(ratings)[mixture].T
    given = {
        v.FAVOURABILITY_AT_SPOT: weather.favourability,
        v.FAVOURABILITY: at_blocks(weather.favourability, spot, weight),
        v.SITE_FAVOURABILITY: at_blocks(
            weather.favourability, season.spot_of_site.values, season.site_weight.values
        ),
        v.LATENT_DAYS: np.array(shortest_latency(disease)),
        v.LATENCY_RATE: at_blocks(weather.latency_rate, spot, weight),
        v.SPORE_RELEASE: at_blocks(weather.release, spot, weight),
        v.EVENT_RAIN: weather.event_rain,
        v.CULTIVAR_SUSCEPTIBILITY: susceptibility,
        v.CULTIVAR_DOUBT: doubt,
        v.AGE_SUSCEPTIBILITY: np.full(
            susceptibility.shape, values("mildew", "panicle mildew")["age_weight"]
        ),
    }
    return xr.Dataset({variable.name: (variable.dims, array) for variable, array in given.items()})


INFECTION = Layer(
    name="infection",
    question=mark("what weather and host do"),
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
    ),
    gives=(
        v.FAVOURABILITY_AT_SPOT,
        v.FAVOURABILITY,
        v.SITE_FAVOURABILITY,
        v.LATENT_DAYS,
        v.LATENCY_RATE,
        v.SPORE_RELEASE,
        v.EVENT_RAIN,
        v.CULTIVAR_SUSCEPTIBILITY,
        v.CULTIVAR_DOUBT,
        v.AGE_SUSCEPTIBILITY,
    ),
    compute=_compute,
)
