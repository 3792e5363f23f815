"""Does the way of a planned crew lead through a block that is sprayed the same day?"""

from dataclasses import replace

import numpy as np

from geo.rounds.day_round import SprayerDay, Stop
from geo.rounds.day_windows import minute_of_day
from geo.rounds.sprayer_day import Known
from geo.routing.ways import crossed_by


def with_crew_cautions(known: Known, days: tuple[SprayerDay, ...]) -> tuple[SprayerDay, ...]:
    """
    Return the sprayers' days with a caution where a crew would walk through.

    Parameters
    ----------
    known : Known
        All that the round is told from.
    days : tuple of SprayerDay
        As planned.

    Returns
    -------
    tuple of SprayerDay
        A crew is taken to come from where the sprayers leave. Whose work is over before the block
        is sprayed is not warned of.
    """
    ends = _ends_by_crossed(known)
    if not ends:
        return days
    place = {block: i for i, block in enumerate(known.season.block.values.tolist())}
    return tuple(
        replace(
            day, stops=tuple(_warned(stop, ends.get(place[stop.block], ())) for stop in day.stops)
        )
        for day in days
    )


def _warned(stop: Stop, crews: tuple[tuple[str, float], ...] | list[tuple[str, float]]) -> Stop:
    blocks = [block for block, end in crews if end > minute_of_day(stop.starts)]
    if not blocks:
        return stop
    words = f"The way of a crew to {', '.join(dict.fromkeys(blocks))} leads through here"
    return replace(stop, cautions=(*stop.cautions, words))


def _ends_by_crossed(known: Known) -> dict[int, list[tuple[str, float]]]:
    """Return for each block that crews' ways lead through where they go and when they are done."""
    crews, windows = known.farm.crews, known.windows
    if crews is None or not windows.start:
        return {}
    # Hours of the season at the first midnight of the round's day.
    midnight = windows.hour[0] - minute_of_day(windows.start[0]) / 60.0
    is_today = (crews.end > midnight) & (crews.start < midnight + 24.0)
    outlines = known.farm.blocks.geometry.to_numpy()
    names = known.season.block.values.tolist()
    found: dict[int, list[tuple[str, float]]] = {}
    for crew in np.flatnonzero(is_today).tolist():
        goal = int(crews.block[crew])
        end = (float(crews.end[crew]) - midnight) * 60.0
        for crossed in crossed_by(known.ways.ways.bends(known.ways.start, goal), outlines).tolist():
            if crossed != goal:
                found.setdefault(crossed, []).append((names[goal], end))
    return found
