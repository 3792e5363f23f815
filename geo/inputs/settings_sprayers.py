"""Which sprayers does ``farm.toml`` name, and what does it set for a day's round?"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import time
from typing import Any

from geo.errors import Outcome, quoted
from geo.inputs.at import At, at_key
from geo.inputs.names import nearest
from geo.inputs.reading import Reading
from geo.inputs.settings_keys import KEYS
from geo.inputs.settings_values import checked_value, refuse_key
from geo.reference.fungicides import SPRAYERS
from geo.season.sprayers import RoundSettings, Sprayer
from geo.texts import phrase

ONLY_SPRAYER = "Sprayer"


def read_sprayers(
    reading: Reading, listed: object, *, single: Mapping[str, Any]
) -> tuple[Sprayer, ...]:
    """
    Return the sprayers in the order of the file.

    Parameters
    ----------
    reading : Reading
        The file ``farm.toml``, for faults.
    listed : object
        What stands behind ``sprayers``; None if nothing does.
    single : mapping of str to any
        What was read of ``[sprayer]``, each key checked; None where it was not given.

    Returns
    -------
    tuple of Sprayer
        Empty if none was described; fewer than listed if faults were written down.
    """
    is_single = any(value is not None for value in single.values())
    if listed is None:
        if not is_single:
            return ()
        is_known = _refuse_kind(reading, "sprayer", single["kind"])
        name, kind = single["name"] or ONLY_SPRAYER, single["kind"] if is_known else None
        return (Sprayer(**{**single, "name": name, "kind": kind}),)
    if is_single:
        found = phrase("a list of sprayers besides [sprayer]")
        fix = phrase("Write each sprayer under a line [[sprayers]]")
        reading.add(Outcome.STOP, "E-SPRAYER-TWICE", At("[[sprayers]]"), found=found, fix=fix)
    if not isinstance(listed, list) or not all(isinstance(entry, dict) for entry in listed):
        fix = phrase("Write each sprayer under a line [[sprayers]]")
        found = phrase("{value} is not a list of tables", value=quoted(listed))
        reading.add(Outcome.STOP, "E-KEY-KIND", at_key("sprayers"), found=found, fix=fix)
        return ()
    sprayers: dict[str, Sprayer] = {}
    for number, entry in enumerate(listed, start=1):
        sprayer = _sprayer(reading, f"sprayers {number}", entry)
        if sprayer is not None and sprayer.name in sprayers:
            found = phrase("{name} is named twice", name=quoted(sprayer.name))
            fix = phrase("Give each its own name")
            reading.add(Outcome.STOP, "E-SPRAYER-NAME", At("[[sprayers]]"), found=found, fix=fix)
        if sprayer is not None:
            sprayers[sprayer.name] = sprayer
    return tuple(sprayers.values())


def read_round(reading: Reading, values: Mapping[str, Any]) -> RoundSettings:
    """
    Return what is set for a day's round.

    Parameters
    ----------
    reading : Reading
        The file ``farm.toml``, for faults.
    values : mapping of str to any
        What was read of ``[round]``, each key checked; None where it was not given.

    Returns
    -------
    RoundSettings
        As the user set it, nothing assumed.
    """
    by_canopy = "litres_per_1000_m3"
    if values["litres_per_hectare"] is not None and values[by_canopy] is not None:
        found = phrase(
            "{key} and {other} both tell the spray volume",
            key="litres_per_hectare",
            other=by_canopy,
        )
        fix = phrase("Keep one of them")
        reading.add(Outcome.STOP, "E-VOLUME-TWICE", At("[round]"), found=found, fix=fix)
    return RoundSettings(**{**values, "start": _start(reading, values["start"])})


def _start(reading: Reading, written: str | None) -> time | None:
    if written is None:
        return None
    hour, _, minute = written.partition(":")
    if hour.isdecimal() and minute.isdecimal() and int(hour) < 24 and int(minute) < 60:  # noqa: PLR2004 - a clock
        return time(int(hour), int(minute))
    found = phrase("{value} is not a time of day", value=quoted(written))
    fix = phrase("Write hour and minute, such as 06:30")
    reading.add(Outcome.STOP, "E-KEY-KIND", at_key("round.start"), found=found, fix=fix)
    return None


def _sprayer(reading: Reading, at: str, entry: Mapping[str, Any]) -> Sprayer | None:
    keys = KEYS["sprayer"] | {"name": replace(KEYS["sprayer"]["name"], is_required=True)}
    for key in entry.keys() - keys.keys():
        refuse_key(reading, f"{at}.{key}", list(keys))
    values = {
        key: checked_value(reading, f"{at}.{key}", rule, entry.get(key))
        for key, rule in keys.items()
    }
    is_known = _refuse_kind(reading, at, values["kind"])
    return Sprayer(**values) if values["name"] and is_known else None


def _refuse_kind(reading: Reading, at: str, kind: str | None) -> bool:
    if kind is None or kind in SPRAYERS:
        return True
    found = phrase("{value} is not known", value=quoted(kind))
    fix = phrase(
        "Write a known kind of sprayer; nearest: {nearest}", nearest=nearest(kind, SPRAYERS)
    )
    reading.add(Outcome.STOP, "E-CHOICE-UNKNOWN", at_key(f"{at}.kind"), found=found, fix=fix)
    return False
