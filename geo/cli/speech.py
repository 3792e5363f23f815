"""What the command line says: progress, the summary, the factor table, and failure in words."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

import typer
from rich.console import Console

from geo.errors import InputError
from geo.ranking.comparison import Comparison
from geo.ranking.sentences import times

if TYPE_CHECKING:
    from geo.pipeline import Outcome

FAILED = 2
SHOWN_FIRST = 5
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
    typer.echo(f"{farm.name}{made}, {farm.today}, next {spray.horizon_days} days")
    typer.echo("")
    typer.echo(f"Spray order for {spray.material}, first {SHOWN_FIRST} of {len(spray.entries)}:")
    for entry in spray.entries[:SHOWN_FIRST]:
        typer.echo(f"  {entry.rank:>2}. {entry.block:<6} {entry.reason}")
    if spray.cannot_now:
        typer.echo(f"Cannot now ({len(spray.cannot_now)}):")
        for held in spray.cannot_now:
            typer.echo(f"      {held.block:<6} {held.reason}")
    typer.echo("Scout first:")
    for walk in scouting.entries[:3]:
        typer.echo(f"  {walk.rank:>2}. {walk.block:<6} {walk.reason}")
    typer.echo("")
    for issue in farm.issues:
        typer.echo(str(issue), err=True)
    for what, path in paths.items():
        typer.echo(f"{what + ':':<17}{path}")
    typer.echo("")
    typer.echo(f"Relative level: ratios and orders, no probabilities. {CAUTION}")


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
    today, days = outcome.farm.today, outcome.spray.horizon_days
    yield f"{block} against {other}: mean hazard index of {days} days from {today}"
    yield ""
    yield f"{'factor':<18}{block:>10}{other:>10}{'ratio':>12}{'share':>8}  standing"
    for row in comparison.rows:
        share = f"{row.share:>8.0%}" if row.share == row.share else f"{'':>8}"
        yield (
            f"{row.factor.name:<18}{row.value:>10.4g}{row.other:>10.4g}{row.ratio:>12.5g}"
            f"{share}  {row.factor.standing}"
        )
    yield (
        f"{'all together':<18}{comparison.hazard:>10.4g}{comparison.against_hazard:>10.4g}"
        f"{comparison.ratio:>12.4g}{'100%':>8}  {times(comparison.ratio)}"
    )
