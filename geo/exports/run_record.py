"""What was read, what was assumed and which version computed it."""

import hashlib
import json
import platform
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from importlib.metadata import version
from importlib.resources import files
from math import isfinite
from pathlib import Path

import xarray as xr

from geo import __version__
from geo.exports.files import write_text
from geo.exports.order_tables import LEVEL
from geo.ranking.factors import FACTORS
from geo.reference.number import TABLES, numbers
from geo.rounds.order import SprayOrder
from geo.scouting.order import ScoutingOrder
from geo.season.disease import disease_key
from geo.season.farm import Farm
from geo.season.label import Label
from geo.windows.rules import heat_limit

LIBRARIES = (
    "geopandas",
    "shapely",
    "rasterio",
    "pyproj",
    "exactextract",
    "pvlib",
    "numpy",
    "scipy",
    "xarray",
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
        "farm": farm.name,
        "made_scenario": farm.is_made,
        "today": farm.today.isoformat(),
        "zone": farm.zone,
        "honesty_level": LEVEL,
        "software": _software(),
        "parameter_set": parameter_hashes(),
        "parameters": _parameters(),
        "settings": _settings(farm, spray),
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
        "rules_not_asked": list(spray.not_asked),
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
    }


def _settings(farm: Farm, spray: SprayOrder) -> dict[str, object]:
    limit, where_from = heat_limit(farm)
    return {
        "horizon_days": farm.settings.horizon_days,
        "days_known_of_it": spray.horizon_days,
        "material": spray.material,
        "sprayer_hours_per_hectare": farm.settings.sprayer_hours_per_hectare,
        "reference_block": spray.reference_block,
        "sulfur_limit_degC": limit,
        "sulfur_limit_from": where_from,
        "mixed_with": farm.settings.mixed_with,
        "random_share": farm.settings.random_share,
        "visit_interval_days": farm.settings.visit_interval_days,
        "sprayer": farm.settings.sprayer,
        "agitated": farm.settings.agitated,
        "sprayers": [asdict(sprayer) for sprayer in farm.settings.sprayers],
        "round": {
            **asdict(farm.settings.day_round),
            "start": str(farm.settings.day_round.start or ""),
        },
        "reapply_line": farm.settings.reapply_line,
        "kernel": farm.settings.kernel,
        "wind_rose": farm.settings.wind_rose,
        "rain_mode": farm.settings.rain_mode,
        "vertical_error_m": farm.settings.vertical_error,
        "wetness_rule": farm.settings.wetness_rule,
        "disease": farm.settings.disease,
        "labels": [_label(label) for label in farm.labels or ()],
    }


def _label(label: Label) -> dict[str, object]:
    """Return what was copied from a label; what is not written down or endless is null."""
    told = {"frac_codes": list(label.frac_codes), "label_date": str(label.label_date or "")}
    return {
        name: value if not isinstance(value, float) or isfinite(value) else None
        for name, value in (asdict(label) | told).items()
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
