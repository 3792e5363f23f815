"""What is said of the hours of a walk?"""

from datetime import datetime

import numpy as np
import xarray as xr

from geo.reference.number import values
from geo.scouting.walk_hours import WalkHours
from geo.texts import mark, phrase, phrase_of
from geo.texts.days import long_day_words

MILDEW = "powdery mildew"
NO_HOURS = mark("When to walk is not known: the sun does not rise.")


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
        return phrase_of(NO_HOURS)
    said = [_span_words(hours)]
    if not has_labels:
        said.append(phrase("Re-entry is not asked: no label file is named. Check the label."))
    if hours.rain > 0:
        said.append(phrase("Rain is forecast in these hours ({rain:.1f} mm).", rain=hours.rain))
    return " ".join(said)


def _span_words(hours: WalkHours) -> str:
    told = {
        "day": _day(hours.clock(hours.start)),
        "start": _clock(hours, hours.start),
        "end": _clock(hours, hours.end),
    }
    if hours.start == hours.sunrise:
        return phrase(
            "Walk on {day} from {start} (sunrise) to {end}, before heat and outside re-entry: "
            "growth shows best in low light (hours assumed).",
            **told,
        )
    return phrase(
        "Walk on {day} from {start} (now; the sun is up) to {end}, before heat and outside "
        "re-entry: growth shows best in low light (hours assumed).",
        **told,
    )


def block_words(hours: WalkHours | None, season: xr.Dataset, block: int, *, agent: str) -> str:
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
    agent : str
        Of the disease looked for.

    Returns
    -------
    str
        Plain sentences.
    """
    if hours is None:
        return phrase_of(NO_HOURS)
    closed = _closed_words(hours, season, block)
    if not hours.is_open[block]:
        return closed or _hot_words(hours, block)
    start, end = float(hours.block_start[block]), float(hours.block_end[block])
    said = [
        phrase(
            "Walk on {day} from {start} to {end}.",
            day=_day(hours.clock(start)),
            start=_clock(hours, start),
            end=_clock(hours, end),
        ),
        closed,
        _hot_words(hours, block),
        _dew_words(hours, block, agent),
    ]
    return " ".join(words for words in said if words)


def _closed_words(hours: WalkHours, season: xr.Dataset, block: int) -> str:
    spray, until = int(hours.closing_spray[block]), float(hours.closed_until[block])
    if spray < 0:
        return ""
    if spray >= season.sizes["spray"]:
        return phrase(
            "Closed to people: what was sprayed here is no material known here, and unknown is "
            "closed. Mend its name in the diary, and check the label."
        )
    material = phrase_of(str(season["spray_material"].values[spray]))
    done = _day(hours.clock(float(season["spray_hour"].values[spray])))
    if np.isinf(until):
        return phrase(
            "Closed to people: re-entry after {material} of {day} is not in your label file, and "
            "unknown is closed. Check the label.",
            material=material,
            day=done,
        )
    ends = hours.clock(until)
    return phrase(
        "Closed to people until {end_day} {end:%H:%M}: re-entry after {material} of {day}.",
        end_day=_day(ends),
        end=ends,
        material=material,
        day=done,
    )


def _hot_words(hours: WalkHours, block: int) -> str:
    limit, heat = values("scouting", "walk")["heat"], float(hours.heat[block])
    if np.isnan(heat):
        return phrase("How warm it gets is not forecast.")
    if heat <= hours.start:
        return phrase(
            "{limit:.0f} °C or more is forecast from the start of these hours: walk another day.",
            limit=limit,
        )
    if np.isinf(heat):
        return ""
    return phrase(
        "{limit:.0f} °C is forecast from {hour} on.", limit=limit, hour=_clock(hours, heat)
    )


def _dew_words(hours: WalkHours, block: int, agent: str) -> str:
    if not hours.is_dewy[block] > 0:
        return ""
    if agent == MILDEW:
        return phrase("Dew is likely: drops on white growth mark it.")
    return phrase(
        "Dew is likely: conidia move in water, so walk blocks with much disease last "
        "(common practice, no source)."
    )


def _clock(hours: WalkHours, hour: float) -> str:
    return f"{hours.clock(hour):%H:%M}"


def _day(moment: datetime) -> str:
    return long_day_words(moment)
