"""The commands that start a farm and look at its files, and what they print."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer
from rich.console import Console
from rich.table import Table
from rich.text import Text

from geo.cli.choices import DEFAULT_OUT, FarmArgument, demo_farm, farm_asked
from geo.cli.speech import FAILED, PARTIAL, fail, print_paths, progress
from geo.errors import InputError, Issue, Outcome
from geo.exports.farm_title import farm_title
from geo.texts import phrase, phrase_of, phrases

if TYPE_CHECKING:
    from geo.season.survey import Survey

WIDEST = 120  # our own choice: longer lines are hard to follow
NARROW = 100  # our own choice: below it, three columns of words become slivers


def check(
    farm: FarmArgument = None,
    strict: Annotated[
        bool, typer.Option("--strict", help=phrase("Let repairs and notes count as well."))
    ] = False,
    out: Annotated[
        Path, typer.Option("--out", help=phrase("Folder for check.html and check.csv."))
    ] = DEFAULT_OUT,
) -> None:  # numpydoc ignore=PR01
    """Look at every file of a farm, tell all that is wrong, and end with 0, 3 (partly) or 2."""
    from geo.exports.check_page import MEANING, VERDICTS
    from geo.pipeline.check import check as look
    from geo.pipeline.check import write_survey
    from geo.season.survey import Verdict

    folder = farm_asked(farm)
    try:
        with progress() as say:
            say(phrase("reading the farm"))
            found = look(folder)
            paths = write_survey(found, out, strict=strict)
    except InputError as error:
        raise fail(error) from error
    typer.echo(farm_title(found))
    if found.hours:
        typer.echo(found.hours)
    for outcome in Outcome:
        if issues := found.of(outcome):
            typer.echo(f"\n{phrase_of(outcome)} ({len(issues)}): {phrase_of(MEANING[outcome])}")
            print_issues(issues)
    verdict = found.verdict(strict=strict)
    typer.echo(f"\n{phrase_of(VERDICTS[verdict])} {counts(found)}")
    print_paths(paths)
    codes = {Verdict.CLEAN: 0, Verdict.PARTIAL: PARTIAL, Verdict.STOPPED: FAILED}
    raise typer.Exit(codes[verdict])


def new(
    folder: Annotated[Path, typer.Argument(help=phrase("Folder to make, named like the farm."))],
    outlines: Annotated[Path, typer.Argument(help=phrase("Blocks, in any format GDAL reads."))],
    zone: Annotated[str, typer.Option("--zone", help=phrase("Such as Asia/Manila."))] = "",
) -> None:  # numpydoc ignore=PR01
    """Start a farm folder from outlines: settings that explain themselves, and empty tables."""
    from geo.pipeline.new_farm import start_farm

    try:
        paths = start_farm(folder, outlines, example=demo_farm() / "farm.toml", zone=zone)
    except InputError as error:
        raise fail(error) from error
    for path in paths:
        typer.echo(str(path))
    typer.echo(
        phrase(
            "Fill in {file}, put your files in, and type: {command}",
            file=paths[0].name,
            command=f"mangoblock check {folder}",
        )
    )


def print_issues(issues: tuple[Issue, ...]) -> None:
    """
    Print faults as a table: where, what is wrong, what to do.

    Parameters
    ----------
    issues : tuple of Issue
        Of one outcome. On a narrow or unknown screen each is one whole line.
    """
    console = Console(highlight=False)
    if not console.is_terminal or console.width < NARROW:
        for issue in issues:
            typer.echo(f"  {issue.where}: {issue.found}. {issue.fix}. [{issue.code}]")
        return
    table = Table(box=None, pad_edge=True, width=min(console.width, WIDEST))
    headings = (phrase("where"), 3), (phrase("what is wrong"), 5), (phrase("what to do"), 4)
    for heading, ratio in headings:
        table.add_column(heading, ratio=ratio, overflow="fold", no_wrap=False)
    for issue in issues:
        # As plain text: what users wrote is never taken for marks of the terminal.
        table.add_row(Text(issue.where), Text(issue.found), Text(issue.fix))
    console.print(table)


def counts(found: "Survey") -> str:
    """
    Return how many faults there are of each outcome.

    Parameters
    ----------
    found : Survey
        What was found.

    Returns
    -------
    str
        One sentence.
    """
    counted = [(outcome, len(found.of(outcome))) for outcome in Outcome]
    told = ", ".join(f"{count} {phrase_of(outcome)}" for outcome, count in counted if count)
    return phrases(
        "{counts} in {count} file.",
        "{counts} in {count} files.",
        len(found.files),
        counts=told or phrase("No fault"),
    )
