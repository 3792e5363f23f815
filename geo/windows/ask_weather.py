"""What do wind, Delta T, inversions, rain and wet leaves say of each hour?"""

from collections.abc import Iterator

import numpy as np

from geo.reference.number import values
from geo.texts import phrase
from geo.windows.air import may_be_inverted
from geo.windows.drying import are_leaves_wet, dry_hours_ahead
from geo.windows.forecast import Forecast
from geo.windows.gate import Gate, at_least, at_most
from geo.windows.rules import TABLE, rule_of


def weather_gates(forecast: Forecast) -> Iterator[Gate]:
    """
    Ask the rules of spray weather, which hold for every material.

    Parameters
    ----------
    forecast : Forecast
        Of the blocks.

    Yields
    ------
    Gate
        One a rule.
    """
    yield from _air(forecast)
    yield from _water(forecast)


def _air(forecast: Forecast) -> Iterator[Gate]:
    low = rule_of("wind-low", phrase("Too little wind, drops hang"), number=("spray", "wind_low"))
    yield at_least(low, forecast.wind)
    high = rule_of(
        "wind-high", phrase("Too much wind, spray drifts"), number=("spray", "wind_high")
    )
    yield at_most(high, forecast.wind)
    small = rule_of(
        "delta-t-low", phrase("Delta T too small, drops hang"), number=("spray", "delta_t_low")
    )
    yield at_least(small, forecast.delta_t)
    large = rule_of(
        "delta-t-high", phrase("Delta T too large, drops dry"), number=("spray", "delta_t_high")
    )
    yield at_most(large, forecast.delta_t)
    ideal = ("spray", "delta_t_ideal")
    title = phrase("Delta T above the ideal range")
    yield at_most(rule_of("delta-t-ideal", title, number=ideal, is_caution=True), forecast.delta_t)
    rule = rule_of(
        "inversion",
        phrase("Inversion likely, hours of sun around it"),
        number=("spray", "sun_hours"),
    )
    spray = values(TABLE, "spray")
    limits = (spray["sun_hours"], spray["inversion_cloud"], spray["wind_low"])
    is_inverted = may_be_inverted(
        forecast.sunny_hours, forecast.cloud, forecast.wind, limits=limits
    )
    yield Gate(rule, is_inverted, forecast.sunny_hours[None, :])


def _water(forecast: Forecast) -> Iterator[Gate]:
    spray = values(TABLE, "spray")
    trace = spray["rain_trace"]
    rain = np.where(np.isnan(forecast.rain), np.nan, (forecast.rain >= trace).astype(np.float64))[
        None, :
    ]
    # In an hour of rain nothing stays dry, not even for the hours after it.
    dry = np.where(rain == 0.0, dry_hours_ahead(rain), 0.0)
    yield at_least(
        rule_of(
            "rain-free", phrase("Rain too soon, dry hours after it"), number=("spray", "rain_free")
        ),
        dry,
    )
    better = ("spray", "rain_free_better")
    title = phrase("Rain within hours, dry hours after it")
    yield at_least(rule_of("rain-later", title, number=better, is_caution=True), dry)
    wet = are_leaves_wet(
        forecast.humidity, forecast.rain, humidity=spray["wet_leaf_humidity"], trace=trace
    )
    wet_rule = rule_of(
        "wet-leaves",
        phrase("Leaves are wet, humidity of the air"),
        number=("spray", "wet_leaf_humidity"),
    )
    yield Gate(wet_rule, ~(wet == 0.0), forecast.humidity)
    drying = rule_of(
        "drying",
        phrase("No time to dry before dew or rain, dry hours"),
        number=("spray", "drying_hours"),
    )
    yield at_least(drying, dry_hours_ahead(wet))
