"""Today's spray order: what is lost if a block is left, and what a rule keeps out of the order."""

from dataclasses import dataclass, replace

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.ranking.comparison import Comparison, Ranked, ranked
from geo.ranking.doubt import spread
from geo.ranking.layer import days_ahead
from geo.ranking.sentences import because
from geo.ranking.spray_words import reapply_line
from geo.rounds.day_notes import day_notes
from geo.rounds.held import held_block
from geo.rounds.hours import hours_today, reached, sprayer_hours
from geo.rounds.loss import Loss, avoidable_loss
from geo.rounds.loss_words import not_worth_words, waiting_words
from geo.rounds.order import CannotNow, NotRanked, NotWorth, SprayEntry, SprayOrder
from geo.rounds.slots import Slots, slots_of
from geo.season.farm import Farm
from geo.season.looked_up import LookedUp
from geo.texts import phrase
from geo.windows.ask_material import planned
from geo.windows.open_hours import Windows


@dataclass(frozen=True, slots=True)
class _Day:
    """All that the lists of a day are drawn up from."""

    farm: Farm
    season: xr.Dataset
    slots: Slots
    loss: Loss
    hours: FloatArray | None
    comparing: Ranked
    reference: str


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
        Blocks by what leaving them until their next open hours costs, for each hour of sprayer; of
        equal ones the more hazardous first. Driving is no part of it. Blocks without a hazard, or
        without a known one, are not ranked; those that a spray today would hardly help stand
        apart. A gate decides who is in the order: a block without enough open hours in a row on
        the day stands among those that cannot be sprayed now.
    """
    season = LookedUp(season)
    hazard = season.hazard_ahead.values
    by_hazard = np.argsort(-np.nan_to_num(hazard, nan=-1.0), kind="stable")
    has_hazard = hazard[by_hazard] > 0
    some, none = by_hazard[has_hazard], by_hazard[~has_hazard]
    hours = sprayer_hours(farm, season)
    slots = slots_of(windows, hours)
    start, end = slots.span()
    day = _Day(
        farm=farm,
        season=season,
        slots=slots,
        loss=avoidable_loss(farm, season, start=start, end=end),
        hours=hours,
        comparing=ranked(season),
        reference=farm.settings.reference_block or _middle_block(season, some, by_hazard),
    )
    is_open = slots.is_open[some]
    not_worth = _not_worth(day, some[is_open])
    worth = np.array([i for i in some[is_open] if i not in not_worth], dtype=np.int64)
    blocks = season.block.values.tolist()
    ahead = days_ahead(season)
    return SprayOrder(
        today=farm.today,
        first_day=season.day.values[ahead.start].astype("datetime64[D]").item(),
        horizon_days=ahead.stop - ahead.start,
        material=farm.settings.material,
        reference_block=day.reference,
        entries=_entries(day, worth),
        cannot_now=tuple(_held(day, int(i)) for i in some[~is_open]),
        not_ranked=tuple(
            NotRanked(blocks[i], because(day.comparing.compare(blocks[i], day.reference)))
            for i in none
        ),
        not_worth=tuple(not_worth.values()),
        not_asked=windows.not_asked,
        notes=day_notes(farm, windows),
        hours_today=hours_today(farm),
    )


def _middle_block(season: xr.Dataset, some: IntArray, by_hazard: IntArray) -> str:
    """Return the block in the middle by hazard, among those with a hazard at all."""
    pick = some[len(some) // 2] if some.size else by_hazard[0]
    return str(season.block.values[pick])


def _held(day: _Day, place: int) -> CannotNow:
    return held_block(
        day.farm,
        day.slots.windows,
        place=place,
        block=str(day.season.block.values[place]),
        hazard=float(day.season.hazard_ahead.values[place]),
        needed=int(day.slots.needed[place]),
    )


def _not_worth(day: _Day, places: IntArray) -> dict[int, NotWorth]:
    """Return those of some blocks that a spray today would hardly help, by their place."""
    line, materials = reapply_line(day.season), planned(day.farm)
    found = {}
    for place in places.tolist():
        next_window = day.slots.next_window(place)
        avoidable = float(day.loss.avoidable[1, place])
        protection = float(day.loss.least_protection[place])
        words = not_worth_words(
            avoidable=avoidable,
            unsprayed=float(day.loss.unsprayed[place]),
            protection=protection,
            line=line,
            materials=materials,
            disease=day.comparing.disease,
            next_window=next_window,
            end=day.slots.end_of_forecast(),
        )
        if words:
            block, hazard = str(day.season.block.values[place]), day.comparing.hazard[place]
            found[place] = NotWorth(block, float(hazard), avoidable, protection, next_window, words)
    return found


def _entries(day: _Day, places: IntArray) -> tuple[SprayEntry, ...]:
    """Return some blocks by loss for each hour, or for each hectare where hours are not known."""
    each = day.season.area.values if day.hours is None else day.hours
    # As printed: what differs by less is a tie.
    per_hour = np.array([float(f"{one:.6g}") for one in (day.loss.avoidable[1] / each)[places]])
    blocks, hazard = day.season.block.values[places], day.comparing.hazard[places]
    order = np.lexsort((blocks, -hazard, -per_hour))
    ranks = np.searchsorted(-per_hour[order], -per_hour[order], side="left") + 1
    entries = tuple(
        _entry(day, int(places[i]), rank=int(rank), per_hour=float(per_hour[i]))
        for i, rank in zip(order, ranks, strict=True)
    )
    total = hours_today(day.farm)
    if total is None or day.hours is None:
        return entries
    within = reached(day.hours[places[order]], total).tolist()
    return tuple(
        replace(entry, is_within=is_within)
        for entry, is_within in zip(entries, within, strict=True)
    )


def _entry(day: _Day, place: int, *, rank: int, per_hour: float) -> SprayEntry:
    comparison = day.comparing.compare(str(day.season.block.values[place]), day.reference)
    low, expected, high = day.loss.avoidable[:, place].tolist()
    next_window = day.slots.next_window(place)
    either_way = _either_way(day, comparison)
    entry = SprayEntry(
        rank=rank,
        block=comparison.block,
        hazard=comparison.hazard,
        ratio=comparison.ratio,
        low=comparison.ratio / either_way,
        high=comparison.ratio * either_way,
        area=float(day.season.area.values[place]),
        sprayer_hours=None if day.hours is None else float(day.hours[place]),
        reason=_reason(comparison),
        avoidable=expected,
        avoidable_low=low,
        avoidable_high=high,
        per_hour=per_hour,
        next_window=next_window,
        waiting=waiting_words(
            (low, expected, high),
            per_hour=None if day.hours is None else per_hour,
            next_window=next_window,
            end=day.slots.end_of_forecast(),
        ),
    )
    return replace(entry, **day.slots.stretch(place))


def _either_way(day: _Day, comparison: Comparison) -> float:
    """Return by how much the ratio of two blocks may be off either way."""
    if comparison.block == comparison.against:
        return 1.0
    doubt, place = day.season.doubt.values, day.comparing.place
    both = np.hypot(doubt[place[comparison.block]], doubt[place[comparison.against]])
    return float(spread(both))


def _reason(comparison: Comparison) -> str:
    if comparison.block == comparison.against:
        return phrase(
            "This is the block that ratios are quoted against: {block}.", block=comparison.block
        )
    return because(comparison)
