"""What happened in the blocks on the days that the page shows: sprays, and looks at the organ."""

from typing import Any

import numpy as np
import xarray as xr

from geo.arrays import AnyArray, IntArray
from geo.texts import phrase_of

MOST_KINDS = 255  # of materials: a byte each


def events_data(season: xr.Dataset, days: IntArray) -> dict[str, Any]:
    """
    Return sprays and looks, each with its block, day and what it was.

    Parameters
    ----------
    season : xarray.Dataset
        Of a disease, with all its days.
    days : [1]
        Places of the days that are shown, each the next of the one before.

    Returns
    -------
    dict
        ``materials``, names; ``sprays`` and ``looks``, each three columns, sorted by block:
        blocks in 32 bits, days counted from the first shown and values in 8. A spray's value is
        the place of its material, a look's the infected share in percent.
    """
    hour, hour_day = season["spray_hour"].values, season["hour_day"].values
    within = np.clip(hour.astype(np.int64), 0, len(hour_day) - 1)
    # A spray before the season's first hour lies on none of its days.
    day = np.where(hour < 0, -1, hour_day[within])
    materials, kind = np.unique(season["spray_material"].values, return_inverse=True)
    infected, inspected = season["visit_infected"].values, season["visit_inspected"].values
    share = np.divide(100 * infected, inspected, out=np.zeros(infected.shape), where=inspected > 0)
    return {
        "materials": [phrase_of(str(material)) for material in materials[:MOST_KINDS]],
        "sprays": _list(season["spray_block"].values, day, kind, days),
        "looks": _list(
            season["visit_block"].values, season["visit_day"].values, np.round(share), days
        ),
    }


def _list(block: AnyArray, day: AnyArray, value: AnyArray, days: IntArray) -> dict[str, IntArray]:
    is_shown = np.isin(day, days)
    first = int(days[0]) if days.size else 0
    order = np.flatnonzero(is_shown)[np.lexsort((day[is_shown], block[is_shown]))]
    return {
        "block": block[order].astype("<u4"),
        "day": (day[order] - first).astype("u1"),
        "value": np.minimum(value[order], MOST_KINDS).astype("u1"),
    }
