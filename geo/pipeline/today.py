"""Everything for today: the map, the round with its sheets, and the walk with its own."""

from dataclasses import dataclass
from pathlib import Path

from geo.errors import InputError
from geo.exports.page_ways import Ways
from geo.pipeline.closing import close_run
from geo.pipeline.day_round import Asked, day_round_of, write_day_round
from geo.pipeline.run import Outcome, Say
from geo.pipeline.walk import FOR_A_PHONE, TO_PRINT, clear_walk, walk_of, write_walk
from geo.pipeline.write import write_map_files
from geo.reference.diseases import disease_with
from geo.texts import mark, phrase

# What the walk's files are for, among those of the whole day.
SHEETS = {TO_PRINT: mark("walk, to print"), FOR_A_PHONE: mark("walk, for a phone")}


@dataclass(frozen=True, slots=True)
class Today:
    """
    What is planned for today.

    Attributes
    ----------
    ways : Ways
        The round and the walk, as far as they could be planned.
    missing : tuple of str
        In words, why one of them is not: what the farm file lacks, or that nobody need walk.
    walk_hours : float
        Time there was for the walk.
    """

    ways: Ways
    missing: tuple[str, ...]
    walk_hours: float


def today_of(outcome: Outcome, *, walk_hours: float, say: Say = lambda _: None) -> Today:
    """
    Return the round and the walk against the chosen disease.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    walk_hours : float
        Time there is for the walk.
    say : callable
        Told what is being worked on.

    Returns
    -------
    Today
        A farm that does not describe its sprayers still has its walk, and its map.

    Raises
    ------
    InputError
        If the hours of the walk cannot be.
    """
    disease = disease_with(outcome.farm.settings.disease)
    missing: tuple[str, ...] = ()
    day_round = walk = None
    try:
        day_round = day_round_of(outcome, disease, Asked(), say=say)
    except InputError as error:
        faults = "; ".join(str(issue) for issue in error.issues)
        missing += (phrase("No round: {faults}", faults=faults),)
    say(phrase("planning the walk"))
    planned = walk_of(outcome, disease=disease.key, hours=walk_hours)
    if isinstance(planned, str):
        missing += (planned,)
    else:
        walk = planned
    return Today(Ways(day_round, walk), missing, walk_hours)


def write_today(
    outcome: Outcome,
    today: Today,
    folder: Path,
    *,
    semicolons: bool = False,
    since: Path | None = None,
    say: Say = lambda _: None,
) -> dict[str, Path]:
    """
    Write what `geo.pipeline.write` does, round and walk on the map, and the sheets of both.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    today : Today
        What was planned from it.
    folder : pathlib.Path
        Made if it is not there.
    semicolons : bool
        Whether CSV has ``;`` and decimal commas.
    since : pathlib.Path or None
        Record of an earlier run to hold this one against, as for `geo.pipeline.write`.
    say : callable
        Told what is being worked on.

    Returns
    -------
    dict of str to pathlib.Path
        What each file is for, and where it is.

    Raises
    ------
    InputError
        If the folder cannot be written to.
    """
    disease = disease_with(outcome.farm.settings.disease)
    day_round, walk = today.ways.day_round, today.ways.walk
    paths = write_map_files(outcome, folder, ways=today.ways, since=since, say=say)
    if day_round is not None:
        say(phrase("writing the day sheets"))
        paths |= write_day_round(outcome, disease, day_round, folder)
    if walk is None:
        clear_walk(folder)
    else:
        say(phrase("writing the walk"))
        sheets = write_walk(outcome, walk, folder, disease=disease.key)
        paths |= {SHEETS[what]: path for what, path in sheets.items()}
    asked = {"job": "today", "semicolons": semicolons, "since": since and since.name}
    close_run(outcome, folder, paths, asked=asked | {"walk_hours": today.walk_hours})
    return paths
