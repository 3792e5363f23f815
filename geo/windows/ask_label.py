"""What does the user's own label say of crews, picking, intervals and the season's maximum?"""

from collections.abc import Iterator
from math import isnan

import numpy as np
import xarray as xr

from geo.season.crews import Crews
from geo.season.farm import Farm
from geo.season.label import Label
from geo.texts import mark, phrase, phrase_of
from geo.windows.ask_material import planned
from geo.windows.crew_rules import days_until_picking, hours_until_entry
from geo.windows.diary_rules import days_since, uses_with_this
from geo.windows.forecast import Forecast
from geo.windows.gate import Gate, Rule, at_least, at_most
from geo.windows.open_hours import NotAsked
from geo.windows.rules import ON_THE_LABEL

NO_ROW = mark("no label file with a row for it, and unknown is closed")
NO_CELL = mark("not written down in your label file, and unknown is closed")


def rules_not_asked(farm: Farm) -> tuple[NotAsked, ...]:
    """
    Return which rules need what the farm does not give.

    Parameters
    ----------
    farm : Farm
        As read.

    Returns
    -------
    tuple of NotAsked
        In the order in which people are told.
    """
    found = []
    if farm.labels is None:
        words = phrase(
            "Label rules: season maximum and interval are not asked, no label file is named. "
            "Check the label."
        )
        found.append(NotAsked(phrase("label rules"), words))
    if farm.crews is None:
        words = phrase(
            "Re-entry, pre-harvest: not asked, no file of planned crews is named. Check the label."
        )
        found.append(NotAsked(phrase("re-entry, pre-harvest"), words))
    if not farm.places["kind"].isin(["house", "hive"]).any():
        words = phrase(
            "Houses: no house and no hive is drawn among the places, so none is kept away from."
        )
        found.append(NotAsked(phrase("houses"), words))
    return tuple(found)


def label_gates(farm: Farm, season: xr.Dataset, forecast: Forecast) -> Iterator[Gate]:
    """
    Ask the rules that the user's label sets.

    Parameters
    ----------
    farm : Farm
        Labels, crews and settings.
    season : xarray.Dataset
        With the diary's sprays.
    forecast : Forecast
        Of the blocks.

    Yields
    ------
    Gate
        For each material of the tank; closed where the label does not tell what a rule needs.
    """
    for material in planned(farm):
        label = next((one for one in farm.labels or () if one.material == material), None)
        if farm.labels is not None:
            yield from _uses(material, label, season, forecast)
        if farm.crews is not None and farm.crews.block.size:
            yield from _people(farm.crews, material, label, season, forecast)


def _rule(key: str, title: str, label: Label | None, limit: float, unit: str) -> Rule:
    standing = NO_ROW if label is None else NO_CELL if isnan(limit) else ON_THE_LABEL
    if label is not None and (label.country or label.label_date):
        told = ", ".join(str(part) for part in (label.country, label.label_date) if part)
        return Rule(key, title, limit, unit, f"{phrase_of(standing)} ({told})")
    return Rule(key, title, limit, unit, phrase_of(standing))


def _uses(
    material: str, label: Label | None, season: xr.Dataset, forecast: Forecast
) -> Iterator[Gate]:
    same = season["spray_material"].values.astype(str) == material
    block, hour = season["spray_block"].values[same], season["spray_hour"].values[same]
    blocks = season.sizes["block"]
    known = label or Label(material)
    rule = _rule(
        "season-maximum",
        phrase("Uses of {material} in a year", material=phrase_of(material)),
        label,
        known.season_maximum,
        "1",
    )
    yield at_most(rule, uses_with_this(block, hour, forecast.hour, block_count=blocks))
    rule = _rule(
        "interval",
        phrase("Days since {material} before", material=phrase_of(material)),
        label,
        known.minimum_interval_days,
        "d",
    )
    yield at_least(rule, days_since(block, hour, forecast.hour, block_count=blocks))


def _people(
    crews: Crews, material: str, label: Label | None, season: xr.Dataset, forecast: Forecast
) -> Iterator[Gate]:
    known, blocks = label or Label(material), season.sizes["block"]
    rule = _rule(
        "re-entry",
        phrase("Hours until a crew enters ({material})", material=phrase_of(material)),
        label,
        known.re_entry_hours,
        "h",
    )
    yield _where_planned(
        at_least(
            rule,
            hours_until_entry(
                crews.block, crews.start, crews.end, forecast.hour, block_count=blocks
            ),
        )
    )
    rule = _rule(
        "pre-harvest",
        phrase("Days until picking ({material})", material=phrase_of(material)),
        label,
        known.pre_harvest_days,
        "d",
    )
    picking = crews.is_picking
    yield _where_planned(
        at_least(
            rule,
            days_until_picking(
                crews.block[picking], crews.day[picking], forecast.day, block_count=blocks
            ),
        )
    )


def _where_planned(gate: Gate) -> Gate:
    """Return the gate open where nobody is planned: then there is nothing to know."""
    return Gate(gate.rule, gate.is_closed & np.isfinite(gate.value), gate.value)
