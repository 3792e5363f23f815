"""What do heat, oil, bloom, the sprayer and earlier sprays say of the planned material?"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import xarray as xr

from geo.reference.fungicides import fungicides
from geo.reference.number import numbers
from geo.season.farm import Farm
from geo.season.label import frac_code
from geo.texts import phrase
from geo.windows.diary_rules import days_since, running_with_this, uses_with_this
from geo.windows.forecast import Forecast
from geo.windows.gate import Gate, Rule, at_least, at_most
from geo.windows.rules import TABLE, rule_of
from geo.windows.sulfur_heat import HeatGate

SULFUR, OIL, COPPER = "sulfur", "mineral oil", "copper"
_FIRST_OPEN, _LAST_OPEN = "610", "617"  # rajan2011: open bloom, from its first flowers to its last


def planned(farm: Farm) -> tuple[str, ...]:
    """
    Return the active ingredients of the next tank.

    Parameters
    ----------
    farm : Farm
        For the settings.

    Returns
    -------
    tuple of str
        The planned material, and what is mixed with it.
    """
    settings = farm.settings
    return (settings.material, *([settings.mixed_with] if settings.mixed_with else []))


def codes_of(farm: Farm, material: str) -> tuple[str, ...]:
    """
    Return the cross-resistance codes of a material.

    Parameters
    ----------
    farm : Farm
        For the user's labels, which come first.
    material : str
        Active ingredient.

    Returns
    -------
    tuple of str
        Several for a premix; none for what is no fungicide.
    """
    for label in farm.labels or ():
        if label.material == material and label.frac_codes:
            return label.frac_codes
    known = fungicides().get(material)
    return (frac_code(known.frac_code),) if known else ()


def heat_gate_by_hour(
    rule: Rule, heat: HeatGate, column: "np.ndarray[tuple[int], np.dtype[np.int64]]"
) -> Gate:
    """
    Return the heat rule of days as a gate of hours.

    Parameters
    ----------
    rule : Rule
        With the limit in force.
    heat : HeatGate
        By day.
    column : numpy.ndarray
        Its column for each hour.

    Returns
    -------
    Gate
        All hours of a day are alike.
    """
    return Gate(rule, heat.is_closed[:, column], heat.closing_value[:, column])


def material_gates(farm: Farm, season: xr.Dataset, forecast: Forecast) -> Iterator[Gate]:
    """
    Ask the rules that go with the planned material, heat apart.

    Parameters
    ----------
    farm : Farm
        Settings and labels.
    season : xarray.Dataset
        With the diary's sprays, and the stage of the panicles.
    forecast : Forecast
        Of the blocks.

    Yields
    ------
    Gate
        One a rule, and of the rules on codes one for each code.
    """
    tank = planned(farm)
    yield from _sulfur_and_oil(tank, season, forecast)
    if any(numbers(TABLE).get((material, "needs_agitation")) for material in tank):
        yield _agitation(farm, forecast)
    yield from _bloom(tank, season, forecast)
    for code in dict.fromkeys(code for material in tank for code in codes_of(farm, material)):
        if (f"FRAC {code}", "season_uses") in numbers(TABLE):
            yield from _rotation(code, farm, season, forecast)


def _sulfur_and_oil(
    tank: tuple[str, ...], season: xr.Dataset, forecast: Forecast
) -> Iterator[Gate]:
    if SULFUR not in tank and OIL not in tank:
        return
    rule = rule_of(
        "sulfur-oil",
        phrase("Sulfur and oil too close, days between"),
        number=("sulfur", "oil_interval"),
    )
    shape = (season.sizes["block"], forecast.hour.size)
    if SULFUR in tank and OIL in tank:
        yield at_least(
            replace(rule, title=phrase("Sulfur and oil in one tank, days between")), np.zeros(shape)
        )
        return
    other = season["spray_material"].values.astype(str) == (OIL if SULFUR in tank else SULFUR)
    yield at_least(
        rule,
        days_since(
            season["spray_block"].values[other],
            season["spray_hour"].values[other],
            forecast.hour,
            block_count=shape[0],
        ),
    )


def _agitation(farm: Farm, forecast: Forecast) -> Gate:
    """Return whether the tank keeps a settling suspension stirred; a guess only warns."""
    rule = rule_of(
        "agitation",
        phrase("A settling suspension needs an agitated tank"),
        number=("sulfur", "needs_agitation"),
    )
    settings = farm.settings
    stirred = settings.agitated
    if stirred is None and settings.sprayer == "hose_end":
        stirred = False
    if stirred is None:
        title = phrase("Not known whether the tank is agitated")
        rule = replace(rule, title=title, is_caution=True)
    value = np.nan if stirred is None else float(stirred)
    return at_least(rule, np.full((1, forecast.hour.size), value))


def _bloom(tank: tuple[str, ...], season: xr.Dataset, forecast: Forecast) -> Iterator[Gate]:
    scale = numbers("growth_stages")
    place = season["stage_progress"].values[:, forecast.day]
    first, last = (scale[code, "progress"].value for code in (_FIRST_OPEN, _LAST_OPEN))
    # An unknown stage may be bloom.
    in_bloom = np.where(np.isnan(place), np.nan, ((place >= first) & (place <= last)).astype(float))
    if COPPER in tank:
        rule = rule_of(
            "copper-bloom",
            phrase(
                "Copper in open bloom (it russets apples in the eastern United States; tests on "
                "mango flowers found no adverse effect; usual at spike emergence and again at "
                "small fruit)"
            ),
            number=("copper", "bloom_caution"),
            is_caution=True,
        )
        yield Gate(rule, ~(in_bloom == 0.0), in_bloom)
    bees = rule_of(
        "bees",
        phrase("Bees may forage in open bloom, air"),
        number=("spray", "bee_warmth"),
        is_caution=True,
    )
    may_fly = ~(forecast.temperature < bees.limit) & (forecast.sunny_hours > 0.0)[None, :]
    yield Gate(bees, may_fly & ~(in_bloom == 0.0), forecast.temperature)


def _rotation(code: str, farm: Farm, season: xr.Dataset, forecast: Forecast) -> Iterator[Gate]:
    material = season["spray_material"].values.astype(str)
    has_code = np.array([code in codes_of(farm, one) for one in material.tolist()], dtype=bool)
    is_fungicide = np.array([bool(codes_of(farm, one)) for one in material.tolist()], dtype=bool)
    block, hour = season["spray_block"].values, season["spray_hour"].values
    blocks = season.sizes["block"]
    often = rule_of(
        f"frac-season-{code}",
        phrase("Uses of FRAC code {code} in a year", code=code),
        number=(f"FRAC {code}", "season_uses"),
    )
    yield at_most(
        often,
        uses_with_this(block[has_code], hour[has_code], forecast.hour, block_count=blocks),
    )
    running = rule_of(
        f"frac-running-{code}",
        phrase("Uses of FRAC code {code} in a row", code=code),
        number=(f"FRAC {code}", "running_uses"),
    )
    run = running_with_this(
        block[is_fungicide], hour[is_fungicide], has_code[is_fungicide], block_count=blocks
    )
    yield at_most(running, np.repeat(run[:, None], forecast.hour.size, axis=1))
