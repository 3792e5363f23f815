"""The commands."""

from importlib.resources import files
from math import isnan
from pathlib import Path
from typing import Annotated

import typer

from geo import __version__
from geo.cli.speech import factor_lines, fail, print_summary, progress
from geo.errors import InputError, Outcome, quoted, stop

app = typer.Typer(
    name="mangoblock",
    help="Rank mango blocks by powdery mildew risk, and say which to spray and scout, and why.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)

OutOption = Annotated[Path, typer.Option("--out", help="Folder for the outputs.")]
DEFAULT_OUT = Path("outputs")
PARTIAL = 3


@app.command("map")
def map_command(  # numpydoc ignore=PR01
    farm: Annotated[Path, typer.Argument(help="Farm folder: the one that holds farm.toml.")],
    out: OutOption = DEFAULT_OUT,
) -> None:
    """Read a farm folder, rank its blocks and write the map, both orders and the GIS file."""
    _map(farm, out)


@app.command()
def demo(out: OutOption = DEFAULT_OUT) -> None:  # numpydoc ignore=PR01
    """Run the whole job on the made valley farm that comes with the tool."""
    _map(demo_farm(), out)


@app.command()
def why(  # numpydoc ignore=PR01
    block: Annotated[str, typer.Argument(help="Id of the block to explain.")],
    against: Annotated[
        str | None, typer.Option(help="Block to hold it against; else the reference block.")
    ] = None,
    farm: Annotated[
        Path | None, typer.Option(help="Farm folder; else the one you are in, else the demo.")
    ] = None,
) -> None:
    """Print the eight factors of a block against another: their ratios multiply to the total."""
    from geo.pipeline import run
    from geo.ranking.comparison import compare
    from geo.ranking.ground import ground_words
    from geo.ranking.sentences import because
    from geo.ranking.spray_words import spray_words

    folder = farm or _farm_here()
    try:
        with progress() as say:
            outcome = run(folder, say=say)
        known = outcome.season.block.values.tolist()
        other = against or outcome.spray.reference_block
        for name in (block, other):
            _check_block(name, known, folder)
    except InputError as error:
        raise fail(error) from error
    comparison = compare(outcome.season, block, other)
    for line in factor_lines(comparison, outcome):
        typer.echo(line)
    typer.echo("")
    has_ratio = block != other and not isnan(comparison.ratio) and comparison.hazard > 0
    typer.echo(f"{block} is {because(comparison)}" if has_ratio else because(comparison))
    for name in dict.fromkeys((block, other)):
        if words := ground_words(outcome.season, known.index(name)):
            typer.echo(f"{name}. {words}")
    shown = list(dict.fromkeys((block, other)))
    for name, words in zip(
        shown, spray_words(outcome.season, map(known.index, shown)), strict=True
    ):
        typer.echo(f"{name}. {words}")


def demo_farm() -> Path:
    """
    Return the folder of the made farm that comes with the tool.

    Returns
    -------
    pathlib.Path
        Beside the package in a checkout, inside the environment once installed.
    """
    return Path(str(files("layers_demo") / "valley_farm"))


def main() -> None:
    """Run the command line."""
    app()


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"mangoblock {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Print the version."),
    ] = False,
) -> None:
    del version


def _map(farm: Path, out: Path) -> None:
    from geo.pipeline import run, write

    try:
        with progress() as say:
            outcome = run(farm, say=say)
            paths = write(outcome, out, say=say)
    except InputError as error:
        raise fail(error) from error
    print_summary(outcome, paths)
    # A planned spray is set aside too, but there is nothing to mend about it.
    if any(issue.outcome is Outcome.HOLD for issue in outcome.farm.issues):
        raise typer.Exit(PARTIAL)


def _farm_here() -> Path:
    here = Path.cwd()
    if (here / "farm.toml").exists():
        return here
    typer.echo("No farm.toml in this folder: answering for the made demo farm.", err=True)
    return demo_farm()


def _check_block(name: str, known: list[str], folder: Path) -> None:
    if name not in known:
        listed = ", ".join(known[:12]) + (", …" if len(known) > 12 else "")  # noqa: PLR2004
        raise stop("E-BLOCK-UNKNOWN", str(folder), f"no block {quoted(name)}", f"Try: {listed}")
