"""What was read, what was assumed and which version computed it."""

import hashlib
import json
import platform
from collections.abc import Iterable, Mapping
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path

import pyogrio
import pyproj
import rasterio
import shapely
import xarray as xr

from geo import __version__
from geo.exports.files import write_text
from geo.exports.order_tables import LEVEL
from geo.exports.run_parts import PARTS
from geo.exports.run_settings import settings_standing, settings_used
from geo.ranking.factors import FACTORS
from geo.reference.number import TABLES, numbers
from geo.rounds.order import SprayOrder
from geo.scouting.order import ScoutingOrder
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.texts import language, phrase_of

LIBRARIES = (
    "geopandas",
    "shapely",
    "rasterio",
    "pyogrio",
    "pyproj",
    "exactextract",
    "pvlib",
    "pyvrp",
    "numpy",
    "scipy",
    "pandas",
    "xarray",
    "tzdata",
)


def run_record(
    farm: Farm,
    season: xr.Dataset,
    *,
    spray: SprayOrder,
    scouting: ScoutingOrder,
    layers: Iterable[str],
    seasons: Mapping[str, xr.Dataset] | None = None,
    decided: Mapping[str, Mapping[str, object]] | None = None,
) -> dict[str, object]:
    """
    Return the record of a run. It holds no clock time: equal inputs give an equal record.

    Parameters
    ----------
    farm : Farm
        As read.
    season : xarray.Dataset
        Ranked.
    spray : SprayOrder
        What was decided.
    scouting : ScoutingOrder
        What was decided.
    layers : iterable of str
        Names of the layers that ran, in order.
    seasons : mapping of str to xarray.Dataset, optional
        Of every disease by its key; else only ``season``.
    decided : mapping of str to mapping, optional
        What `geo.exports.run_decided` tells of each disease, by its key.

    Returns
    -------
    dict
        Ready for JSON.
    """
    return {
        "parts": {part: phrase_of(words) for part, words in PARTS.items()},
        "farm": farm.name,
        "made_scenario": farm.is_made,
        "today": farm.today.isoformat(),
        "language": language().tag,
        "zone": farm.zone,
        "crs": farm.crs.to_string(),
        "honesty_level": LEVEL,
        "software": _software(),
        "parameter_set": parameter_hashes(),
        "parameters": _parameters(),
        "settings": settings_used(farm, spray),
        "settings_standing": settings_standing(farm.settings),
        "layers": list(layers),
        "files": [
            {
                "role": file.role,
                "name": file.path.name,
                "bytes": file.size,
                "sha256": file.sha256,
                "used": file.used,
                "held": file.held,
            }
            for file in farm.files
        ],
        "weather": {
            "first_hour_utc": str(season.hour.values[0])[:16] + "Z",
            "last_measured_hour_utc": _last_measured(season),
            "last_hour_utc": str(season.hour.values[-1])[:16] + "Z",
            "filled_hours": int(season.is_filled.values.sum()),
            "station_shares": dict(
                zip(
                    season.station.values.tolist(),
                    season.station_weight.values.tolist(),
                    strict=True,
                )
            ),
        },
        "cool_pools": {
            "loggers": season.logger.values.tolist(),
            "full_strength_K": _estimate(season, "pool_full_strength"),
            "scale_depth_m": _estimate(season, "pool_scale_depth"),
        },
        "ground": {
            "vertical_error_m": float(season.vertical_error),
            "poorly_known": _poor_ground(season),
        },
        "issues": [str(issue) for issue in farm.issues],
        "spray_order": [entry.block for entry in spray.entries],
        "avoidable_ha_days": {entry.block: entry.avoidable for entry in spray.entries},
        "cannot_now": [held.block for held in spray.cannot_now],
        "within_hours_today": [entry.block for entry in spray.entries if entry.is_within],
        "not_worth_it_now": [rest.block for rest in spray.not_worth],
        "notes_of_the_day": list(spray.notes),
        "rules_not_asked": [unasked.words for unasked in spray.not_asked],
        "scouting_order": [entry.block for entry in scouting.entries],
        **_ranking(season),
        "diseases": {
            key: _ranking(of_it) | dict((decided or {}).get(key, {}))
            for key, of_it in (seasons or {disease_key(season): season}).items()
        },
    }


def _ranking(season: xr.Dataset) -> dict[str, object]:
    """Return the factors of each block and their product."""
    blocks = season.block.values.tolist()
    names = [factor.name for factor in FACTORS]
    rows = [list(map(_number, row)) for row in season.factors.values.tolist()]
    hazard = map(_number, season.hazard_ahead.values.tolist())
    return {
        "factors": {
            block: dict(zip(names, row, strict=True))
            for block, row in zip(blocks, rows, strict=True)
        },
        "hazard_ahead": dict(zip(blocks, hazard, strict=True)),
    }


def _software() -> dict[str, str]:
    return {
        "mangoblock-risk": __version__,
        "python": platform.python_version(),
        **{library: version(library) for library in LIBRARIES},
        # What the libraries above bring along, and reckon with.
        "GDAL of rasterio": rasterio.__gdal_version__,
        "GDAL of pyogrio": pyogrio.__gdal_version_string__,
        "GEOS": shapely.geos_version_string,
        "PROJ": pyproj.proj_version_str,
    }


def _parameters() -> dict[str, dict[str, object]]:
    """Return every number of the parameter set with its standing and source."""
    return {
        f"{table}: {subject}: {quantity}": {
            "value": number.value,
            "unit": number.unit,
            "standing": number.standing,
            "source": number.source,
        }
        for table in TABLES
        for (subject, quantity), number in numbers(table).items()
    }


def parameter_hashes() -> dict[str, str]:
    """
    Return the digest of each reference table, which together are the parameter set.

    Returns
    -------
    dict of str to str
        File name to SHA-256.
    """
    tables = files("geo.reference") / "tables"
    return {
        table.name: hashlib.sha256(table.read_bytes()).hexdigest()
        for table in sorted(tables.iterdir(), key=lambda table: table.name)
    }


def write_run_record(path: Path, record: dict[str, object]) -> None:
    """
    Write the record as JSON.

    Parameters
    ----------
    path : pathlib.Path
        Of the file.
    record : dict
        As `run_record` gives it.
    """
    text = json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)
    write_text(path, f"{text}\n")


def _poor_ground(season: xr.Dataset) -> dict[str, dict[str, float]]:
    """Return how far ground is known, and the doubt left, where some is left."""
    return {
        str(block): {"share_known": float(covered), "doubt": float(doubt)}
        for block, covered, doubt in zip(
            season.block.values,
            season.terrain_covered.values,
            season.terrain_doubt.values,
            strict=True,
        )
        if doubt > 0.0
    }


def _estimate(season: xr.Dataset, name: str) -> dict[str, float]:
    return {
        "value": float(season[name]),
        "low_90": float(season[f"{name}_low"]),
        "high_90": float(season[f"{name}_high"]),
        "prior_share": float(season[f"{name}_prior_share"]),
    }


def _last_measured(season: xr.Dataset) -> str:
    # Of a day that is not whole too, although its hours are not in the season.
    return f"{season.attrs['last_measured']}Z"


def _number(value: float) -> float | None:
    """Return a number that JSON can hold: what is not known is null, never NaN."""
    return value if value == value else None  # noqa: PLR0124 - only NaN differs from itself
