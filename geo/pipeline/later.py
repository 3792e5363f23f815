"""Which files did another job write into a folder after the run whose record stands there?"""

import json
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any, NoReturn

from geo.exports.out_folder import output_folder
from geo.exports.run_outputs import outputs
from geo.exports.run_parts import PARTS
from geo.exports.run_record import write_run_record
from geo.inputs.earlier_run import LARGEST_BYTES
from geo.pipeline.run import Outcome
from geo.pipeline.since import RECORD
from geo.texts import phrase_of

OWN, LATER = TOLD = ("outputs", "later")


def note_later(
    outcome: Outcome,
    folder: Path,
    written: Collection[str],
    *,
    cleared: Collection[str] = (),
    asked: Mapping[str, object],
) -> None:
    """
    Bring the record of a folder up to what a job wrote there, so that every digest in it holds.

    Files that the job wrote are told among ``later`` and no longer as the run's own; those that it
    took away are told no more. What the run decided stays as it was.

    Parameters
    ----------
    outcome : Outcome
        What the job worked from.
    folder : pathlib.Path
        Of its files. Without a record of a run nothing is done.
    written : collection of str
        Names of the files in that folder which the job wrote.
    cleared : collection of str
        And of those which it takes away if they are of an earlier job.
    asked : mapping of str to object
        Which job it was and with which options, ready for JSON.

    Raises
    ------
    InputError
        If the record cannot be written.
    """
    path = folder / RECORD
    if not path.is_file():
        return
    with output_folder(folder, read=outcome.farm.files, paths={RECORD: path}):
        try:
            record = _record(path)
            gone = {name for name in cleared if not (folder / name).exists()}
            others = {part: _without(record, part, {*written} | gone) for part in TOLD}
            by_what = {
                "asked": dict(asked),
                "farm": outcome.farm.name,
                "today": outcome.farm.today.isoformat(),
                "inputs_that_differ": _differing(outcome, record),
            }
        except (AttributeError, KeyError, TypeError, ValueError, RecursionError):
            return  # not of ours
        files = [folder / name for name in written if (folder / name).is_file()]
        others[LATER] += [one | by_what for one in outputs(files)]
        others[LATER].sort(key=lambda one: one["name"])
        parts = {"parts": {**record["parts"], LATER: phrase_of(PARTS[LATER])}}
        write_run_record(path, record | others | parts)


def _record(path: Path) -> dict[str, Any]:
    if path.stat().st_size > LARGEST_BYTES:
        raise ValueError("too large to be a record")
    record: dict[str, Any] = json.loads(path.read_text("utf-8"), parse_constant=_refuse)
    return {**record, "parts": {**record["parts"]}}


def _refuse(word: str) -> NoReturn:
    """Take no record with numbers that JSON does not have: it could not be written again."""
    raise ValueError(word)


def _without(record: Mapping[str, Any], part: str, names: set[str]) -> list[dict[str, Any]]:
    # Records of an older form have no part for what came later.
    told = record[part] if part == OWN else record.get(part, [])
    return [one for one in told if one["name"] not in names]


def _differing(outcome: Outcome, record: Mapping[str, Any]) -> list[str]:
    """Return the inputs that are not those of the run: changed since, new, or not read now."""
    then = {(one["name"], one["sha256"]) for one in record["files"]}
    now = {(file.path.name, file.sha256) for file in outcome.farm.files}
    return sorted({name for name, _ in then ^ now})
