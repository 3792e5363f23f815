"""What does ``farm.toml`` say? Every key checked, nothing guessed."""

import tomllib
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo, available_timezones

from geo.dispersal.named import KERNELS
from geo.errors import Outcome, quoted
from geo.infection.anthracnose_parameters import WETNESS_RULES
from geo.infection.panicle_mildew import RAIN_MODES
from geo.inputs.at import WHOLE_FILE, at_key
from geo.inputs.names import nearest
from geo.inputs.reading import Reading
from geo.inputs.settings_keys import KEYS, STATION_KEYS
from geo.inputs.settings_sprayers import read_round, read_sprayers
from geo.inputs.settings_stations import ONLY_STATION, Station, keys_with, read_stations
from geo.inputs.settings_values import checked_value, existing_file, refuse_key
from geo.inputs.weather import REFERENCE_HEIGHT_M
from geo.reference.diseases import DISEASES
from geo.season import Settings
from geo.season.sprayers import governing
from geo.texts import LANGUAGES, mark, phrase, phrase_of

FILE = "farm.toml"
FORMAT = 1
_Values = dict[tuple[str, str], Any]


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
    stations : tuple of Station
        Where the weather is measured: one, or several sorted by name.
    forecast_wind_height : float
        Of the forecast's wind above ground in m.
    settings : Settings
        The user's choices.
    layer : str
        Which layer of the file of outlines is meant; empty where it has but one.
    closes_lines : bool
        Whether walked lines that end where they began are taken as outlines.
    all_is_every_block : bool
        Whether "all" in the diary means every block.
    """

    name: str
    is_made: bool
    zone: ZoneInfo
    files: dict[str, Path]
    stations: tuple[Station, ...]
    forecast_wind_height: float
    settings: Settings
    layer: str = ""
    closes_lines: bool = False
    all_is_every_block: bool = False


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
        Where the file has faults they stand in its reading: then stations with faults are left
        out, the zone may stand in for another, and files named in it may not be there.

    Raises
    ------
    InputError
        If there is no such file, or it is no TOML.
    """
    tables, lists = _tables(reading)
    listed = lists["stations"]
    values = {
        (table, key): checked_value(
            reading, f"{table}.{key}".lstrip("."), rule, tables[table].get(key)
        )
        for table, keys in keys_with(listed).items()
        for key, rule in keys.items()
    }
    is_elsewhere = bool(values["", "files_elsewhere"])
    named = {
        key: existing_file(
            reading,
            f"files.{key}",
            values["files", key],
            is_elsewhere=is_elsewhere,
            may_come=key == "records",
        )
        for key in KEYS["files"]
        if values["files", key] is not None
    }
    files = {key: path for key, path in named.items() if path is not None}
    stations: dict[Station, Path] = {}
    if listed is not None:
        is_single_named = bool(tables["station"]) or values["files", "weather"] is not None
        stations = read_stations(
            reading, listed, is_single_named=is_single_named, is_elsewhere=is_elsewhere
        )
        _refuse_unknown_wind(reading, values)
    _refuse_choices(reading, values, materials)
    _refuse_format(reading, values["", "format"])
    sprayers = read_sprayers(reading, lists["sprayers"], single=_of("sprayer", values))
    day_round = read_round(reading, _of("round", values))
    reading.used = sum(value is not None for value in values.values())
    if listed is None and "weather" in files:
        stations = _only_station(values, files["weather"])
    chosen = {
        key: values[table, key]
        for table in ("plan", "scouting", "rules", "terrain", "model")
        for key in KEYS[table]
    }
    kind, agitated = governing(sprayers)
    chosen |= {"sprayer": kind, "agitated": agitated}
    chosen |= {"sprayers": sprayers, "day_round": day_round, "language": values["", "language"]}
    return FarmFile(
        name=values["", "name"] or "",
        is_made=bool(values["", "made"]),
        zone=_zone(values["", "zone"]),
        files=files | {station.role: path for station, path in stations.items()},
        stations=tuple(stations),
        forecast_wind_height=_forecast_wind_height(values, next(iter(stations), None)),
        settings=Settings(**{key: value for key, value in chosen.items() if value is not None}),
        layer=values["outlines", "layer"] or "",
        closes_lines=bool(values["outlines", "close_lines"]),
        all_is_every_block=bool(values["diary", "all_means_every_block"]),
    )


def _of(table: str, values: _Values) -> dict[str, Any]:
    return {key: values[table, key] for key in KEYS[table]}


def _only_station(values: _Values, weather: Path) -> dict[Station, Path]:
    of_one = {key: values["station", key] for key in STATION_KEYS.keys() & KEYS["station"].keys()}
    if any(value is None for value in of_one.values()):
        return {}
    return {Station(name=ONLY_STATION, role="weather", **of_one): weather}


def _zone(name: str | None) -> ZoneInfo:
    """Return the farm's zone; UTC while the named one is a fault that stops the run."""
    return ZoneInfo(name if name in available_timezones() else "UTC")


def _forecast_wind_height(values: _Values, first: Station | None) -> float:
    given = values["forecast", "wind_height"] or values["station", "forecast_wind_height"]
    return float(given or (first.wind_height if first else REFERENCE_HEIGHT_M))


def _refuse_unknown_wind(reading: Reading, values: _Values) -> None:
    # One station may lend the forecast its height; several may differ.
    if values["files", "forecast"] is not None and values["forecast", "wind_height"] is None:
        at = at_key("forecast.wind_height")
        found = phrase("not given beside [[stations]]")
        fix = phrase("Add it: metres above ground of the forecast's wind, mostly 10")
        reading.add(Outcome.STOP, "E-KEY-MISSING", at, found=found, fix=fix)


def _tables(reading: Reading) -> tuple[dict[str, Mapping[str, Any]], dict[str, object]]:
    try:
        content = tomllib.loads(reading.content().decode("utf-8"))
    except FileNotFoundError:
        fix = phrase("Name the folder that holds it, or copy one from the demo farm")
        found = phrase("not found in {folder}", folder=quoted(reading.path.parent))
        raise reading.refused("E-FILE-MISSING", WHOLE_FILE, found=found, fix=fix) from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError) as error:
        found, fix = phrase("not TOML: {error}", error=error), phrase("Mend the line")
        raise reading.refused("E-SETTINGS", WHOLE_FILE, found=found, fix=fix) from error
    lists = {name: content.pop(name, None) for name in ("stations", "sprayers")}
    tables: dict[str, Mapping[str, Any]] = {name: {} for name in KEYS}
    tables[""] = {key: value for key, value in content.items() if not isinstance(value, dict)}
    tables |= {name: table for name, table in content.items() if isinstance(table, dict)}
    for name, table in tables.items():
        if name not in KEYS:
            refuse_key(reading, f"[{name}]", [f"[{known}]" for known in KEYS if known])
            continue
        for key in table.keys() - KEYS[name].keys():
            refuse_key(reading, f"{name}.{key}".lstrip("."), list(KEYS[name]))
    return tables, lists


def _refuse_format(reading: Reading, number: int | None) -> None:
    # There has been one so far; whoever makes the next reads the older ones too, or refuses them.
    if number not in (None, FORMAT):
        found = phrase(
            "{number} is another form of this file than the one read here, {known}",
            number=quoted(number),
            known=FORMAT,
        )
        fix = phrase(
            "Take the version of the program it was written for, or write {known}", known=FORMAT
        )
        reading.add(Outcome.STOP, "E-FORMAT", at_key("format"), found=found, fix=fix)


def _refuse_choices(reading: Reading, values: _Values, materials: Collection[str]) -> None:
    zone = mark("Write an IANA name such as Asia/Manila; nearest: {nearest}")
    material = mark("Write an active ingredient; nearest: {nearest}")
    diseases = [disease.key for disease in DISEASES]
    choices = (
        ("", "language", LANGUAGES, mark("Write its tag; nearest: {nearest}")),
        ("", "zone", available_timezones(), zone),
        ("plan", "material", materials, material),
        ("plan", "mixed_with", materials, material),
        ("model", "disease", diseases, mark("Write a known disease; nearest: {nearest}")),
        ("model", "kernel", KERNELS, mark("Write a known kernel; nearest: {nearest}")),
        ("model", "rain_mode", RAIN_MODES, mark("Write a known mode; nearest: {nearest}")),
        ("model", "wetness_rule", WETNESS_RULES, mark("Write a known rule; nearest: {nearest}")),
    )
    for table, key, known, fix in choices:
        value = values[table, key]
        if value is not None and value not in known:
            reading.add(
                Outcome.STOP,
                "E-CHOICE-UNKNOWN",
                at_key(f"{table}.{key}".lstrip(".")),
                found=phrase("{value} is not known", value=quoted(value)),
                fix=phrase_of(fix, nearest=nearest(value, known)),
            )
    if values["plan", "sulfur_limit"] is not None and not values["plan", "sulfur_limit_reason"]:
        reading.add(
            Outcome.STOP,
            "E-LIMIT-REASON",
            at_key("plan.sulfur_limit"),
            found=phrase(
                "{limit} degC is set without a reason",
                limit=quoted(values["plan", "sulfur_limit"]),
            ),
            fix=phrase("Say why in sulfur_limit_reason, or leave the limit out"),
        )
