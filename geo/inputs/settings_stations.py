"""Which weather stations does ``farm.toml`` name? One, or a list of them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from geo.errors import Outcome, quoted
from geo.inputs.at import At, at_key
from geo.inputs.reading import Reading
from geo.inputs.settings_keys import KEYS, STATION_KEYS, Key
from geo.inputs.settings_values import checked_value, existing_file, refuse_key
from geo.season.file_roles import station_role
from geo.texts import phrase

ONLY_STATION = "station"


@dataclass(frozen=True, slots=True)
class Station:
    """
    Where weather is measured.

    Attributes
    ----------
    name : str
        As the user calls it.
    role : str
        What its file is read as.
    longitude, latitude : float
        Degrees, WGS 84.
    elevation : float
        Ground above sea level in m.
    wind_height : float
        Of the wind sensor above ground in m.
    """

    name: str
    role: str
    longitude: float
    latitude: float
    elevation: float
    wind_height: float


def keys_with(listed: object) -> dict[str, dict[str, Key]]:
    """
    Return the keys of the settings, fewer of them needed where stations are listed.

    Parameters
    ----------
    listed : object
        What stands behind ``stations``; None if nothing does.

    Returns
    -------
    dict of str to dict
        As `geo.inputs.settings_keys.KEYS`.
    """
    if listed is None:
        return KEYS
    at_will = {key: replace(rule, is_required=False) for key, rule in KEYS["station"].items()}
    files = {**KEYS["files"], "weather": Key()}
    return {**KEYS, "files": files, "station": at_will}


def read_stations(
    reading: Reading, listed: object, *, is_single_named: bool, is_elsewhere: bool = False
) -> dict[Station, Path]:
    """
    Return the stations of a list, sorted by name so that their order in the file tells nothing.

    Parameters
    ----------
    reading : Reading
        The file ``farm.toml``, for faults.
    listed : object
        What stands behind ``stations``.
    is_single_named : bool
        Whether ``[station]`` or ``files.weather`` is there besides.
    is_elsewhere : bool
        Whether files may lie outside the farm's folder.

    Returns
    -------
    dict of Station to pathlib.Path
        Each with its file; fewer than listed if faults were written down.
    """
    if is_single_named:
        found = phrase("a list of stations besides [station] or files.weather")
        fix = phrase("Keep either [station] with files.weather, or [[stations]]")
        reading.add(Outcome.STOP, "E-STATION-TWICE", At("[[stations]]"), found=found, fix=fix)
    if not isinstance(listed, list) or not listed or not all(map(_is_table, listed)):
        fix = phrase("Write each station under a line [[stations]]")
        found = phrase("{value} is not a list of tables", value=quoted(listed))
        reading.add(Outcome.STOP, "E-KEY-KIND", at_key("stations"), found=found, fix=fix)
        return {}
    named: dict[Station, Path] = {}
    for number, entry in enumerate(listed, start=1):
        found_station = _station(reading, number, entry, is_elsewhere=is_elsewhere)
        if found_station is None:
            continue
        station, path = found_station
        if station.name in {other.name for other in named}:
            found = phrase("{name} is named twice", name=quoted(station.name))
            fix = phrase("Give each its own name")
            reading.add(Outcome.STOP, "E-STATION-NAME", At("[[stations]]"), found=found, fix=fix)
        named[station] = path
    return {station: named[station] for station in sorted(named, key=lambda one: one.name)}


def _is_table(entry: object) -> bool:
    return isinstance(entry, dict)


def _station(
    reading: Reading, number: int, entry: Mapping[str, Any], *, is_elsewhere: bool
) -> tuple[Station, Path] | None:
    at = f"stations {number}"
    for key in entry.keys() - STATION_KEYS.keys():
        refuse_key(reading, f"{at}.{key}", list(STATION_KEYS))
    values = {
        key: checked_value(reading, f"{at}.{key}", rule, entry.get(key))
        for key, rule in STATION_KEYS.items()
    }
    if any(value is None for value in values.values()):
        return None
    name = values.pop("weather")
    path = existing_file(reading, f"{at}.weather", name, is_elsewhere=is_elsewhere)
    if path is None:
        return None
    return Station(role=station_role(values["name"]), **values), path
