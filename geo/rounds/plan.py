"""Today's spray order: the most hazardous first, and what a rule keeps out of it."""

from datetime import timedelta

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.ranking.comparison import Comparison, ranked
from geo.ranking.doubt import spread
from geo.ranking.layer import days_ahead
from geo.ranking.sentences import because
from geo.reference.number import numbers
from geo.rounds.order import CannotNow, NotRanked, SprayEntry, SprayOrder
from geo.season.farm import Farm
from geo.windows.sulfur_heat import HeatGate, sulfur_heat_gate

RULE = "sulfur-heat"


def plan_spray_order(farm: Farm, season: xr.Dataset) -> SprayOrder:
    """
    Return today's spray order.

    Parameters
    ----------
    farm : Farm
        For the settings.
    season : xarray.Dataset
        Ranked.

    Returns
    -------
    SprayOrder
        Blocks by the mean hazard index over the days ahead. Since a hectare takes the same
        sprayer time everywhere and the same material the same share of the hazard, that is also
        the order of hazard averted by the sprayer hour. Blocks without a hazard, or without a
        known one, are not ranked. A gate decides who is in the order, never where.
    """
    hazard = season.hazard_ahead.values
    order = np.argsort(-np.nan_to_num(hazard, nan=-1.0), kind="stable")
    has_hazard = hazard[order] > 0
    some, none = order[has_hazard], order[~has_hazard]
    reference = farm.settings.reference_block or _middle_block(season, order)
    gate = _gate(farm, season)
    blocks = season.block.values.tolist()
    ahead = days_ahead(season)
    is_closed = np.zeros(hazard.size, dtype=bool) if gate is None else gate.is_closed[:, 0]
    open_blocks = some[~is_closed[some]]
    comparing = ranked(season)
    doubt, area = season.doubt.values, season.area.values
    beside = float(doubt[comparing.place[reference]])
    return SprayOrder(
        today=farm.today,
        first_day=season.day.values[ahead.start].astype("datetime64[D]").item(),
        horizon_days=ahead.stop - ahead.start,
        material=farm.settings.material,
        reference_block=reference,
        entries=tuple(
            _entry(
                farm,
                comparing.compare(blocks[i], reference),
                rank=rank,
                area=float(area[i]),
                doubts=(float(doubt[i]), beside),
            )
            for rank, i in zip(_ranks(hazard[open_blocks]), open_blocks, strict=True)
        ),
        cannot_now=tuple(
            _cannot_now(farm, season, gate, i) for i in some[is_closed[some]] if gate is not None
        ),
        not_ranked=tuple(
            NotRanked(blocks[i], because(comparing.compare(blocks[i], reference))) for i in none
        ),
    )


def heat_limit(farm: Farm) -> tuple[float, str]:
    """
    Return the heat limit for sulfur that holds on this farm, and where it comes from.

    Parameters
    ----------
    farm : Farm
        The user may have set a limit, with a reason.

    Returns
    -------
    float
        [degC] The limit.
    str
        In words.
    """
    settings = farm.settings
    if settings.sulfur_limit is not None:
        return settings.sulfur_limit, f"set by the user: {settings.sulfur_limit_reason}"
    rule = numbers("spray_rules")["sulfur", "heat_limit"]
    return rule.value, f"{rule.where}; {rule.note}"


def _gate(farm: Farm, season: xr.Dataset) -> HeatGate | None:
    """Return the heat rule for today, in column 0, and the known days after it."""
    if farm.settings.material != "sulfur":
        return None
    limit, _ = heat_limit(farm)
    days_after = int(numbers("spray_rules")["sulfur", "heat_days_after"].value)
    is_ahead = season.day.values.astype("datetime64[D]") >= np.datetime64(farm.today)
    maximum = season.day_maximum_temperature.values[:, is_ahead]
    if not is_ahead.any():  # no forecast: today itself is unknown
        maximum = np.full((season.sizes["block"], 1), np.nan)
    return sulfur_heat_gate(maximum, limit=limit, days_after=days_after)


def _ranks(hazard: FloatArray) -> list[int]:
    """Return the rank of each hazard, given from the largest down: equal ones share a rank."""
    first_with_it = np.searchsorted(-hazard, -hazard, side="left")
    return [int(place) + 1 for place in first_with_it]


def _middle_block(season: xr.Dataset, order: IntArray) -> str:
    """Return the block in the middle of the order, among those with a hazard at all."""
    some = [i for i in order if season.hazard_ahead.values[i] > 0]
    pick = some[len(some) // 2] if some else order[0]
    return str(season.block.values[pick])


def _entry(
    farm: Farm, comparison: Comparison, *, rank: int, area: float, doubts: tuple[float, float]
) -> SprayEntry:
    block, reference = comparison.block, comparison.against
    either_way = 1.0 if block == reference else float(spread(np.hypot(*doubts)))
    hours = farm.settings.sprayer_hours_per_hectare
    own_reason = f"This is the block that ratios are quoted against: {block}."
    return SprayEntry(
        rank=rank,
        block=block,
        hazard=comparison.hazard,
        ratio=comparison.ratio,
        low=comparison.ratio / either_way,
        high=comparison.ratio * either_way,
        area=area,
        sprayer_hours=None if hours is None else area * hours,
        reason=own_reason if block == reference else because(comparison),
    )


def _cannot_now(farm: Farm, season: xr.Dataset, gate: HeatGate, block: int) -> CannotNow:
    limit, standing = heat_limit(farm)
    closing_day = farm.today + timedelta(days=int(gate.closing_day[block, 0]))
    value = float(gate.closing_value[block, 0])
    open_days = np.flatnonzero(~gate.is_closed[block])
    clears = farm.today + timedelta(days=int(open_days[0])) if open_days.size else None
    if np.isnan(value):
        reason = f"Sulfur: no forecast for {closing_day}, and unknown is closed."
    else:
        reason = (
            f"Sulfur: {value:.1f} °C forecast for {closing_day}, at or above the limit of "
            f"{limit:.1f} °C on the day of the spray and the three days after."
        )
    when = f"Open again from {clears}." if clears else "Not open again within the forecast."
    return CannotNow(
        block=str(season.block.values[block]),
        hazard=float(season.hazard_ahead.values[block]),
        rule=RULE,
        day=closing_day,
        value=None if np.isnan(value) else value,
        limit=limit,
        unit="degC",
        standing=standing,
        clears=clears,
        reason=f"{reason} {when}",
    )
