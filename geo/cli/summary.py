"""What a run prints when it is done."""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from geo.cli.speech import CAUTION, days_told, pool_lines, print_paths
from geo.rounds.open_words import open_words
from geo.rounds.order import CannotNow, SprayOrder
from geo.scouting.order import ScoutingOrder

if TYPE_CHECKING:
    from geo.pipeline import Outcome

SHOWN_FIRST, CLOSED_FIRST, SCOUTED_FIRST = 5, 8, 3


def print_summary(outcome: "Outcome", paths: dict[str, Path], *, plans: Iterable[str] = ()) -> None:
    """
    Print the top blocks, why, what cannot be sprayed, and where the files are.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    paths : dict of str to pathlib.Path
        What was written.
    plans : iterable of str
        Lines about the round and the walk.
    """
    farm, spray, scouting = outcome.farm, outcome.spray, outcome.scouting
    made = " (made scenario)" if farm.is_made else ""
    width = max(map(len, outcome.season.block.values.tolist()))
    typer.echo(f"{farm.name}{made}, {farm.today}: hazard of {days_told(outcome)}")
    typer.echo("")
    place = {block: i for i, block in enumerate(outcome.season.block.values.tolist())}
    hours = open_words(outcome.windows, [place[entry.block] for entry in spray.entries])
    for line in (*_order_lines(spray, width=width), *hours, *_apart_lines(spray)):
        typer.echo(line)
    for line in (*_cannot_now_lines(spray.cannot_now, width=width), *spray.not_asked):
        typer.echo(line)
    if spray.not_ranked:
        blocks = ", ".join(block.block for block in spray.not_ranked)
        typer.echo(f"Nothing ahead, or nothing known ({len(spray.not_ranked)}): {blocks}")
    for line in (*_scouting_lines(scouting, width=width), *pool_lines(outcome.season), *plans):
        typer.echo(line)
    typer.echo("")
    for issue in farm.issues:
        typer.echo(str(issue), err=True)
    print_paths(paths)
    typer.echo("")
    typer.echo(f"Relative level: ratios and orders, no probabilities. {CAUTION}")


def _scouting_lines(scouting: ScoutingOrder, *, width: int) -> Iterator[str]:
    """Return where to look first; hours only of blocks that have their own."""
    yield f"Scout first. {scouting.when} {scouting.rule}"
    is_same = len({walk.when for walk in scouting.entries}) == 1
    for walk in scouting.entries[:SCOUTED_FIRST]:
        yield f"  {walk.rank:>2}. {walk.block:<{width}}  {walk.reason}"
        yield f"      {'':<{width}}  {walk.proof}{'' if is_same else ' ' + walk.when}"


def _order_lines(spray: SprayOrder, *, width: int) -> Iterator[str]:
    """Return the first blocks of the order: why, and what leaving them costs."""
    shown = spray.entries[:SHOWN_FIRST]
    per = "hectare" if any(e.sprayer_hours is None for e in shown) else "hour of sprayer"
    yield f"Spray order for {spray.material}, first {len(shown)} of {len(spray.entries)}:"
    yield from spray.notes
    if shown:
        yield f"By loss for each {per} if a block waits until it is next open:"
    for entry in shown:
        yield f"  {entry.rank:>2}. {entry.block:<{width}}  {entry.reason}"
        yield f"      {'':<{width}}  {entry.waiting}"
    within = [entry for entry in spray.entries if entry.is_within]
    if spray.hours_today is not None and any(e.is_within is not None for e in shown):
        reach = f"to No. {within[-1].rank}, {within[-1].block}" if within else "no block"
        yield f"{spray.hours_today:g} h of sprayer today reach {reach}; driving is not counted."


def _apart_lines(spray: SprayOrder) -> Iterator[str]:
    """Return what is not worth a spray now."""
    if spray.not_worth:
        yield f"Not worth it now ({len(spray.not_worth)}), no money reckoned:"
    width = max((len(rest.block) for rest in spray.not_worth), default=0)
    for rest in spray.not_worth[:SHOWN_FIRST]:
        yield f"      {rest.block:<{width}}  {rest.reason}"
    if len(spray.not_worth) > SHOWN_FIRST:
        yield f"      and {len(spray.not_worth) - SHOWN_FIRST} more, in the spray order's file"


def _cannot_now_lines(cannot_now: tuple[CannotNow, ...], *, width: int) -> Iterator[str]:
    if not cannot_now:
        return
    rules = ", ".join(dict.fromkeys(held.rule for held in cannot_now))
    yield f"Cannot now ({len(cannot_now)}), closed by: {rules}; the label holds"
    for held in cannot_now[:CLOSED_FIRST]:
        value, limit = _measured_pair(held.value, held.limit, held.unit)
        clears = f"{held.clears:%Y-%m-%d %H:%M}" if held.clears else "not within the forecast"
        yield (
            f"      {held.block:<{width}}  {held.rule}: {value} on {held.day}, limit {limit}; "
            f"clears: {clears}"
        )
    if len(cannot_now) > CLOSED_FIRST:
        yield f"      and {len(cannot_now) - CLOSED_FIRST} more, in the spray order's file"


def _measured_pair(value: float | None, limit: float | None, unit: str) -> tuple[str, str]:
    """Return a value and its limit, with so many digits that the two do not look alike."""
    words = _measured(value, unit), _measured(limit, unit)
    if value != limit and words[0] == words[1]:
        return _measured(value, unit, decimals=2), words[1]
    return words


def _measured(value: float | None, unit: str, *, decimals: int = 1) -> str:
    if value is None:
        return "not known"
    if unit == "degC":
        return f"{value:.{decimals}f} °C"
    return f"{value:.3g}" if unit == "1" else f"{value:.3g} {unit}"
