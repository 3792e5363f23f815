"""What is said of the hours of a walk?"""

from datetime import datetime

import numpy as np
import xarray as xr

from geo.reference.number import values
from geo.scouting.walk_hours import WalkHours
from geo.texts.days import long_day_words

MILDEW = "mildew"
NO_HOURS = "When to walk is not known: the sun does not rise."


def farm_words(hours: WalkHours | None, *, has_labels: bool = True) -> str:
    """
    Return in which hours to walk on the farm.

    Parameters
    ----------
    hours : WalkHours or None
        Of the next morning.
    has_labels : bool
        Whether the user named a label file.

    Returns
    -------
    str
        Plain sentences, for the whole farm.
    """
    if hours is None:
        return NO_HOURS
    since = "sunrise" if hours.start == hours.sunrise else "now; the sun is up"
    words = (
        f"Walk on {_day(hours.clock(hours.start))} from {_clock(hours, hours.start)} ({since}) to "
        f"{_clock(hours, hours.end)}, before heat and outside re-entry: growth shows best in low "
        "light (hours assumed)."
    )
    if not has_labels:
        words += " Re-entry is not asked: no label file is named. Check the label."
    if hours.rain > 0:
        words += f" Rain is forecast in these hours ({hours.rain:.1f} mm)."
    return words


def block_words(hours: WalkHours | None, season: xr.Dataset, block: int, *, disease: str) -> str:
    """
    Return in which hours to walk a block, and why not in others.

    Parameters
    ----------
    hours : WalkHours or None
        Of the next morning.
    season : xarray.Dataset
        With the sprays.
    block : int
        Its place.
    disease : str
        Name of the disease looked for.

    Returns
    -------
    str
        Plain sentences.
    """
    if hours is None:
        return NO_HOURS
    closed = _closed_words(hours, season, block)
    if not hours.is_open[block]:
        return closed or _hot_words(hours, block)
    start, end = float(hours.block_start[block]), float(hours.block_end[block])
    said = [
        f"Walk on {_day(hours.clock(start))} from {_clock(hours, start)} to {_clock(hours, end)}.",
        closed,
        _hot_words(hours, block),
        _dew_words(hours, block, disease),
    ]
    return " ".join(words for words in said if words)


def _closed_words(hours: WalkHours, season: xr.Dataset, block: int) -> str:
    spray, until = int(hours.closing_spray[block]), float(hours.closed_until[block])
    if spray < 0:
        return ""
    if spray >= season.sizes["spray"]:
        return (
            "Closed to people: what was sprayed here is no material known here, and unknown is "
            "closed. Mend its name in the diary, and check the label."
        )
    material = str(season["spray_material"].values[spray])
    done = _day(hours.clock(float(season["spray_hour"].values[spray])))
    if np.isinf(until):
        return (
            f"Closed to people: re-entry after {material} of {done} is not in your label file, "
            "and unknown is closed. Check the label."
        )
    ends = hours.clock(until)
    return f"Closed to people until {_day(ends)} {ends:%H:%M}: re-entry after {material} of {done}."


def _hot_words(hours: WalkHours, block: int) -> str:
    limit, heat = values("scouting", "walk")["heat"], float(hours.heat[block])
    if np.isnan(heat):
        return "How warm it gets is not forecast."
    if heat <= hours.start:
        return (
            f"{limit:.0f} °C or more is forecast from the start of these hours: walk another day."
        )
    return "" if np.isinf(heat) else f"{limit:.0f} °C is forecast from {_clock(hours, heat)} on."


def _dew_words(hours: WalkHours, block: int, disease: str) -> str:
    if not hours.is_dewy[block] > 0:
        return ""
    if MILDEW in disease:
        return "Dew is likely: drops on white growth mark it."
    return (
        "Dew is likely: conidia move in water, so walk blocks with much disease last "
        "(common practice, no source)."
    )


def _clock(hours: WalkHours, hour: float) -> str:
    return f"{hours.clock(hour):%H:%M}"


def _day(moment: datetime) -> str:
    return long_day_words(moment)
