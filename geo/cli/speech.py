"""What the command line says: progress, the summary, the factor table, and failure in words."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from math import isnan, nan
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

import typer
from rich.console import Console

from geo.errors import InputError
from geo.ranking.comparison import Comparison
from geo.rounds.order import CannotNow, SprayOrder

if TYPE_CHECKING:
    import xarray as xr

    from geo.pipeline import Outcome
    from geo.pipeline.run import Orders

FAILED = 2
SHOWN_FIRST, CLOSED_FIRST, SCOUTED_FIRST = 5, 8, 3
CAUTION = (
    "Planning aid. The label is the law; local registration and codes hold; a licensed "
    "applicator decides. Check wind, inversion and people on site."
)


@contextmanager
def progress() -> Iterator[Callable[[str], None]]:
    """
    Show what is being worked on, on a terminal only, and leave no trace of it behind.

    Yields
    ------
    callable
        Told each step.
    """
    console = Console(stderr=True)
    started = monotonic()
    with console.status("starting") as status:

        def say(step: str) -> None:
            status.update(f"{step} · {monotonic() - started:.0f} s")

        yield say


def fail(error: InputError) -> typer.Exit:
    """
    Print each fault as one line and return the exit to raise.

    Parameters
    ----------
    error : InputError
        What was found.

    Returns
    -------
    typer.Exit
        With a code of its own.
    """
    for issue in error.issues:
        typer.echo(str(issue), err=True)
    return typer.Exit(FAILED)


def print_summary(outcome: "Outcome", paths: dict[str, Path]) -> None:
    """
    Print the top blocks, why, what cannot be sprayed, and where the files are.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    paths : dict of str to pathlib.Path
        What was written.
    """
    farm, spray, scouting = outcome.farm, outcome.spray, outcome.scouting
    made = " (made scenario)" if farm.is_made else ""
    width = max(map(len, outcome.season.block.values.tolist()))
    typer.echo(f"{farm.name}{made}, {farm.today}: hazard of {days_told(outcome)}")
    typer.echo("")
    for line in (*_order_lines(spray, width=width), *_apart_lines(spray)):
        typer.echo(line)
    for line in (*_cannot_now_lines(spray.cannot_now, width=width), *spray.not_asked):
        typer.echo(line)
    if spray.not_ranked:
        blocks = ", ".join(block.block for block in spray.not_ranked)
        typer.echo(f"Nothing ahead, or nothing known ({len(spray.not_ranked)}): {blocks}")
    typer.echo(f"Scout first. {scouting.when}")
    for walk in scouting.entries[:SCOUTED_FIRST]:
        typer.echo(
            f"  {walk.rank:>2}. {walk.block:<{width}}  {walk.reason} {walk.proof} {walk.when}"
        )
    for line in pool_lines(outcome.season):
        typer.echo(line)
    typer.echo("")
    for issue in farm.issues:
        typer.echo(str(issue), err=True)
    for what, path in paths.items():
        typer.echo(f"{what + ':':<17}{path}")
    typer.echo("")
    typer.echo(f"Relative level: ratios and orders, no probabilities. {CAUTION}")


def pool_lines(season: "xr.Dataset") -> Iterator[str]:
    """
    Return what the farm's own loggers say of its cool pools.

    Parameters
    ----------
    season : xarray.Dataset
        With the pools' size.

    Yields
    ------
    str
        One line, or none where no logger had a say.
    """
    strength, depth = season.pool_full_strength_prior_share, season.pool_scale_depth_prior_share
    if float(strength) == float(depth) == 1.0:
        return
    sizes = [
        f"{words} {float(season[name]):.2g} {unit} ({float(season[f'{name}_low']):.2g} to "
        f"{float(season[f'{name}_high']):.2g}, {float(season[f'{name}_prior_share']):.0%} of it "
        "assumed)"
        for name, words, unit in (
            ("pool_full_strength", "full strength", "K"),
            ("pool_scale_depth", "scale depth", "m"),
        )
    ]
    yield f"Cool pools fitted to {season.sizes['logger']} loggers: {'; '.join(sizes)}"


def factor_lines(comparison: Comparison, outcome: "Outcome") -> Iterator[str]:
    """
    Return the factor table as lines of text.

    Parameters
    ----------
    comparison : Comparison
        The two blocks.
    outcome : Outcome
        For the days looked at.

    Yields
    ------
    str
        Ratios to five significant digits, so that their product is the printed total.
    """
    block, other = comparison.block, comparison.against
    width = max(9, len(block), len(other)) + 1
    yield f"{block} against {other}: mean hazard index of {days_told(outcome)}"
    if comparison.disease.key != outcome.farm.settings.disease:
        yield f"Of {comparison.disease.name}."
    yield ""
    yield f"{'factor':<18}{block:>{width}}{other:>{width}}{'ratio':>12}{'share':>8}  standing"
    for row in comparison.rows:
        yield (
            f"{row.factor.name:<18}{row.value:>#{width}.4g}{row.other:>#{width}.4g}"
            f"{_ratio(row.ratio, digits=5):>12}{_share(row.share):>8}  {row.standing}"
        )
    has_shares = any(not isnan(row.share) for row in comparison.rows)
    yield (
        f"{'all together':<18}{comparison.hazard:>#{width}.4g}"
        f"{comparison.against_hazard:>#{width}.4g}{_ratio(comparison.ratio, digits=4):>12}"
        f"{_share(1.0 if has_shares else nan):>8}"
    )
    yield ""
    yield "The ratios multiply to the last one; shares are of the difference, as logarithms."


def block_lines(orders: "Orders", season: "xr.Dataset", names: list[str]) -> Iterator[str]:
    """
    Return what is said of single blocks: their ground, spores, sprays, and a look at them.

    Parameters
    ----------
    orders : Orders
        Of the day, for the disease.
    season : xarray.Dataset
        Of the disease.
    names : list of str
        Ids of the blocks.

    Yields
    ------
    str
        Lines that begin with the block.
    """
    from geo.ranking.arrival_words import arrival_words
    from geo.ranking.ground import ground_words
    from geo.ranking.spray_words import spray_words

    places = [season.block.values.tolist().index(name) for name in names]
    for name, place in zip(names, places, strict=True):
        for words in (ground_words(season, place), arrival_words(season, place)):
            if words:
                yield f"{name}. {words}"
    for name, words in zip(names, spray_words(season, places), strict=True):
        yield f"{name}. {words}"
    for walk in orders.scouting.entries:
        if walk.block in names:
            told = f"{walk.reason} {walk.proof} {walk.when}"
            yield f"{walk.block}. Scouting order no. {walk.rank}. {told}"


def _ratio(ratio: float, *, digits: int) -> str:
    return "no ratio" if isnan(ratio) else f"{ratio:#.{digits}g}"


def _share(share: float) -> str:
    return "" if isnan(share) else f"{round(share * 100) + 0}%"


def days_told(outcome: "Outcome") -> str:
    """
    Return the days the hazard is a mean of: fewer than wished where weather is not known.

    Parameters
    ----------
    outcome : Outcome
        What was decided.

    Returns
    -------
    str
        The first, or the first and the last.
    """
    first, days = outcome.spray.first_day, outcome.spray.horizon_days
    return f"{first}" if days == 1 else f"{first} to {first + timedelta(days=days - 1)}"


def _measured(value: float | None, unit: str) -> str:
    if value is None:
        return "not known"
    if unit == "degC":
        return f"{value:.1f} °C"
    return f"{value:.3g}" if unit == "1" else f"{value:.3g} {unit}"


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
        value, limit = (_measured(number, held.unit) for number in (held.value, held.limit))
        clears = f"{held.clears:%Y-%m-%d %H:%M}" if held.clears else "not within the forecast"
        yield (
            f"      {held.block:<{width}}  {held.rule}: {value} on {held.day}, limit {limit}; "
            f"clears: {clears}"
        )
    if len(cannot_now) > CLOSED_FIRST:
        yield f"      and {len(cannot_now) - CLOSED_FIRST} more, in the spray order's file"
