"""The command that plans a morning's walk."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import (
    DEFAULT_OUT,
    DiseaseOption,
    FarmArgument,
    OutOption,
    disease_asked,
    farm_asked,
)
from geo.cli.speech import CAUTION, fail, print_paths, progress
from geo.errors import InputError
from geo.exports.farm_title import farm_title
from geo.texts import mark, phrase, phrase_of, phrases

if TYPE_CHECKING:
    from geo.scouting.walk import Walk
    from geo.season import Farm

LEFT_OUT_SHOWN = 6


def walk(  # numpydoc ignore=PR01
    farm: FarmArgument = None,
    hours: Annotated[float, typer.Option("--hours", help=phrase("Time there is."))] = 2.0,
    gate: Annotated[
        str | None, typer.Option("--from", help=phrase("Gate to begin at; else the best of all."))
    ] = None,
    disease: DiseaseOption = None,
    out: OutOption = DEFAULT_OUT,
) -> None:
    """Plan a walk where looking is worth most: blocks, trees, a sheet to print and a GPX."""
    from geo.pipeline import run
    from geo.pipeline.later import note_later
    from geo.pipeline.walk import OURS, clear_walk, walk_of, write_walk

    folder = farm_asked(farm)
    try:
        with progress() as say:
            outcome = run(folder, say=say)
            say(phrase("planning the walk"))
            about = disease_asked(disease, outcome.farm.settings.disease)
            planned = walk_of(outcome, disease=about.key, hours=hours, gate=gate)
        asked = {"job": "walk", "disease": about.key, "hours": hours, "from": gate}
        if isinstance(planned, str):
            clear_walk(out)
            note_later(outcome, out, [], cleared=OURS, asked=asked)
            typer.echo(planned)
            return
        paths = write_walk(outcome, planned, out, disease=about.key)
        note_later(outcome, out, OURS, asked=asked)
    except InputError as error:
        raise fail(error) from error
    for line in walk_lines(outcome.farm, planned, phrase_of(about.name)):
        typer.echo(line)
    typer.echo("")
    print_paths(paths)
    typer.echo("")
    level = phrase("Relative level: what comes first, no probabilities.")
    typer.echo(f"{level} {phrase_of(CAUTION)}")


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
        Name of the disease that is looked for, in the language spoken.

    Yields
    ------
    str
        A heading, the table of blocks, what the walk comes to, and who is not on it.
    """
    yield phrase(
        "{farm}, {day}: {hours:g} h on foot, looking for {disease}",
        farm=farm_title(farm),
        day=planned.day,
        hours=planned.hours,
        disease=disease,
    )
    yield planned.morning.words
    yield from planned.notes
    yield ""
    names = [phrase("block"), *(visit.entry.block for visit in planned.visits)]
    width = max(map(len, names))
    yield phrase(
        " no  {block}  arrive  leave  trees  way to it  in it   why", block=f"{names[0]:<{width}}"
    )
    at_start = mark("{place} at {hour:%H:%M}")
    yield "     " + phrase_of(at_start, place=planned.start, hour=planned.leaves)
    for visit in planned.visits:
        yield (
            f"{visit.number:>3}  {visit.entry.block:<{width}}  {visit.arrives:%H:%M}   "
            f"{visit.leaves:%H:%M}  {len(visit.stops):>5}  {visit.metres_to:>7.0f} m  "
            f"{visit.metres_inside:>4.0f} m  {phrase_of(visit.entry.chosen)}"
        )
    yield "     " + phrase_of(at_start, place=planned.start, hour=planned.returns)
    yield ""
    known = phrase(" (proven: no walk in that time collects more)") if planned.is_proven else ""
    told = phrases(
        "{kilometres:.1f} km, on {ways}; {share:.0%} of the value of looking of the block "
        "chosen among",
        "{kilometres:.1f} km, on {ways}; {share:.0%} of the value of looking of the {count} "
        "blocks chosen among",
        planned.chosen_among,
        kilometres=planned.metres / 1000,
        ways=planned.ways,
        share=planned.value_share,
    )
    yield f"{told}{known}"
    for one in planned.left_out[:LEFT_OUT_SHOWN]:
        place = f"{one.entry.rank:>2}. {one.entry.block:<{width}}"
        yield "  " + phrase("not on it: {place}  {reason}", place=place, reason=one.reason)
    if len(planned.left_out) > LEFT_OUT_SHOWN:
        more = len(planned.left_out) - LEFT_OUT_SHOWN
        yield "  " + phrase("and {count} more, in the scouting order", count=more)
