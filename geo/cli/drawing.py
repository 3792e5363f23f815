"""The command that draws the seasons of blocks."""

from pathlib import Path
from typing import Annotated

import typer

from geo.cli.choices import (
    DEFAULT_OUT,
    DiseaseOption,
    FarmOption,
    check_block,
    disease_asked,
    farm_asked,
)
from geo.cli.speech import fail, print_paths, progress
from geo.errors import InputError
from geo.exports.farm_title import farm_title
from geo.texts import phrase, phrase_of


def plots(  # numpydoc ignore=PR01
    blocks: Annotated[
        list[str] | None, typer.Argument(help=phrase("Ids of blocks; else all, the worst first."))
    ] = None,
    svg: Annotated[
        bool, typer.Option("--svg", help=phrase("Write each drawing as an SVG file as well."))
    ] = False,
    png: Annotated[
        bool, typer.Option("--png", help=phrase("Write each drawing as SVG and as PNG."))
    ] = False,
    disease: DiseaseOption = None,
    farm: FarmOption = None,
    out: Annotated[Path, typer.Option("--out", help=phrase("Folder for the pages."))] = DEFAULT_OUT,
) -> None:
    """Draw the season of each block, and the classes of all blocks day by day."""
    from geo.exports.png import need_png
    from geo.pipeline import run
    from geo.pipeline.later import note_later
    from geo.pipeline.pages import write_plots

    folder = farm_asked(farm)
    wanted = list(dict.fromkeys(blocks or ()))
    try:
        if png:
            need_png()
        with progress() as say:
            outcome = run(folder, say=say)
            of = disease_asked(disease, outcome.farm.settings.disease)
            known = outcome.seasons[of.key]["block"].values.tolist()
            for name in wanted:
                check_block(name, known, str(folder))
            say(phrase("drawing"))
            paths = write_plots(
                outcome, of.key, out, blocks=wanted or None, with_files=svg or png, with_png=png
            )
            asked = {"job": "plots", "disease": of.key, "blocks": wanted, "svg": svg, "png": png}
            note_later(outcome, out, [path.name for path in paths.values()], asked=asked)
    except InputError as error:
        raise fail(error) from error
    typer.echo(f"{farm_title(outcome.farm)}, {outcome.farm.today}: {phrase_of(of.name)}")
    print_paths(paths)
