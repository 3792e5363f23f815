"""The command that plans a morning's walk."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import DEFAULT_OUT, DiseaseOption, disease_asked, farm_here
from geo.cli.speech import CAUTION, fail, print_paths, progress
from geo.errors import InputError

if TYPE_CHECKING:
    from geo.scouting.walk import Walk
    from geo.season import Farm

LEFT_OUT_SHOWN = 6


def walk(  # numpydoc ignore=PR01
    farm: Annotated[
        Path | None,
        typer.Argument(help="Farm folder; else the one you are in, else the demo."),
    ] = None,
    hours: Annotated[float, typer.Option("--hours", help="Time there is.")] = 2.0,
    gate: Annotated[
        str | None, typer.Option("--from", help="Gate to begin at; else the best of all.")
    ] = None,
    disease: DiseaseOption = None,
    out: Annotated[Path, typer.Option("--out", help="Folder for the outputs.")] = DEFAULT_OUT,
) -> None:
    """Plan a walk where looking is worth most: blocks, trees, a sheet to print and a GPX."""
    from geo.pipeline import run
    from geo.pipeline.walk import clear_walk, walk_of, write_walk

    folder = farm or farm_here()
    try:
        with progress() as say:
            outcome = run(folder, say=say)
            say("planning the walk")
            about = disease_asked(disease, outcome.farm.settings.disease)
            planned = walk_of(outcome, disease=about.key, hours=hours, gate=gate)
        if isinstance(planned, str):
            clear_walk(out)
            typer.echo(planned)
            return
        paths = write_walk(outcome, planned, out, disease=about.key)
    except InputError as error:
        raise fail(error) from error
    for line in walk_lines(outcome.farm, planned, about.name):
        typer.echo(line)
    typer.echo("")
    print_paths(paths)
    typer.echo("")
    typer.echo(f"Relative level: what comes first, no probabilities. {CAUTION}")


def walk_lines(farm: "Farm", planned: "Walk", disease: str) -> Iterator[str]:
    """
    Return the walk as lines of text.

    Parameters
    ----------
    farm : Farm
        For its name.
    planned : Walk
        With one block at least.
    disease : str
        Name of the disease that is looked for.

    Yields
    ------
    str
        A heading, the table of blocks, what the walk comes to, and who is not on it.
    """
    made = " (made scenario)" if farm.is_made else ""
    yield f"{farm.name}{made}, {planned.day}: {planned.hours:g} h on foot, looking for {disease}"
    yield planned.morning.words
    yield from planned.notes
    yield ""
    width = max(5, *(len(visit.entry.block) for visit in planned.visits))
    yield f" no  {'block':<{width}}  arrive  leave  trees  way to it  in it   why"
    yield f"     {planned.start} at {planned.leaves:%H:%M}"
    for visit in planned.visits:
        yield (
            f"{visit.number:>3}  {visit.entry.block:<{width}}  {visit.arrives:%H:%M}   "
            f"{visit.leaves:%H:%M}  {len(visit.stops):>5}  {visit.metres_to:>7.0f} m  "
            f"{visit.metres_inside:>4.0f} m  {visit.entry.chosen}"
        )
    yield f"     {planned.start} at {planned.returns:%H:%M}"
    yield ""
    known = " (proven: no walk in that time collects more)" if planned.is_proven else ""
    among = "block" if planned.chosen_among == 1 else f"{planned.chosen_among} blocks"
    yield (
        f"{planned.metres / 1000:.1f} km, on {planned.ways}; {planned.value_share:.0%} of the "
        f"value of looking of the {among} chosen among{known}"
    )
    for one in planned.left_out[:LEFT_OUT_SHOWN]:
        yield f"  not on it: {one.entry.rank:>2}. {one.entry.block:<{width}}  {one.reason}"
    if len(planned.left_out) > LEFT_OUT_SHOWN:
        yield f"  and {len(planned.left_out) - LEFT_OUT_SHOWN} more, in the scouting order"
