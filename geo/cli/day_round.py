"""The command that plans the round of the day, and what it prints."""

from collections.abc import Iterator, Sequence
from datetime import time
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import DEFAULT_OUT, DiseaseOption, disease_asked, farm_here
from geo.cli.speech import CAUTION, PARTIAL, fail, print_paths, progress
from geo.errors import InputError, Outcome, quoted, stop

if TYPE_CHECKING:
    from geo.rounds.day_round import DayRound, Load, SprayerDay, Stop
    from geo.season.label import Label

MOST_LEFT_OUT = 12  # our own choice: the CSV has all


def day_round(  # numpydoc ignore=PR01
    farm: Annotated[
        Path | None, typer.Argument(help="Farm folder; else the one you are in, else the demo.")
    ] = None,
    hours: Annotated[
        float | None, typer.Option(help="Hours of work for each sprayer; else those of farm.toml.")
    ] = None,
    start: Annotated[
        str | None,
        typer.Option(metavar="HH:MM", help="Leave no earlier; else the hour of farm.toml."),
    ] = None,
    sprayers: Annotated[
        int | None, typer.Option(help="How many of the farm's sprayers go, the first ones.")
    ] = None,
    disease: DiseaseOption = None,
    out: Annotated[Path, typer.Option("--out", help="Folder for the sheets.")] = DEFAULT_OUT,
) -> None:
    """Plan who sprays what today, in which order and hours, from which tank, and write sheets."""
    from geo.exports.day_sheet_pdf import pdf_missing
    from geo.pipeline import run
    from geo.pipeline.day_round import Asked, day_round_of, write_day_round

    folder = farm or farm_here()
    try:
        asked = Asked(hours, None if start is None else time_asked(start), sprayers)
        with progress() as say:
            outcome = run(folder, say=say)
            of = disease_asked(disease, outcome.farm.settings.disease)
            planned = day_round_of(outcome, of, asked, say=say)
            say("writing the sheets")
            paths = write_day_round(outcome, of, planned, out)
    except InputError as error:
        raise fail(error) from error
    made = " (made scenario)" if outcome.farm.is_made else ""
    typer.echo(
        f"{outcome.farm.name}{made}, round of {planned.day}: {' with '.join(planned.materials)} "
        f"against {of.name}"
    )
    for line in round_lines(planned, outcome.farm.labels or ()):
        typer.echo(line)
    typer.echo("")
    print_paths(paths)
    if missing := pdf_missing():
        typer.echo(missing)
    typer.echo("")
    typer.echo(f"Relative level: ratios and orders, no probabilities. {CAUTION}")
    set_aside = [issue for issue in outcome.farm.issues if issue.outcome is Outcome.HOLD]
    for issue in set_aside:
        typer.echo(str(issue), err=True)
    if set_aside:
        raise typer.Exit(PARTIAL)


def time_asked(words: str) -> time:
    """
    Return an hour of the day as typed.

    Parameters
    ----------
    words : str
        Such as 06:30.

    Returns
    -------
    datetime.time
        Local.

    Raises
    ------
    InputError
        If it is none.
    """
    try:
        return time.fromisoformat(words.zfill(len("06:30")))
    except ValueError as error:
        raise stop("E-TIME-READ", "--start", quoted(words), "Write it as 06:30") from error


def round_lines(planned: "DayRound", labels: Sequence["Label"] = ()) -> Iterator[str]:
    """
    Return a round as lines of text.

    Parameters
    ----------
    planned : DayRound
        Of the day.
    labels : sequence of Label
        What the user's label file says of the materials.

    Yields
    ------
    str
        Each sprayer's day, what is left out, how good the round is, and what to know of it.
    """
    from geo.rounds.mixing import mixing_notes
    from geo.rounds.round_words import caution_letters

    letters = caution_letters(
        words for day in planned.sprayers for stop in day.stops for words in stop.cautions
    )
    for day in planned.sprayers:
        yield ""
        yield from _sprayer_lines(day, letters)
    yield ""
    for words, letter in letters.items():
        yield f"Caution {letter}: {words}"
    yield _how_good(planned) if planned.sprayers else "Nobody leaves the shed."
    if planned.left_out:
        yield f"Left out, all or in part ({len(planned.left_out)}), the costliest first:"
        width = max(len(one.block) for one in planned.left_out)
        for one in planned.left_out[:MOST_LEFT_OUT]:
            yield f"  {one.cost:6.3f}  rank {one.rank:>3}  {one.block:<{width}}  {one.reason}"
        if len(planned.left_out) > MOST_LEFT_OUT:
            yield f"  and {len(planned.left_out) - MOST_LEFT_OUT} more, in the table"
    mixing = mixing_notes(planned.materials, labels) if planned.sprayers else ()
    for note in (*mixing, *planned.notes):
        yield f"Note: {note.rstrip('.')}."


def _how_good(planned: "DayRound") -> str:
    """Return what the round avoids beside the most that any round could."""
    avoided = f"Avoids {planned.avoided:.3f} hectare-days of index 1"
    if planned.is_proven:
        return f"{avoided}: no round of the day avoids more (proven)."
    gap = 1.0 - planned.avoided / planned.bound
    return (
        f"{avoided}; no round of the day avoids more than {planned.bound:.3f}, so this one is "
        f"within {gap:.1%} of the best."
    )


def _sprayer_lines(day: "SprayerDay", letters: dict[str, str]) -> Iterator[str]:
    yield (
        f"{day.sprayer}: leaves {day.leaves:%H:%M}, back {day.returns:%H:%M}; "
        f"{day.kilometres:.1f} km; spraying {day.spraying_hours:.1f} h, driving "
        f"{day.driving_hours:.1f} h, filling {day.filling_hours:.1f} h, waiting "
        f"{day.waiting_hours:.1f} h"
    )
    width = max(len(stop.block) for stop in day.stops)
    for load in day.loads:
        yield f"  {load.filled_from:%H:%M}-{load.filled_until:%H:%M}  {_load_words(load)}"
        for one in day.stops:
            if one.load == load.number:
                words = _stop_words(one, width, letters)
                yield f"  {one.starts:%H:%M}-{one.finishes:%H:%M}  {words}"


def _load_words(load: "Load") -> str:
    parts = ", ".join(
        f"{part.material} as on the label"
        if part.amount is None
        else f"{part.material} {part.amount:.4g} {part.unit}"
        for part in load.ingredients
    )
    return f"tank {load.number} at {load.water}: {load.litres:.0f} L, {parts}"


def _stop_words(one: "Stop", width: int, letters: dict[str, str]) -> str:
    rows = f"rows {one.first_row}-{one.last_row} of {one.rows_of_block}"
    cautions = f"; caution {', '.join(letters[words] for words in one.cautions)}"
    return (
        f"  {one.number:>2}. {one.block:<{width}}  rank {one.rank:>3}  {rows:<17}  "
        f"{one.litres:5.0f} L  {one.area:.2f} ha{cautions if one.cautions else ''}"
    )
