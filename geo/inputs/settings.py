"""What does ``farm.toml`` say? Every key checked, nothing guessed."""

import tomllib
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo, available_timezones

from geo.dispersal.layer import KERNELS
from geo.errors import Outcome, quoted
from geo.infection.panicle_mildew import RAIN_MODES
from geo.inputs.names import nearest
from geo.inputs.reading import Reading
from geo.inputs.settings_keys import KEYS, Key
from geo.season import Settings

FILE = "farm.toml"


@dataclass(frozen=True, slots=True)
class Station:
    """
    Where the weather is measured.

    Attributes
    ----------
    longitude, latitude : float
        Degrees, WGS 84.
    elevation : float
        Ground above sea level in m.
    wind_height : float
        Of the wind sensor above ground in m.
    forecast_wind_height : float
        Of the forecast's wind above ground in m.
    """

    longitude: float
    latitude: float
    elevation: float
    wind_height: float
    forecast_wind_height: float


@dataclass(frozen=True, slots=True)
class FarmFile:
    """
    ``farm.toml`` as read.

    Attributes
    ----------
    name : str
        Of the farm.
    is_made : bool
        True for a made scenario.
    zone : zoneinfo.ZoneInfo
        The farm's time zone.
    files : dict of str to pathlib.Path
        By role; all exist.
    station : Station
        Where the weather is measured.
    settings : Settings
        The user's choices.
    """

    name: str
    is_made: bool
    zone: ZoneInfo
    files: dict[str, Path]
    station: Station
    settings: Settings


_WORDS: dict[type, str] = {
    str: "a text",
    bool: "true or false",
    int: "a whole number",
    float: "a number",
}


def read_settings(reading: Reading, *, materials: Collection[str]) -> FarmFile:
    """
    Return the farm's settings.

    Parameters
    ----------
    reading : Reading
        The file ``farm.toml``.
    materials : collection of str
        Active ingredients that we know.

    Returns
    -------
    FarmFile
        All files named in it exist.

    Raises
    ------
    InputError
        With every fault of the file.
    """
    tables = _tables(reading)
    values = {
        (table, key): _value(reading, f"{table}.{key}".lstrip("."), rule, tables[table].get(key))
        for table, keys in KEYS.items()
        for key, rule in keys.items()
    }
    files = _files(reading, {key: values["files", key] for key in KEYS["files"]})
    _refuse_choices(reading, values, materials)
    reading.check()
    reading.used = sum(value is not None for value in values.values())
    station = {key: values["station", key] for key in KEYS["station"]}
    station["forecast_wind_height"] = station["forecast_wind_height"] or station["wind_height"]
    chosen = {key: values[table, key] for table in ("plan", "model") for key in KEYS[table]}
    return FarmFile(
        name=values["", "name"],
        is_made=values["", "made"],
        zone=ZoneInfo(values["", "zone"]),
        files=files,
        station=Station(**station),
        settings=Settings(**{key: value for key, value in chosen.items() if value is not None}),
    )


def _tables(reading: Reading) -> dict[str, Mapping[str, Any]]:
    try:
        content = tomllib.loads(reading.path.read_text("utf-8"))
    except FileNotFoundError:
        fix = "Name the folder that holds it, or copy one from the demo farm"
        found = f"not found in {quoted(reading.path.parent)}"
        raise reading.refused("E-FILE-MISSING", "", found=found, fix=fix) from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        found = f"not TOML: {error}"
        raise reading.refused("E-SETTINGS", "", found=found, fix="Mend the line") from error
    tables: dict[str, Mapping[str, Any]] = {name: {} for name in KEYS}
    tables[""] = {key: value for key, value in content.items() if not isinstance(value, dict)}
    tables |= {name: table for name, table in content.items() if isinstance(table, dict)}
    for name, table in tables.items():
        if name not in KEYS:
            _refuse_key(reading, f"[{name}]", [f"[{known}]" for known in KEYS if known])
            continue
        for key in table.keys() - KEYS[name].keys():
            _refuse_key(reading, f"{name}.{key}".lstrip("."), list(KEYS[name]))
    return tables


def _refuse_key(reading: Reading, key: str, known: list[str]) -> None:
    reading.add(
        Outcome.STOP,
        "E-KEY-UNKNOWN",
        f"key {quoted(key)}",
        found="nothing is set by it",
        fix=f"Write a known key; nearest: {nearest(key.rpartition('.')[2], known)}",
    )


def _value(reading: Reading, key: str, rule: Key, value: Any) -> Any:  # noqa: ANN401 - TOML's own
    at = f"key {quoted(key)}"
    if value is None:
        if rule.is_required:
            fix = f"Add it, with {_WORDS[rule.kind]}"
            reading.add(Outcome.STOP, "E-KEY-MISSING", at, found="not given", fix=fix)
        return None
    is_right = type(value) is rule.kind or (rule.kind is float and type(value) is int)
    if not is_right or (rule.kind is str and not value.strip()):
        found = f"{quoted(value)} is not {_WORDS[rule.kind]}"
        reading.add(Outcome.STOP, "E-KEY-KIND", at, found=found, fix="Write it so")
        return None
    if rule.kind in (int, float) and not rule.low <= value <= rule.high:
        found = f"{quoted(value)} is not within {rule.low:g} to {rule.high:g}"
        reading.add(Outcome.STOP, "E-KEY-RANGE", at, found=found, fix="Check value and unit")
        return None
    return float(value) if rule.kind is float else value


def _files(reading: Reading, names: dict[str, str | None]) -> dict[str, Path]:
    folder = reading.path.parent
    files = {role: folder / name for role, name in names.items() if name is not None}
    for role, path in files.items():
        if not path.is_file():
            reading.add(
                Outcome.STOP,
                "E-FILE-MISSING",
                f'key "files.{role}"',
                found=f"file {quoted(names[role])} not found",
                fix="Put the file beside farm.toml, or mend its name",
            )
    return files


def _refuse_choices(
    reading: Reading, values: dict[tuple[str, str], Any], materials: Collection[str]
) -> None:
    choices = (
        ("", "zone", available_timezones(), "Write an IANA name such as Asia/Manila"),
        ("plan", "material", materials, "Write an active ingredient"),
        ("model", "kernel", KERNELS, "Write a known kernel"),
        ("model", "rain_mode", RAIN_MODES, "Write a known mode"),
    )
    for table, key, known, fix in choices:
        value = values[table, key]
        if value is not None and value not in known:
            reading.add(
                Outcome.STOP,
                "E-CHOICE-UNKNOWN",
                f"key {quoted(f'{table}.{key}'.lstrip('.'))}",
                found=f"{quoted(value)} is not known",
                fix=f"{fix}; nearest: {nearest(value, known)}",
            )
    if values["plan", "sulfur_limit"] is not None and not values["plan", "sulfur_limit_reason"]:
        reading.add(
            Outcome.STOP,
            "E-LIMIT-REASON",
            'key "plan.sulfur_limit"',
            found=f"{quoted(values['plan', 'sulfur_limit'])} degC is set without a reason",
            fix="Say why in sulfur_limit_reason, or leave the limit out",
        )
