"""From a run's outcome to the round of the day, and to what it is handed out as."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import time
from pathlib import Path

from geo.exports.round_files import PDF, write_round_sheets
from geo.pipeline.later import note_later
from geo.pipeline.run import Outcome, Say
from geo.reference.diseases import Disease
from geo.rounds.day_round import DayRound
from geo.rounds.plan_round import plan_day_round
from geo.texts import phrase


@dataclass(frozen=True, slots=True)
class Asked:
    """
    What was asked of a round in place of the farm's own settings.

    Attributes
    ----------
    hours : float or None
        Of work for each sprayer.
    start : datetime.time or None
        Local time before which none leaves.
    sprayers : int or None
        How many of them go.
    """

    hours: float | None = None
    start: time | None = None
    sprayers: int | None = None


def day_round_of(
    outcome: Outcome, disease: Disease, asked: Asked, *, say: Say = lambda _: None
) -> DayRound:
    """
    Return the round of the day against a disease.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    disease : Disease
        Sprayed against.
    asked : Asked
        In place of the farm's own settings.
    say : callable
        Told what is being worked on.

    Returns
    -------
    DayRound
        The same for the same outcome and asked.

    Raises
    ------
    InputError
        If sprayers, rows or spray volume are not known, or an option cannot be.
    """
    say(phrase("the round of the day"))
    return plan_day_round(
        outcome.farm,
        outcome.seasons[disease.key],
        outcome.orders[disease.key].spray,
        outcome.windows,
        hours=asked.hours,
        start=asked.start,
        sprayers=asked.sprayers,
    )


def write_day_round(
    outcome: Outcome, disease: Disease, day_round: DayRound, folder: Path
) -> dict[str, Path]:
    """
    Write the sheets of a round.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    disease : Disease
        Sprayed against.
    day_round : DayRound
        As planned.
    folder : pathlib.Path
        Made if it is not there.

    Returns
    -------
    dict of str to pathlib.Path
        What was written.

    Raises
    ------
    InputError
        If the folder cannot be written to.
    """
    return write_round_sheets(
        folder,
        farm=outcome.farm,
        season=outcome.seasons[disease.key],
        order=outcome.orders[disease.key].spray,
        day_round=day_round,
    )


def note_day_round(
    outcome: Outcome, disease: Disease, asked: Asked, folder: Path, paths: Mapping[str, Path]
) -> None:
    """
    Bring the record of an earlier run up to the sheets of a round that was asked for alone.

    Parameters
    ----------
    outcome : Outcome
        What was decided.
    disease : Disease
        Sprayed against.
    asked : Asked
        In place of the farm's own settings.
    folder : pathlib.Path
        Of the sheets.
    paths : mapping of str to pathlib.Path
        As `write_day_round` gave them.

    Raises
    ------
    InputError
        If the record cannot be written.
    """
    options = asdict(asked) | {"start": asked.start and asked.start.isoformat()}
    note_later(
        outcome,
        folder,
        [path.name for path in paths.values()],
        cleared=[PDF],
        asked={"job": "round", "disease": disease.key, **options},
    )
