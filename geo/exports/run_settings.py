"""Which settings did a run use, and who set them?"""

from dataclasses import asdict, fields
from math import isfinite

from geo.rounds.order import SprayOrder
from geo.season.farm import Farm, Settings
from geo.season.label import Label
from geo.windows.rules import heat_limit


def settings_used(farm: Farm, spray: SprayOrder) -> dict[str, object]:
    """
    Return every setting as it was used.

    Parameters
    ----------
    farm : Farm
        For its settings and labels.
    spray : SprayOrder
        Knows what was taken where the user said nothing.

    Returns
    -------
    dict
        Ready for JSON.
    """
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
        "language": farm.settings.language,
        "labels": [_label(label) for label in farm.labels or ()],
    }


def settings_standing(settings: Settings) -> dict[str, str]:
    """
    Return whether each setting is the user's own or the one that holds without a word.

    Parameters
    ----------
    settings : Settings
        As read from the farm file.

    Returns
    -------
    dict of str to str
        By its name.
    """
    default = Settings()
    return {
        field.name: "default"
        if getattr(settings, field.name) == getattr(default, field.name)
        else "set in farm.toml"
        for field in fields(Settings)
    }


def _label(label: Label) -> dict[str, object]:
    """Return what was copied from a label; what is not written down or endless is null."""
    told = {"frac_codes": list(label.frac_codes), "label_date": str(label.label_date or "")}
    return {
        name: value if not isinstance(value, float) or isfinite(value) else None
        for name, value in (asdict(label) | told).items()
    }
