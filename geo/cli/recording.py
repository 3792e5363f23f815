"""The command that puts down what was sprayed."""

from pathlib import Path
from typing import Annotated

import typer

from geo.cli.speech import PARTIAL, fail
from geo.errors import InputError, Outcome


def record(  # numpydoc ignore=PR01
    completed: Annotated[Path, typer.Argument(help="CSV of completed rows: spray-record.csv.")],
    farm: Annotated[
        Path | None, typer.Option(help="Farm folder to write to; else the one you are in.")
    ] = None,
) -> None:
    """Add completed rows of the spray record to the farm's own, where none is ever rewritten."""
    from geo.pipeline.record import record_sprays

    try:
        told = record_sprays(farm or Path.cwd(), completed)
    except InputError as error:
        raise fail(error) from error
    for issue in told.issues:
        typer.echo(str(issue), err=True)
    typer.echo(
        f"{_rows(told.added)} added to {told.path}; there already: {told.there}; "
        f"not completed yet: {told.planned}"
    )
    if told.digest:
        typer.echo(f"Last digest: {told.digest}")
        typer.echo("Write it down: rows taken off the end show only against it.")
    if not told.is_named and told.digest:
        typer.echo(
            f'To have them counted, add to [files] in farm.toml: records = "{told.path.name}"'
        )
    if any(issue.outcome is Outcome.HOLD for issue in told.issues):
        raise typer.Exit(PARTIAL)


def _rows(count: int) -> str:
    return "1 row" if count == 1 else f"{count} rows"
