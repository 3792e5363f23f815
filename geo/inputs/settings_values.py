"""Is what stands behind a key of ``farm.toml`` what it should be?"""

from pathlib import Path
from typing import Any

from geo.errors import Outcome, quoted
from geo.inputs.at import at_key
from geo.inputs.names import nearest
from geo.inputs.reading import Reading
from geo.inputs.settings_keys import Key
from geo.texts import mark, phrase, phrase_of

# What to do where it lacks, and what is found where it is of another kind.
_WORDS: dict[type, tuple[str, str]] = {
    str: (mark("Add it, with a text"), mark("{value} is not a text")),
    bool: (mark("Add it, with true or false"), mark("{value} is not true or false")),
    int: (mark("Add it, with a whole number"), mark("{value} is not a whole number")),
    float: (mark("Add it, with a number"), mark("{value} is not a number")),
}


def refuse_key(reading: Reading, key: str, known: list[str]) -> None:
    """
    Write down a key that we do not know.

    Parameters
    ----------
    reading : Reading
        The file ``farm.toml``.
    key : str
        With its table, as the user would look for it.
    known : list of str
        Keys that may stand there.
    """
    reading.add(
        Outcome.STOP,
        "E-KEY-UNKNOWN",
        at_key(key),
        found=phrase("nothing is set by it"),
        fix=phrase(
            "Write a known key; nearest: {nearest}", nearest=nearest(key.rpartition(".")[2], known)
        ),
    )


def existing_file(
    reading: Reading, key: str, name: str, *, is_elsewhere: bool = False, may_come: bool = False
) -> Path | None:
    """
    Return a file named in the settings; its absence is written down.

    Parameters
    ----------
    reading : Reading
        The file ``farm.toml``.
    key : str
        With its table.
    name : str
        Of the file, seen from ``farm.toml``.
    is_elsewhere : bool
        Whether it may lie outside the farm's folder. Else a folder from somebody else could have
        any file of this computer read, by its path or by a link.
    may_come : bool
        Whether the program itself will write it: then its absence is only noted.

    Returns
    -------
    pathlib.Path or None
        Of the file; None where it must not be read.
    """
    path = reading.path.parent / name
    if not is_elsewhere and not path.resolve().is_relative_to(reading.path.parent.resolve()):
        reading.add(
            Outcome.STOP,
            "E-FILE-OUTSIDE",
            at_key(key),
            found=phrase("file {file} lies outside the farm's folder", file=quoted(name)),
            fix=phrase(
                "Put it into the folder, or write files_elsewhere = true above [files] if you "
                "named it yourself"
            ),
        )
        return None
    if may_come and not path.is_file():
        reading.add(
            Outcome.NOTE,
            "E-FILE-MISSING",
            at_key(key),
            found=phrase("file {file} is not there yet: nothing of it counts", file=quoted(name)),
            fix=phrase("Nothing before the first recording, or mend its name"),
        )
    elif not path.is_file():
        reading.add(
            Outcome.STOP,
            "E-FILE-MISSING",
            at_key(key),
            found=phrase("file {file} not found", file=quoted(name)),
            fix=phrase("Put the file beside farm.toml, or mend its name"),
        )
    return path


def checked_value(reading: Reading, key: str, rule: Key, value: Any) -> Any:  # noqa: ANN401 - TOML's own
    """
    Return what stands behind a key, or None with its fault written down.

    Parameters
    ----------
    reading : Reading
        The file ``farm.toml``.
    key : str
        With its table, as the user would look for it.
    rule : Key
        What may stand there.
    value : any
        What stands there; None if nothing does.

    Returns
    -------
    any
        Of the rule's kind, or None.
    """
    at = at_key(key)
    if value is None:
        if rule.is_required:
            found, fix = phrase("not given"), phrase_of(_WORDS[rule.kind][0])
            reading.add(Outcome.STOP, "E-KEY-MISSING", at, found=found, fix=fix)
        return None
    is_right = type(value) is rule.kind or (rule.kind is float and type(value) is int)
    if not is_right or (rule.kind is str and not value.strip()):
        found = phrase_of(_WORDS[rule.kind][1], value=quoted(value))
        reading.add(Outcome.STOP, "E-KEY-KIND", at, found=found, fix=phrase("Write it so"))
        return None
    if rule.kind in (int, float) and not rule.low <= value <= rule.high:
        found = phrase(
            "{value} is not within {low:g} to {high:g}",
            value=quoted(value),
            low=rule.low,
            high=rule.high,
        )
        fix = phrase("Check value and unit")
        reading.add(Outcome.STOP, "E-KEY-RANGE", at, found=found, fix=fix)
        return None
    return float(value) if rule.kind is float else value
