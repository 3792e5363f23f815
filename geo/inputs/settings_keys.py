"""Which keys may stand in ``farm.toml``, and what may stand behind them."""

from dataclasses import dataclass
from math import inf


@dataclass(frozen=True, slots=True)
class Key:
    """
    What may stand behind a key.

    Attributes
    ----------
    kind : type
        str, bool, int or float; a whole number will do for a float.
    is_required : bool
        Whether it must be given.
    low, high : float
        Range of a number.
    """

    kind: type = str
    is_required: bool = False
    low: float = -inf
    high: float = inf


_TEXT, _NEEDED = Key(), Key(is_required=True)
# The wind profile of FAO-56 Eq. 47 holds above short grass, from about half a metre up.
LOWEST_WIND, HIGHEST_WIND = 0.5, 200.0
_PLACE = {
    "longitude": Key(float, is_required=True, low=-180, high=180),
    "latitude": Key(float, is_required=True, low=-90, high=90),
    "elevation": Key(float, is_required=True, low=-500, high=9000),
    "wind_height": Key(float, is_required=True, low=LOWEST_WIND, high=HIGHEST_WIND),
}
# Of each [[stations]], where there are several.
STATION_KEYS: dict[str, Key] = {"name": _NEEDED, **_PLACE, "weather": _NEEDED}
# Of [sprayer], or of each [[sprayers]]. What is beyond is a slip of the pen (our choice).
SPRAYER_KEYS = {
    "name": _TEXT,
    "kind": _TEXT,
    "agitated": Key(bool),
    "tank_litres": Key(float, low=1, high=20_000),
    "nozzles": Key(int, low=1, high=500),
    "speed": Key(float, low=0.1, high=15),
    "travel_speed": Key(float, low=0.5, high=60),
    "refill_minutes": Key(float, low=0, high=240),
}
ROUND_KEYS = {
    "start": _TEXT,
    "hours": Key(float, low=0.1, high=24),
    "row_spacing": Key(float, low=1, high=30),
    "row_direction": Key(float, low=0, high=360),
    "turn_seconds": Key(float, low=0, high=600),
    "turning_radius": Key(float, low=0.1, high=30),
    "setup_minutes": Key(float, low=0, high=120),
    "litres_per_hectare": Key(float, low=10, high=20_000),
    "canopy_height": Key(float, low=0.2, high=25),
    "canopy_width": Key(float, low=0.2, high=25),
    "litres_per_1000_m3": Key(float, low=1, high=1000),
}
KEYS: dict[str, dict[str, Key]] = {
    "": {
        "name": _NEEDED,
        "made": Key(bool, is_required=True),
        "zone": _NEEDED,
        "language": _TEXT,
        "files_elsewhere": Key(bool),
        "format": Key(int),
    },
    "files": {
        "outlines": _NEEDED,
        "elevation": _NEEDED,
        "weather": _NEEDED,
        "forecast": _TEXT,
        "loggers": _TEXT,
        "diary": _TEXT,
        "records": _TEXT,
        "scouting": _TEXT,
        "neighbours": _TEXT,
        "places": _TEXT,
        "labels": _TEXT,
        "crews": _TEXT,
        "columns": _TEXT,
    },
    "station": {
        **_PLACE,
        "forecast_wind_height": Key(float, low=LOWEST_WIND, high=HIGHEST_WIND),
    },
    "outlines": {"layer": _TEXT, "close_lines": Key(bool)},
    "diary": {"all_means_every_block": Key(bool)},
    "forecast": {"wind_height": Key(float, low=LOWEST_WIND, high=HIGHEST_WIND)},
    "plan": {
        "horizon_days": Key(int, low=1, high=14),
        "material": _TEXT,
        "mixed_with": _TEXT,
        "sprayer_hours_per_hectare": Key(float, low=0.01, high=100),
        "reference_block": _TEXT,
        "sulfur_limit": Key(float, low=10, high=45),
        "sulfur_limit_reason": _TEXT,
    },
    "scouting": {
        "random_share": Key(float, low=0, high=0.5),
        "visit_interval_days": Key(int, low=1, high=60),
    },
    "sprayer": SPRAYER_KEYS,
    "round": ROUND_KEYS,
    "rules": {"reapply_line": Key(float, low=0.05, high=0.9)},
    # Ground that may be off by more tells of no pool at all (our choice).
    "terrain": {"vertical_error": Key(float, low=0, high=50)},
    "model": {
        "disease": _TEXT,
        "kernel": _TEXT,
        "wind_rose": Key(bool),
        "rain_mode": _TEXT,
        "wetness_rule": _TEXT,
    },
}
