"""Today's spray order: the most hazardous first, and what a rule keeps out of it."""

import numpy as np
import xarray as xr

from geo.arrays import IntArray
from geo.ranking.comparison import compare
from geo.ranking.doubt import spread
from geo.ranking.layer import days_ahead
from geo.ranking.sentences import because
from geo.reference.number import numbers
from geo.rounds.order import CannotNow, SprayEntry, SprayOrder
from geo.season.farm import Farm
from geo.season.today import today_index
from geo.windows.sulfur_heat import HeatGate, sulfur_heat_gate

RULE = "sulfur-heat"
STANDARD_DEVIATIONS_OF_MIDDLE_80_PERCENT = 1.2816  # of the normal distribution, 0.9 quantile


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
        the order of hazard averted by the sprayer hour. Blocks of unknown hazard come last.
        A gate decides who is in the order, never where.
    """
    hazard = season.hazard_ahead.values
    order = np.argsort(-np.nan_to_num(hazard, nan=-1.0), kind="stable")
    reference = farm.settings.reference_block or _middle_block(season, order)
    gate = _gate(farm, season)
    blocks = season.block.values.tolist()
    today, ahead = today_index(season), days_ahead(season)
    open_blocks = [i for i in order if gate is None or not gate.is_closed[i, today]]
    closed_blocks = [i for i in order if gate is not None and gate.is_closed[i, today]]
    return SprayOrder(
        today=farm.today,
        horizon_days=ahead.stop - ahead.start,
        material=farm.settings.material,
        reference_block=reference,
        entries=tuple(
            _entry(farm, season, block=blocks[i], rank=rank, reference=reference)
            for rank, i in enumerate(open_blocks, start=1)
        ),
        cannot_now=tuple(
            _cannot_now(farm, season, gate, i) for i in closed_blocks if gate is not None
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
    if farm.settings.material != "sulfur":
        return None
    limit, _ = heat_limit(farm)
    days_after = int(numbers("spray_rules")["sulfur", "heat_days_after"].value)
    return sulfur_heat_gate(
        season.day_maximum_temperature.values, limit=limit, days_after=days_after
    )


def _middle_block(season: xr.Dataset, order: IntArray) -> str:
    """Return the block in the middle of the order, among those with a hazard at all."""
    some = [i for i in order if season.hazard_ahead.values[i] > 0]
    pick = some[len(some) // 2] if some else order[0]
    return str(season.block.values[pick])


def _entry(farm: Farm, season: xr.Dataset, *, block: str, rank: int, reference: str) -> SprayEntry:
    comparison = compare(season, block, reference)
    either_way = float(spread(season.doubt.sel(block=block).values))
    area = float(season.area.sel(block=block))
    hours = farm.settings.sprayer_hours_per_hectare
    is_known = not np.isnan(comparison.hazard)
    own_reason = f"This is the block that ratios are quoted against: {block}."
    reason = own_reason if block == reference else because(comparison)
    return SprayEntry(
        rank=rank,
        block=block,
        hazard=comparison.hazard,
        ratio=comparison.ratio,
        low=comparison.ratio / either_way,
        high=comparison.ratio * either_way,
        area=area,
        sprayer_hours=None if hours is None else area * hours,
        reason=reason if is_known else "Hazard not known: see the input report.",
    )


def _cannot_now(farm: Farm, season: xr.Dataset, gate: HeatGate, block: int) -> CannotNow:
    limit, standing = heat_limit(farm)
    today = today_index(season)
    days = season.day.values.astype("datetime64[D]")
    closing_day = days[0] + int(gate.closing_day[block, today])
    value = float(gate.closing_value[block, today])
    open_days = np.flatnonzero(~gate.is_closed[block, today:])
    clears = (days[today] + int(open_days[0])).item() if open_days.size else None
    if np.isnan(value):
        reason = f"Sulfur: no forecast for {closing_day}, and unknown is closed."
    else:
        reason = (
            f"Sulfur: {value:.1f} °C forecast for {closing_day}, the limit is {limit:.1f} °C "
            "on the day of the spray and the three days after."
        )
    when = f"Open again from {clears}." if clears else "Not open again within the forecast."
    return CannotNow(
        block=str(season.block.values[block]),
        hazard=float(season.hazard_ahead.values[block]),
        rule=RULE,
        day=closing_day.item(),
        value=None if np.isnan(value) else value,
        limit=limit,
        unit="degC",
        standing=standing,
        clears=clears,
        reason=f"{reason} {when}",
    )
