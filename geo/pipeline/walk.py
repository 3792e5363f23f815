"""A morning's walk from what a run decided, and its files."""

from dataclasses import replace
from pathlib import Path

from geo.errors import stop
from geo.exports.out_folder import output_folder
from geo.exports.walk_gpx import write_walk_gpx
from geo.exports.walk_sheet import write_walk_sheet
from geo.pipeline.run import Outcome
from geo.reference.diseases import disease_with
from geo.scouting.morning import morning_of
from geo.scouting.plan_walk import plan_walk
from geo.scouting.starts import starts_of
from geo.scouting.walk import Walk
from geo.scouting.when import NO_HOURS
from geo.texts import mark, phrase, phrase_of

SHEET, GPX = "walk-sheet.html", "walk.gpx"
TO_PRINT, FOR_A_PHONE = mark("to print"), mark("for a phone")
# What stands in each of ours in every language, and in no other program's.
OURS = {SHEET: b'<section class="plan">', GPX: b'creator="mangoblock-risk'}
MOST_HOURS = 12.0  # our own choice: nobody looks longer


def walk_of(outcome: Outcome, *, disease: str, hours: float, gate: str | None = None) -> Walk | str:
    """
    Return the walk of the next morning.

    Parameters
    ----------
    outcome : Outcome
        What a run decided.
    disease : str
        Key of the disease to look for.
    hours : float
        Time there is.
    gate : str, optional
        Name of the gate to begin at, as typed; else the best of all.

    Returns
    -------
    Walk or str
        As planned, with one block at least; or in words why nobody need walk.

    Raises
    ------
    InputError
        If the hours cannot be, or no gate has that name.
    """
    if not 0 < hours <= MOST_HOURS:
        fix = phrase(
            "Give the hours there are, above 0 and up to {most:g}, such as --hours 2",
            most=MOST_HOURS,
        )
        raise stop("E-WALK-HOURS", "--hours", phrase("{hours:g} hours", hours=hours), fix)
    farm, season, order = outcome.farm, outcome.seasons[disease], outcome.orders[disease].scouting
    about = disease_with(disease)
    if not order.entries:
        return phrase(
            "Nothing to look at: no block has a hazard of {disease} ahead.",
            disease=phrase_of(about.name),
        )
    starts, note = starts_of(farm, order, gate)
    morning = morning_of(farm, season)
    if morning is None:
        return phrase_of(NO_HOURS)
    walk = plan_walk(farm, season, order, morning=morning, hours=hours, starts=starts)
    if not walk.visits:
        first = walk.left_out[0]
        why = phrase(
            "No walk: in {hours:g} h from {start} no block can be looked at. First in the order is "
            "{block}: {reason}",
            hours=hours,
            start=walk.start,
            block=first.entry.block,
            reason=first.reason,
        )
        return f"{why} {morning.words}"
    return replace(walk, notes=(note,)) if note else walk


def write_walk(outcome: Outcome, walk: Walk, folder: Path, *, disease: str) -> dict[str, Path]:
    """
    Write the walk's sheet and its GPX.

    Parameters
    ----------
    outcome : Outcome
        What it was planned from.
    walk : Walk
        As planned.
    folder : pathlib.Path
        Made if it is not there.
    disease : str
        Key of the disease that is looked for.

    Returns
    -------
    dict of str to pathlib.Path
        What each file is for, and where it is.

    Raises
    ------
    InputError
        If the folder cannot be written to, or a file in it is one of the farm's own.
    """
    farm, paths = outcome.farm, {TO_PRINT: folder / SHEET, FOR_A_PHONE: folder / GPX}
    with output_folder(folder, read=farm.files, paths=paths):
        write_walk_sheet(paths[TO_PRINT], farm=farm, walk=walk, disease=disease)
        write_walk_gpx(paths[FOR_A_PHONE], farm=farm, walk=walk, disease=disease_with(disease).name)
    return paths


def clear_walk(folder: Path) -> None:
    """
    Remove an earlier walk's files, so that nobody walks by an old sheet.

    Parameters
    ----------
    folder : pathlib.Path
        Where they may be. A file of that name that is not ours stays: somebody's own track, say.
    """
    for name, ours in OURS.items():
        path = folder / name
        if path.is_file() and ours in path.read_bytes():
            path.unlink()
