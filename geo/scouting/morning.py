"""From when to when is each block looked at on a walk, on the farm's clocks?"""

from datetime import datetime

import numpy as np
import xarray as xr

from geo.scouting.walk import Morning
from geo.scouting.walk_hours import WalkHours, walk_hours
from geo.scouting.when import farm_words
from geo.season.farm import Farm


def morning_of(farm: Farm, season: xr.Dataset) -> Morning | None:
    """
    Return when to look next.

    Parameters
    ----------
    farm : Farm
        With the user's labels.
    season : xarray.Dataset
        With weather and sprays.

    Returns
    -------
    Morning or None
        Of the first morning that is not over; None where the sun does not rise.
    """
    hours = walk_hours(farm, season)
    if hours is None:
        return None
    blocks = [str(block) for block in season["block"].values]
    spans = zip(hours.block_start.tolist(), hours.block_end.tolist(), strict=True)
    return Morning(
        opens=_local(hours, hours.start),
        closes=_local(hours, hours.end),
        hours={
            block: (_local(hours, start), _local(hours, end))
            for block, is_open, (start, end) in zip(blocks, hours.is_open, spans, strict=True)
            if is_open
        },
        re_entry_ends={
            block: None if np.isinf(until) else _local(hours, until)
            for block, spray, until in zip(
                blocks, hours.closing_spray, hours.closed_until.tolist(), strict=True
            )
            if spray >= 0
        },
        words=farm_words(hours, has_labels=farm.labels is not None),
    )


def _local(hours: WalkHours, hour: float) -> datetime:
    return hours.clock(hour).replace(tzinfo=None)
