"""The command that plans the round of the day, and what it prints."""

from collections.abc import Iterator, Sequence
from datetime import time
from typing import TYPE_CHECKING, Annotated

import typer

from geo.cli.choices import (
    DEFAULT_OUT,
    DiseaseOption,
    FarmArgument,
    SheetsOption,
    disease_asked,
    farm_asked,
)
from geo.cli.speech import CAUTION, PARTIAL, fail, print_paths, progress
from geo.errors import InputError, Outcome, quoted, stop
from geo.exports.farm_title import farm_title
from geo.texts import phrase, phrase_of

if TYPE_CHECKING:
    from geo.rounds.day_round import DayRound, Load, SprayerDay, Stop
    from geo.season.label import Label

MOST_LEFT_OUT = 12  # our own choice: the CSV has all


def day_round(  # numpydoc ignore=PR01
    farm: FarmArgument = None,
    hours: Annotated[
        float | None,
        typer.Option(help=phrase("Hours of work for each sprayer; else those of farm.toml.")),
    ] = None,
    start: Annotated[
        str | None,
        typer.Option(metavar="HH:MM", help=phrase("Leave no earlier; else the hour of farm.toml.")),
    ] = None,
    sprayers: Annotated[
        int | None, typer.Option(help=phrase("How many of the farm's sprayers go, the first ones."))
    ] = None,
    disease: DiseaseOption = None,
    out: SheetsOption = DEFAULT_OUT,
) -> None:
    """Plan who sprays what today, in which order and hours, from which tank, and write sheets."""
    from geo.exports.day_sheet_pdf import pdf_missing
    from geo.pipeline import run
    from geo.pipeline.day_round import Asked, day_round_of, note_day_round, write_day_round

    folder = farm_asked(farm)
    try:
        asked = Asked(hours, None if start is None else time_asked(start), sprayers)
        with progress() as say:
            outcome = run(folder, say=say)
            of = disease_asked(disease, outcome.farm.settings.disease)
            planned = day_round_of(outcome, of, asked, say=say)
            say(phrase("writing the sheets"))
            paths = write_day_round(outcome, of, planned, out)
            note_day_round(outcome, of, asked, out, paths)
    except InputError as error:
        raise fail(error) from error
    typer.echo(
        phrase(
            "{farm}, round of {day}: {materials} against {disease}",
            farm=farm_title(outcome.farm),
            day=planned.day,
            materials=_together(planned.materials),
            disease=phrase_of(of.name),
        )
    )
    for line in round_lines(planned, outcome.farm.labels or ()):
        typer.echo(line)
    typer.echo("")
    print_paths(paths)
    if missing := pdf_missing():
        typer.echo(missing)
    typer.echo("")
    level = phrase("Relative level: ratios and orders, no probabilities.")
    typer.echo(f"{level} {phrase_of(CAUTION)}")
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
        fix = phrase("Write it as 06:30")
        raise stop("E-TIME-READ", "--start", quoted(words), fix) from error


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
        yield phrase("Caution {letter}: {words}", letter=letter, words=words)
    yield _how_good(planned) if planned.sprayers else phrase("Nobody leaves the shed.")
    if planned.left_out:
        count = len(planned.left_out)
        yield phrase("Left out, all or in part ({count}), the costliest first:", count=count)
        width = max(len(one.block) for one in planned.left_out)
        for one in planned.left_out[:MOST_LEFT_OUT]:
            rank = phrase("rank {rank:>3}", rank=one.rank)
            yield f"  {one.cost:6.3f}  {rank}  {one.block:<{width}}  {one.reason}"
        if count > MOST_LEFT_OUT:
            yield "  " + phrase("and {count} more, in the table", count=count - MOST_LEFT_OUT)
    mixing = mixing_notes(planned.materials, labels) if planned.sprayers else ()
    for note in (*mixing, *planned.notes):
        yield phrase("Note: {note}.", note=note.rstrip("."))


def _how_good(planned: "DayRound") -> str:
    """Return what the round avoids beside the most that any round could."""
    if planned.is_proven:
        return phrase(
            "Avoids {avoided:.3f} hectare-days of index 1: no round of the day avoids more "
            "(proven).",
            avoided=planned.avoided,
        )
    return phrase(
        "Avoids {avoided:.3f} hectare-days of index 1; no round of the day avoids more than "
        "{bound:.3f}, so this one is within {gap:.1%} of the best.",
        avoided=planned.avoided,
        bound=planned.bound,
        gap=1.0 - planned.avoided / planned.bound,
    )


def _sprayer_lines(day: "SprayerDay", letters: dict[str, str]) -> Iterator[str]:
    yield phrase(
        "{sprayer}: leaves {leaves:%H:%M}, back {back:%H:%M}; {kilometres:.1f} km; spraying "
        "{spraying:.1f} h, driving {driving:.1f} h, filling {filling:.1f} h, waiting "
        "{waiting:.1f} h",
        sprayer=day.sprayer,
        leaves=day.leaves,
        back=day.returns,
        kilometres=day.kilometres,
        spraying=day.spraying_hours,
        driving=day.driving_hours,
        filling=day.filling_hours,
        waiting=day.waiting_hours,
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
        phrase("{material} as on the label", material=phrase_of(part.material))
        if part.amount is None
        else f"{phrase_of(part.material)} {part.amount:.4g} {part.unit}"
        for part in load.ingredients
    )
    return phrase(
        "tank {number} at {water}: {litres:.0f} L, {parts}",
        number=load.number,
        water=load.water,
        litres=load.litres,
        parts=parts,
    )


def _stop_words(one: "Stop", width: int, letters: dict[str, str]) -> str:
    rows = phrase(
        "rows {first}-{last} of {all}",
        first=one.first_row,
        last=one.last_row,
        all=one.rows_of_block,
    )
    rank = phrase("rank {rank:>3}", rank=one.rank)
    told = (
        f"  {one.number:>2}. {one.block:<{width}}  {rank}  {rows:<17}  "
        f"{one.litres:5.0f} L  {one.area:.2f} ha"
    )
    if not one.cautions:
        return told
    named_letters = ", ".join(letters[words] for words in one.cautions)
    return told + phrase("; caution {letters}", letters=named_letters)


def _together(materials: Sequence[str]) -> str:
    """Return what is in one tank."""
    first, *others = map(phrase_of, materials)
    for other in others:
        first = phrase("{material} with {other}", material=first, other=other)
    return first
