"""What the command line says: progress, the factor table, paths, and failure in words."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

import typer
from rich.console import Console

from geo.errors import InputError
from geo.texts import mark, phrase, phrase_of

if TYPE_CHECKING:
    import xarray as xr

    from geo.pipeline import Outcome

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
