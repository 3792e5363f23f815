"""What did an earlier run decide? Its record, refused in words if it cannot be compared with."""

import json
from pathlib import Path
from typing import Any

from geo.errors import InputError, quoted, stop
from geo.texts import phrase

# What a record must hold to be compared with; older forms lack the last.
PARTS = ("farm", "today", "files", "settings", "software", "parameter_set", "diseases")
LARGEST_BYTES = 500_000_000  # our own choice: a record of 100 000 blocks is a fifth of it


def read_earlier_run(path: Path, *, farm: str, disease: str) -> dict[str, Any]:
    """
    Return the record of an earlier run.

    Parameters
    ----------
    path : pathlib.Path
        Of ``run.json``.
    farm : str
        Name of the farm it must be of.
    disease : str
        Key of the disease it must hold.

    Returns
    -------
    dict
        As the run wrote it.

    Raises
    ------
    InputError
        If it is not there, is no record, or is of another farm or an older form.
    """
    try:
        size = path.stat().st_size
        record = json.loads(path.read_text("utf-8")) if size <= LARGEST_BYTES else None
    except OSError as error:
        found = phrase("cannot be read ({error})", error=error.strerror or error)
        raise _refused(path, found) from error
    except (ValueError, RecursionError) as error:
        raise _refused(path, phrase("is no run record")) from error
    if size > LARGEST_BYTES:
        raise _refused(path, phrase("is too large to be a run record"))
    if not isinstance(record, dict) or not set(PARTS) <= record.keys():
        raise _refused(path, phrase("is no run record, or one of an older form"))
    if record["farm"] != farm:
        found = phrase("is of another farm, {farm}", farm=quoted(record["farm"]))
        raise _refused(path, found)
    if disease not in record["diseases"]:
        found = phrase("does not hold the disease {disease}", disease=quoted(disease))
        raise _refused(path, found)
    return record


def _refused(path: Path, found: str) -> InputError:
    fix = phrase("Name the run.json of an earlier run with --since, or run mangoblock map first")
    return stop("E-RUN-RECORD", str(path), found, fix)
