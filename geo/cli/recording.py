"""The command that puts down what was sprayed."""

from pathlib import Path
from typing import Annotated

import typer

from geo.cli.speech import PARTIAL, fail
from geo.cli.tongue import speak_of
from geo.errors import InputError, Outcome
from geo.texts import phrase, phrases


def record(  # numpydoc ignore=PR01
    completed: Annotated[
        Path, typer.Argument(help=phrase("CSV of completed rows: spray-record.csv."))
    ],
    farm: Annotated[
        Path | None, typer.Option(help=phrase("Farm folder to write to; else the one you are in."))
    ] = None,
) -> None:
    """Add completed rows of the spray record to the farm's own, where none is ever rewritten."""
    from geo.pipeline.record import record_sprays

    folder = farm or Path.cwd()
    speak_of(folder)
    try:
        told = record_sprays(folder, completed)
    except InputError as error:
        raise fail(error) from error
    for issue in told.issues:
        typer.echo(str(issue), err=True)
    typer.echo(
        phrases(
            "{count} row added to {path}; there already: {there}; not completed yet: {planned}",
            "{count} rows added to {path}; there already: {there}; not completed yet: {planned}",
            told.added,
            path=told.path,
            there=told.there,
            planned=told.planned,
        )
    )
    if told.digest:
        typer.echo(phrase("Last digest: {digest}", digest=told.digest))
        typer.echo(phrase("Write it down: rows taken off the end show only against it."))
    if not told.is_named and told.digest:
        line = f'records = "{told.path.name}"'
        typer.echo(phrase("To have them counted, add to [files] in farm.toml: {line}", line=line))
    if any(issue.outcome is Outcome.HOLD for issue in told.issues):
        raise typer.Exit(PARTIAL)
