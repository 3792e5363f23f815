"""Which earlier run is today held against, and what did it decide?"""

import json
from collections.abc import Mapping
from datetime import date
from math import nan
from pathlib import Path
from typing import Any

from geo.errors import InputError, stop
from geo.exports.files import write_text
from geo.exports.page_since import Since, Then, places_of
from geo.inputs.earlier_run import read_earlier_run
from geo.pipeline.run import Outcome
from geo.texts import phrase

RECORD = "run.json"
# What a second run on one day finds: the record of the last day before, moved aside by the first.
KEPT = "run-before.json"


def since_asked(outcome: Outcome, path: Path) -> Since:
    """
    Return the run that the user names.

    Parameters
    ----------
    outcome : Outcome
        What is decided now.
    path : pathlib.Path
        Its record.

    Returns
    -------
    Since
        What it decided.

    Raises
    ------
    InputError
        If it is not there, is no record, or is of another farm or an older form.
    """
    settings = outcome.farm.settings
    record = read_earlier_run(path, farm=outcome.farm.name, disease=settings.disease)
    try:
        kept = {key: _then(of_it) for key, of_it in record["diseases"].items()}
        return Since(date.fromisoformat(record["today"]), kept)
    except (AttributeError, KeyError, TypeError, ValueError) as error:
        fix = phrase("Name the run.json of an earlier run with --since")
        raise stop("E-RUN-RECORD", str(path), phrase("is no run record"), fix) from error


def since_in(outcome: Outcome, folder: Path) -> Since | None:
    """
    Return the last run of an earlier day whose record is still in the folder of the outputs.

    Parameters
    ----------
    outcome : Outcome
        What is decided now.
    folder : pathlib.Path
        Of the outputs.

    Returns
    -------
    Since or None
        None where there is none of this farm; that is no fault.
    """
    for name in (RECORD, KEPT):
        try:
            since = since_asked(outcome, folder / name)
        except InputError:
            continue
        if since.day < outcome.farm.today:
            return since
    return None


def keep_earlier(outcome: Outcome, folder: Path) -> None:
    """
    Move the record of an earlier day aside, so that a second run today finds it too.

    Parameters
    ----------
    outcome : Outcome
        What is decided now.
    folder : pathlib.Path
        Of the outputs. A record that cannot be read, or is of another farm, is not kept.
    """
    path = folder / RECORD
    try:
        is_earlier = since_asked(outcome, path).day < outcome.farm.today
    except InputError:
        return
    if is_earlier:
        write_text(folder / KEPT, json.dumps(json.loads(path.read_text("utf-8"))))


def _then(kept: Mapping[str, Any]) -> Then:
    order = [kept.get(name, []) for name in ("order", "cannot_now", "not_worth_it_now")]
    return Then(
        _numbers(kept["hazard_ahead"]),
        places_of(*([str(block) for block in blocks] for blocks in order)),
        _numbers(kept.get("protection_left", {})),
    )


def _numbers(kept: Mapping[str, Any]) -> dict[str, float]:
    return {block: nan if value is None else float(value) for block, value in kept.items()}
