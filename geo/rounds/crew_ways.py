"""Does the way of a planned crew lead through a block, so that it must not be sprayed before?"""

from collections.abc import Iterator
from math import isnan

import numpy as np

from geo.rounds.day_windows import MINUTES_AN_HOUR, minute_of_day
from geo.rounds.sprayer_day import Known, label_intervals
from geo.routing.ways import crossed_by
from geo.texts import phrase

# Our own choice, where the label's hours are not known: nobody walks through on the day after.
UNKNOWN_RE_ENTRY_HOURS = 24.0
HOURS_A_DAY = 24.0
Stretches = tuple[tuple[float, float], ...]


def apart_from_crews(
    known: Known, open_hours: dict[int, Stretches]
) -> tuple[dict[int, Stretches], tuple[str, ...]]:
    """
    Return the open hours without those after which a crew would walk through a fresh spray.

    Parameters
    ----------
    known : Known
        All that the round is told from.
    open_hours : dict of int to tuple
        Minutes of the day, by place of the block.

    Returns
    -------
    dict of int to tuple
        A block that a crew's way leads through is closed while the crew works and, before that,
        for as long as the label keeps people out. A crew is taken to come from where the sprayers
        leave.
    tuple of str
        Which blocks lost hours, and to whom.
    """
    kept: dict[int, Stretches] = dict(open_hours)
    lost: dict[int, list[int]] = {}
    for block, goal, closed in _crossings(known):
        if block in kept:
            left = _without(kept[block], closed)
            if left != kept[block]:
                kept[block] = left
                lost.setdefault(block, []).append(goal)
    names = known.season.block.values.tolist()
    return kept, tuple(
        phrase(
            "{block} is not sprayed while it would be fresh for a crew: the way to {goals} leads "
            "through it.",
            block=names[block],
            goals=", ".join(dict.fromkeys(names[goal] for goal in goals)),
        )
        for block, goals in lost.items()
    )


def _crossings(known: Known) -> Iterator[tuple[int, int, tuple[float, float]]]:
    """Yield a block on a crew's way, where the crew goes, and the minutes closed by that."""
    crews, windows = known.farm.crews, known.windows
    if crews is None or not windows.start:
        return
    re_entry, _ = label_intervals(known.farm)
    hours = UNKNOWN_RE_ENTRY_HOURS if isnan(re_entry) else re_entry
    # Hours of the season at the first midnight of the round's day.
    midnight = windows.hour[0] - minute_of_day(windows.start[0]) / MINUTES_AN_HOUR
    is_near = (crews.end > midnight) & (crews.start < midnight + HOURS_A_DAY + hours)
    outlines = known.farm.blocks.geometry.to_numpy()
    for crew in np.flatnonzero(is_near).tolist():
        goal = int(crews.block[crew])
        start = float(crews.start[crew]) - midnight - hours
        end = float(crews.end[crew]) - midnight
        closed = start * MINUTES_AN_HOUR, end * MINUTES_AN_HOUR
        for crossed in crossed_by(known.ways.ways.bends(known.ways.start, goal), outlines).tolist():
            if crossed != goal:
                yield crossed, goal, closed


def _without(stretches: Stretches, closed: tuple[float, float]) -> Stretches:
    """Return what is left of the stretches outside the closed minutes."""
    parts = [
        part
        for start, end in stretches
        for part in ((start, min(end, closed[0])), (max(start, closed[1]), end))
    ]
    return tuple(part for part in parts if part[0] < part[1])
