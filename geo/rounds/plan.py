"""Today's spray order: the most hazardous first, and what a rule keeps out of it."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.ranking.comparison import Comparison, ranked
from geo.ranking.doubt import spread
from geo.ranking.layer import days_ahead
from geo.ranking.sentences import because
from geo.rounds.held import held_block
from geo.rounds.order import NotRanked, SprayEntry, SprayOrder
from geo.season.farm import Farm
from geo.windows.gate import open_run
from geo.windows.open_hours import Windows


def plan_spray_order(farm: Farm, season: xr.Dataset, windows: Windows) -> SprayOrder:
    """
    Return today's spray order.

    Parameters
    ----------
    farm : Farm
        For the settings.
    season : xarray.Dataset
        Ranked.
    windows : Windows
        The rules' verdict on each block and hour.

    Returns
    -------
    SprayOrder
        Blocks by the mean hazard index over the days ahead. Since a hectare takes the same
        sprayer time everywhere and the same material the same share of the hazard, that is also
        the order of hazard averted by the sprayer hour. Blocks without a hazard, or without a
        known one, are not ranked. A gate decides who is in the order, never where: a block without
        enough open hours in a row on the day stands among those that cannot be sprayed now.
    """
    hazard = season.hazard_ahead.values
    order = np.argsort(-np.nan_to_num(hazard, nan=-1.0), kind="stable")
    has_hazard = hazard[order] > 0
    some, none = order[has_hazard], order[~has_hazard]
    reference = farm.settings.reference_block or _middle_block(season, order)
    needed = _hours_needed(farm, season)
    run = _runs_of_day(windows)
    is_held = run.max(axis=1, initial=0) < needed
    blocks = season.block.values.tolist()
    ahead = days_ahead(season)
    open_blocks = some[~is_held[some]]
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
            replace(
                _entry(
                    farm,
                    comparing.compare(blocks[i], reference),
                    rank=rank,
                    area=float(area[i]),
                    doubts=(float(doubt[i]), beside),
                ),
                **_stretch(windows, run[i], int(i), needed=int(needed[i])),
            )
            for rank, i in zip(_ranks(hazard[open_blocks]), open_blocks, strict=True)
        ),
        cannot_now=tuple(
            held_block(
                farm,
                windows,
                place=int(i),
                block=blocks[i],
                hazard=float(hazard[i]),
                needed=int(needed[i]),
            )
            for i in some[is_held[some]]
        ),
        not_ranked=tuple(
            NotRanked(blocks[i], because(comparing.compare(blocks[i], reference))) for i in none
        ),
    )


def _hours_needed(farm: Farm, season: xr.Dataset) -> IntArray:
    """Return how many open hours in a row each block takes: one where that is not given."""
    hours = season["area"].values * (farm.settings.sprayer_hours_per_hectare or 0.0)
    return np.maximum(np.ceil(hours), 1.0).astype(np.int64)


def _runs_of_day(windows: Windows) -> IntArray:
    """Return the open hours in a row from each hour left of the day, which end with it."""
    return open_run(windows.is_closed[:, : windows.hours_of_day])


def _stretch(windows: Windows, run: IntArray, block: int, *, needed: int) -> dict[str, Any]:
    """Return the first stretch that is long enough, and what warns in it."""
    first = int((run >= needed).argmax())
    last = first + int(run[first])
    cautions = tuple(
        gate.rule.title
        for gate in windows.gates
        if gate.rule.is_caution and gate.of_block(gate.is_closed, block)[first:last].any()
    )
    return {
        "open_from": windows.start[first].replace(tzinfo=None),
        "open_until": windows.start[last - 1].replace(tzinfo=None) + timedelta(hours=1),
        "cautions": cautions,
    }


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
