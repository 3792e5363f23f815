"""The layer that gives what rival rules say of each block and day; no other layer reads it."""

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.infection.anthracnose import anthracnose_days
from geo.infection.anthracnose_parameters import anthracnose_parameters
from geo.infection.wet_period import wet_share
from geo.rules.field_rule import field_rule_hours, field_rule_parameters
from geo.rules.grape_index import grape_index, grape_index_parameters, longest_runs
from geo.rules.names import RIVALS
from geo.rules.wetness_magarey2005 import anthracnose_need, share_of_wet_hours_needed
from geo.season import variables as v
from geo.season.between import at_blocks
from geo.season.days import day_starts
from geo.season.layer import Layer
from geo.texts import mark


def _compute(season: xr.Dataset) -> xr.Dataset:
    temperature = season.air_temperature_at_spot.values
    humidity = season.relative_humidity_at_spot.values
    rain = season.precipitation.values
    starts = day_starts(season.hour_day.values)
    anthracnose = anthracnose_parameters()

    def to_blocks(at_spots: FloatArray) -> FloatArray:
        return at_blocks(at_spots, season.spot_of_block.values, season.spot_weight.values)

    def index(*, is_revised: bool) -> FloatArray:
        variant = grape_index_parameters(is_revised=is_revised)
        favourable, hot = longest_runs(temperature, variant, starts=starts)
        return grape_index(to_blocks(favourable), to_blocks(hot), variant)

    field = field_rule_hours(temperature, humidity, rain, field_rule_parameters(), starts=starts)
    wet = wet_share(humidity, rain, anthracnose)
    needed = share_of_wet_hours_needed(temperature, wet, anthracnose_need(), starts=starts)
    infected = anthracnose_days(temperature, humidity, rain, anthracnose, starts=starts)
    readings = {
        "field_rule": to_blocks(field),
        "grape_index": index(is_revised=False),
        "grape_index_2013": index(is_revised=True),
        "generic_wetness": to_blocks(needed),
        "appressoria": to_blocks(100.0 * infected.infected_share),
    }
    keys = [rival.key for rival in RIVALS]
    name, dims = v.RULE_READING.name, v.RULE_READING.dims
    stacked = np.stack([readings[key] for key in keys])
    return xr.Dataset({name: (dims, stacked)}, coords={dims[0]: keys})


RULES = Layer(
    name="rules",
    question=mark("what other published rules say"),
    needs=(
        v.AIR_TEMPERATURE_AT_SPOT,
        v.RELATIVE_HUMIDITY_AT_SPOT,
        v.PRECIPITATION,
        v.HOUR_DAY,
        v.SPOT_OF_BLOCK,
        v.SPOT_WEIGHT,
    ),
    gives=(v.RULE_READING,),
    compute=_compute,
)
