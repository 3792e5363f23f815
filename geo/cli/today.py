"""The command that does the whole job of a day."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import (
    DEFAULT_OUT,
    FarmArgument,
    OutOption,
    SemicolonsOption,
    SinceOption,
    farm_asked,
)
from geo.cli.speech import PARTIAL, fail, progress
from geo.cli.summary import print_summary
from geo.errors import InputError, Outcome
from geo.texts import phrase, phrase_of, phrases
from geo.texts.lists import listed

if TYPE_CHECKING:
    from geo.pipeline.today import Today
    from geo.rounds.day_round import DayRound
    from geo.scouting.walk import Walk

WALK_HOURS = 2.0  # our own choice: two hours at dawn


def today(  # numpydoc ignore=PR01
    farm: FarmArgument = None,
    walk_hours: Annotated[float, typer.Option(help=phrase("Time for the walk."))] = WALK_HOURS,
    semicolons: SemicolonsOption = False,
    since: SinceOption = None,
    out: OutOption = DEFAULT_OUT,
) -> None:
    """Do the whole job: the map with today's round and walk on it, the orders, all sheets."""
    write_and_print(
        farm_asked(farm), out, walk_hours=walk_hours, semicolons=semicolons, since=since
    )


def write_and_print(
    folder: Path,
    out: Path,
    *,
    walk_hours: float | None,
    semicolons: bool = False,
    since: Path | None = None,
) -> None:
    """
    Run, plan, write and tell.

    Parameters
    ----------
    folder : pathlib.Path
        Of the farm.
    out : pathlib.Path
        For the outputs.
    walk_hours : float or None
        Time for the walk; None to plan neither walk nor round.
    semicolons : bool
        Whether CSV has ``;`` and decimal commas.
    since : pathlib.Path or None
        Record of an earlier run to hold the map against.

    Raises
    ------
    typer.Exit
        If the farm cannot be used, or something of it was set aside.
    """
    from geo.exports.day_sheet_pdf import pdf_missing
    from geo.pipeline import run, write
    from geo.pipeline.today import today_of, write_today

    plan = None
    try:
        with progress() as say:
            outcome = run(folder, say=say)
            if walk_hours is None:
                paths = write(outcome, out, semicolons=semicolons, since=since, say=say)
            else:
                plan = today_of(outcome, walk_hours=walk_hours, say=say)
                paths = write_today(outcome, plan, out, semicolons=semicolons, since=since, say=say)
    except InputError as error:
        raise fail(error) from error
    print_summary(outcome, paths, plans=() if plan is None else plan_lines(plan))
    if plan is not None and plan.ways.day_round is not None and (missing := pdf_missing()):
        typer.echo(missing)
    # A planned spray is set aside too, but there is nothing to mend about it.
    if any(issue.outcome is Outcome.HOLD for issue in outcome.farm.issues):
        raise typer.Exit(PARTIAL)


def plan_lines(plan: "Today") -> Iterator[str]:
    """
    Return the round and the walk in a few lines.

    Parameters
    ----------
    plan : Today
        What is planned, and what could not be.

    Yields
    ------
    str
        The sheets tell the rest.
    """
    if plan.ways.day_round is not None:
        yield from _round_lines(plan.ways.day_round)
    if plan.ways.walk is not None:
        yield _walk_line(plan.ways.walk)
    yield from plan.missing


def _round_lines(planned: "DayRound") -> Iterator[str]:
    yield phrase("Round with {materials}:", materials=listed(map(phrase_of, planned.materials)))
    if not planned.sprayers:
        yield f"  {phrase('Nobody leaves.')} {' '.join(planned.notes)}"
    for day in planned.sprayers:
        blocks = ", ".join(dict.fromkeys(stop.block for stop in day.stops))
        yield "  " + phrases(
            "{sprayer}, {leaves:%H:%M} to {returns:%H:%M}, {count} tank, {kilometres:.1f} km: "
            "{blocks}",
            "{sprayer}, {leaves:%H:%M} to {returns:%H:%M}, {count} tanks, {kilometres:.1f} km: "
            "{blocks}",
            len(day.loads),
            sprayer=day.sprayer,
            leaves=day.leaves,
            returns=day.returns,
            kilometres=day.kilometres,
            blocks=blocks,
        )
    if planned.left_out:
        left = ", ".join(one.block for one in planned.left_out)
        yield "  " + phrase("Not reached: {blocks}", blocks=left)


def _walk_line(walk: "Walk") -> str:
    blocks = ", ".join(visit.entry.block for visit in walk.visits)
    return phrase(
        "Walk from {place}, {leaves:%H:%M} to {returns:%H:%M}, {kilometres:.1f} km: {blocks}",
        place=walk.start,
        leaves=walk.leaves,
        returns=walk.returns,
        kilometres=walk.metres / 1000,
        blocks=blocks,
    )
