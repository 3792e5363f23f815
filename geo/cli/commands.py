"""The commands."""

from math import isnan
from pathlib import Path
from typing import Annotated

import typer

from geo import __version__
from geo.cli.beside import compare as compare_command
from geo.cli.checking import check, new
from geo.cli.choices import (
    DEFAULT_OUT,
    DiseaseOption,
    FarmOption,
    OutOption,
    SemicolonsOption,
    SinceOption,
    check_block,
    demo_farm,
    disease_asked,
    farm_asked,
)
from geo.cli.day_round import day_round
from geo.cli.drawing import plots
from geo.cli.factor_lines import block_lines, factor_lines
from geo.cli.plain_output import plain_output
from geo.cli.recording import record
from geo.cli.since import changes
from geo.cli.speech import fail, progress
from geo.cli.spray_lines import material_lines, waiting_lines
from geo.cli.today import WALK_HOURS, today, write_and_print
from geo.cli.tongue import speak_asked
from geo.cli.walk import walk
from geo.cli.what_if import suppose
from geo.errors import InputError
from geo.texts import LANGUAGES, phrase

app = typer.Typer(
    name="mangoblock",
    help=phrase(
        "Rank the blocks of a mango orchard by disease risk, and say which to spray and "
        "scout, and why."
    ),
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)


@app.command(
    "map",
    help=phrase(
        "Read a farm folder, rank its blocks and write the map, both orders and the GIS file."
    ),
)
def map_command(  # numpydoc ignore=PR01
    farm: Annotated[
        Path, typer.Argument(help=phrase("Farm folder: the one that holds farm.toml."))
    ],
    out: OutOption = DEFAULT_OUT,
    semicolons: SemicolonsOption = False,
    since: SinceOption = None,
) -> None:
    """Read a farm folder, rank its blocks and write the map, both orders and the GIS file."""
    write_and_print(farm_asked(farm), out, walk_hours=None, semicolons=semicolons, since=since)


@app.command(help=phrase("Run the whole job on the made valley farm that comes with the tool."))
def demo(out: OutOption = DEFAULT_OUT) -> None:  # numpydoc ignore=PR01
    """Run the whole job on the made valley farm that comes with the tool."""
    write_and_print(demo_farm(), out, walk_hours=WALK_HOURS)


@app.command(
    help=phrase(
        "Print the eight factors of a block against another: their ratios multiply to the total."
    )
)
def why(  # numpydoc ignore=PR01
    block: Annotated[str, typer.Argument(help=phrase("Id of the block to explain."))],
    against: Annotated[
        str | None, typer.Option(help=phrase("Block to hold it against; else the reference block."))
    ] = None,
    disease: DiseaseOption = None,
    farm: FarmOption = None,
) -> None:
    """Print the eight factors of a block against another: their ratios multiply to the total."""
    from geo.pipeline import run
    from geo.ranking.comparison import compare
    from geo.ranking.sentences import because

    folder = farm_asked(farm)
    try:
        with progress() as say:
            outcome = run(folder, say=say)
        key = disease_asked(disease, outcome.farm.settings.disease).key
        season = outcome.seasons[key]
        known = season.block.values.tolist()
        other = against or outcome.orders[key].spray.reference_block
        for name in (block, other):
            check_block(name, known, str(folder))
    except InputError as error:
        raise fail(error) from error
    comparison = compare(season, block, other)
    for line in factor_lines(comparison, outcome):
        typer.echo(line)
    typer.echo("")
    has_ratio = block != other and not isnan(comparison.ratio) and comparison.hazard > 0
    told = because(comparison)
    typer.echo(phrase("{block} is {told}", block=block, told=told) if has_ratio else told)
    shown = list(dict.fromkeys((block, other)))
    for name in shown:
        for line in waiting_lines(outcome.orders[key].spray, name):
            typer.echo(line)
    for line in block_lines(outcome.orders[key], season, shown):
        typer.echo(line)
    for line in material_lines(outcome, block, key):
        typer.echo(line)


app.command(
    "today",
    help=phrase(
        "Do the whole job: the map with today's round and walk on it, the orders, all sheets."
    ),
)(today)
app.command(
    "new",
    help=phrase(
        "Start a farm folder from outlines: settings that explain themselves, and empty tables."
    ),
)(new)
app.command(
    "check",
    help=phrase(
        "Look at every file of a farm, tell all that is wrong, and end with 0, 3 (partly) or 2."
    ),
)(check)
app.command(
    "round",
    help=phrase(
        "Plan who sprays what today, in which order and hours, from which tank, and write sheets."
    ),
)(day_round)
app.command(
    "record",
    help=phrase(
        "Add completed rows of the spray record to the farm's own, where none is ever rewritten."
    ),
)(record)
app.command(
    "suppose",
    help=phrase(
        "Print what would come of rain, warmth, stages, sprays, cultivars or neighbours you "
        "suppose. No file is read differently or written. Each option may be given several times."
    ),
)(suppose)
app.command(
    "changes",
    help=phrase(
        "Print what changed since an earlier run, why, and the exact split of each change."
    ),
)(changes)
app.command(
    "compare",
    help=phrase(
        "Lay blocks side by side: factors, seasons, counts, cultivars and what sprays did."
    ),
)(compare_command)
app.command(
    "plots",
    help=phrase("Draw the season of each block, and the classes of all blocks day by day."),
)(plots)
app.command(
    "walk",
    help=phrase(
        "Plan a walk where looking is worth most: blocks, trees, a sheet to print and a GPX."
    ),
)(walk)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"mangoblock {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    program: typer.Context,
    language: Annotated[
        str | None,
        typer.Option(
            "--language",
            metavar="|".join(LANGUAGES),
            help=phrase(
                "Language of pages, sheets and terminal; else farm.toml's, else the computer's."
            ),
        ),
    ] = None,
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_show_version, is_eager=True, help=phrase("Print the version.")
        ),
    ] = False,
) -> None:
    del version
    program.with_resource(plain_output())
    speak_asked(program, language)
