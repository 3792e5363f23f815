"""What the command line says: progress, the factor table, paths, and failure in words."""

import sys
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
from geo.texts import mark, phrase, phrase_of

if TYPE_CHECKING:
    import xarray as xr

    from geo.pipeline import Outcome
    from geo.pipeline.run import Orders
    from geo.season.farm import Farm

POOL_SIZES = {
    "pool_full_strength": mark(
        "full strength {size:.2g} K ({low:.2g} to {high:.2g}, {share:.0%} of it assumed)"
    ),
    "pool_scale_depth": mark(
        "scale depth {size:.2g} m ({low:.2g} to {high:.2g}, {share:.0%} of it assumed)"
    ),
}
FAILED = 2
PARTIAL = 3  # used, and something of it was set aside
CAUTION = mark(
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
    console = Console(file=getattr(sys.stderr, "commanded", sys.stderr))
    started = monotonic()
    with console.status(phrase("starting")) as status:

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


def print_paths(paths: dict[str, Path]) -> None:
    """
    Print what was written, and where.

    Parameters
    ----------
    paths : dict of str to pathlib.Path
        What each file is for.
    """
    told = {phrase_of(what): path for what, path in paths.items()}
    width = max(map(len, told), default=0) + 1
    for what, path in told.items():
        typer.echo(f"{what + ':':<{width}} {path}")


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
        phrase_of(
            words,
            size=float(season[name]),
            low=float(season[f"{name}_low"]),
            high=float(season[f"{name}_high"]),
            share=float(season[f"{name}_prior_share"]),
        )
        for name, words in POOL_SIZES.items()
    ]
    yield phrase(
        "Cool pools fitted to {count} loggers: {sizes}",
        count=season.sizes["logger"],
        sizes="; ".join(sizes),
    )


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
    yield phrase(
        "{block} against {other}: mean hazard index of {days}",
        block=block,
        other=other,
        days=days_told(outcome),
    )
    if comparison.disease.key != outcome.farm.settings.disease:
        yield phrase("Of {disease}.", disease=phrase_of(comparison.disease.name))
    yield ""
    names = [phrase_of(row.factor.name) for row in comparison.rows]
    total = phrase("all together")
    first = max(17, *map(len, names), len(total)) + 1
    yield (
        f"{phrase('factor'):<{first}}{block:>{width}}{other:>{width}}{phrase('ratio'):>12}"
        f"{phrase('share'):>8}  {phrase('standing')}"
    )
    for name, row in zip(names, comparison.rows, strict=True):
        yield (
            f"{name:<{first}}{row.value:>#{width}.4g}{row.other:>#{width}.4g}"
            f"{_ratio(row.ratio, digits=5):>12}{_share(row.share):>8}  {phrase_of(row.standing)}"
        )
    has_shares = any(not isnan(row.share) for row in comparison.rows)
    yield (
        f"{total:<{first}}{comparison.hazard:>#{width}.4g}"
        f"{comparison.against_hazard:>#{width}.4g}{_ratio(comparison.ratio, digits=4):>12}"
        f"{_share(1.0 if has_shares else nan):>8}"
    )
    yield ""
    yield phrase(
        "The ratios multiply to the last one; shares are of the difference, as logarithms."
    )


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
            yield phrase(
                "{block}. Scouting order no. {rank}. {reason} {proof} {when}",
                block=walk.block,
                rank=walk.rank,
                reason=walk.reason,
                proof=walk.proof,
                when=walk.when,
            )


def _ratio(ratio: float, *, digits: int) -> str:
    return phrase("no ratio") if isnan(ratio) else f"{ratio:#.{digits}g}"


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
    if days == 1:
        return f"{first}"
    return phrase("{first} to {last}", first=first, last=first + timedelta(days=days - 1))


def named(farm: "Farm") -> str:
    """
    Return a farm's name as it heads what is printed.

    Parameters
    ----------
    farm : Farm
        The farm.

    Returns
    -------
    str
        A made scenario says that it is one.
    """
    return phrase("{farm} (made scenario)", farm=farm.name) if farm.is_made else farm.name
