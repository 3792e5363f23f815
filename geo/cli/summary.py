"""What a run prints when it is done."""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from geo.cli.speech import CAUTION, days_told, pool_lines, print_paths
from geo.exports.farm_title import farm_title
from geo.rounds.open_words import open_words
from geo.rounds.order import CannotNow, SprayEntry, SprayOrder
from geo.scouting.order import ScoutingOrder
from geo.texts import phrase, phrase_of
from geo.texts.days import day_words, hour_words

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
    width = max(map(len, outcome.season.block.values.tolist()))
    days = days_told(outcome)
    typer.echo(
        phrase(
            "{farm}, {today}: hazard of {days}", farm=farm_title(farm), today=farm.today, days=days
        )
    )
    typer.echo("")
    place = {block: i for i, block in enumerate(outcome.season.block.values.tolist())}
    hours = open_words(outcome.windows, [place[entry.block] for entry in spray.entries])
    for line in (*_order_lines(spray, width=width), *hours, *_apart_lines(spray)):
        typer.echo(line)
    for line in (
        *_cannot_now_lines(spray.cannot_now, width=width),
        *(one.words for one in spray.not_asked),
    ):
        typer.echo(line)
    if spray.not_ranked:
        blocks = ", ".join(block.block for block in spray.not_ranked)
        count = len(spray.not_ranked)
        typer.echo(
            phrase(
                "Nothing ahead, or nothing known ({count}): {blocks}", count=count, blocks=blocks
            )
        )
    for line in (*_scouting_lines(scouting, width=width), *pool_lines(outcome.season), *plans):
        typer.echo(line)
    typer.echo("")
    for issue in farm.issues:
        typer.echo(str(issue), err=True)
    print_paths(paths)
    typer.echo("")
    level = phrase("Relative level: ratios and orders, no probabilities.")
    typer.echo(f"{level} {phrase_of(CAUTION)}")


def _scouting_lines(scouting: ScoutingOrder, *, width: int) -> Iterator[str]:
    """Return where to look first; hours only of blocks that have their own."""
    yield f"{phrase('Scout first.')} {scouting.when} {scouting.rule}"
    is_same = len({walk.when for walk in scouting.entries}) == 1
    for walk in scouting.entries[:SCOUTED_FIRST]:
        yield f"  {walk.rank:>2}. {walk.block:<{width}}  {walk.reason}"
        yield f"      {'':<{width}}  {walk.proof}{'' if is_same else ' ' + walk.when}"


def _order_lines(spray: SprayOrder, *, width: int) -> Iterator[str]:
    """Return the first blocks of the order: why, and what leaving them costs."""
    shown = spray.entries[:SHOWN_FIRST]
    yield phrase(
        "Spray order for {material}, first {count} of {all}:",
        material=phrase_of(spray.material),
        count=len(shown),
        all=len(spray.entries),
    )
    yield from spray.notes
    if any(entry.sprayer_hours is None for entry in shown):
        yield phrase("By loss for each hectare if a block waits until it is next open:")
    elif shown:
        yield phrase("By loss for each hour of sprayer if a block waits until it is next open:")
    for entry in shown:
        yield f"  {entry.rank:>2}. {entry.block:<{width}}  {entry.reason}"
        yield f"      {'':<{width}}  {entry.waiting}"
    within = [entry for entry in spray.entries if entry.is_within]
    if spray.hours_today is not None and any(e.is_within is not None for e in shown):
        yield _reach_words(spray.hours_today, within[-1] if within else None)


def _reach_words(hours: float, last: SprayEntry | None) -> str:
    if last is None:
        return phrase(
            "{hours:g} h of sprayer today reach no block; driving is not counted.", hours=hours
        )
    return phrase(
        "{hours:g} h of sprayer today reach to No. {rank}, {block}; driving is not counted.",
        hours=hours,
        rank=last.rank,
        block=last.block,
    )


def _apart_lines(spray: SprayOrder) -> Iterator[str]:
    """Return what is not worth a spray now."""
    if spray.not_worth:
        yield phrase("Not worth it now ({count}), no money reckoned:", count=len(spray.not_worth))
    width = max((len(rest.block) for rest in spray.not_worth), default=0)
    for rest in spray.not_worth[:SHOWN_FIRST]:
        yield f"      {rest.block:<{width}}  {rest.reason}"
    if len(spray.not_worth) > SHOWN_FIRST:
        yield _more(len(spray.not_worth) - SHOWN_FIRST)


def _cannot_now_lines(cannot_now: tuple[CannotNow, ...], *, width: int) -> Iterator[str]:
    if not cannot_now:
        return
    yield phrase(
        "Cannot now ({count}), closed by: {rules}; the label holds",
        count=len(cannot_now),
        rules=", ".join(dict.fromkeys(held.about or held.rule for held in cannot_now)),
    )
    for held in cannot_now[:CLOSED_FIRST]:
        value, limit = _measured_pair(held.value, held.limit, held.unit)
        clears = hour_words(held.clears) if held.clears else phrase("not within the forecast")
        told = phrase(
            "{rule}: {value} on {day}, limit {limit}; clears: {clears}",
            rule=held.about or held.rule,
            value=value,
            day=day_words(held.day),
            limit=limit,
            clears=clears,
        )
        yield f"      {held.block:<{width}}  {told}"
    if len(cannot_now) > CLOSED_FIRST:
        yield _more(len(cannot_now) - CLOSED_FIRST)


def _more(count: int) -> str:
    return "      " + phrase("and {count} more, in the spray order's file", count=count)


def _measured_pair(value: float | None, limit: float | None, unit: str) -> tuple[str, str]:
    """Return a value and its limit, with so many digits that the two do not look alike."""
    words = _measured(value, unit), _measured(limit, unit)
    if value != limit and words[0] == words[1]:
        return _measured(value, unit, decimals=2), words[1]
    return words


def _measured(value: float | None, unit: str, *, decimals: int = 1) -> str:
    if value is None:
        return phrase("not known")
    if unit == "degC":
        return f"{value:.{decimals}f} °C"
    return f"{value:.3g}" if unit == "1" else f"{value:.3g} {unit}"
