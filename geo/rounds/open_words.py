"""From when till when is the day open for the blocks of the order, and what closes its ends?"""

from collections.abc import Iterator, Sequence

import numpy as np

from geo.arrays import BoolArray
from geo.rounds.day_windows import MINUTES_AN_HOUR, minute_of_day
from geo.texts import phrase
from geo.windows.open_hours import Windows

MOST_RULES = 2  # our own choice: more is not read


def open_words(windows: Windows, places: Sequence[int]) -> Iterator[str]:
    """
    Return the open hours of the day, and which rules close those before and after them.

    Parameters
    ----------
    windows : Windows
        The rules' verdict.
    places : sequence of int
        Of the blocks of the order.

    Yields
    ------
    str
        One sentence or several in one line, or none if no hour of the day is open.
    """
    rows = sorted(set(places))
    hours = windows.hours_of_day
    is_open: BoolArray = ~np.all(windows.is_closed[rows, :hours], axis=0)
    if not is_open.any():
        return
    first, last = int(is_open.argmax()), hours - 1 - int(is_open[::-1].argmax())
    ends = minute_of_day(windows.start[last]) + MINUTES_AN_HOUR
    span = {"start": f"{windows.start[first]:%H:%M}", "end": _clock(ends)}
    gaps = int((~is_open[first : last + 1]).sum())
    words = [
        phrase("Open today: {start} to {end}, less {gaps} h between.", gaps=gaps, **span)
        if gaps
        else phrase("Open today: {start} to {end}.", **span)
    ]
    if first:
        closers = _closers(windows, rows, slice(0, first))
        words.append(phrase("Before that closed by: {rules}.", rules=closers))
    if last + 1 < hours:
        closers = _closers(windows, rows, slice(last + 1, hours))
        words.append(phrase("After that closed by: {rules}.", rules=closers))
    yield " ".join(words)


def _closers(windows: Windows, rows: Sequence[int], hours: slice) -> str:
    """Return the rules that close most of some hours, and in what share of blocks and hours."""
    shares = [
        (float(np.mean([gate.of_block(gate.is_closed, row)[hours] for row in rows])), gate.rule)
        for gate in windows.closing
    ]
    most = sorted(shares, key=lambda one: -one[0])[:MOST_RULES]
    return "; ".join(f"{rule.about} ({share * 100:.0f} %)" for share, rule in most if share)


def _clock(minutes: float) -> str:
    hour, minute = divmod(round(minutes), round(MINUTES_AN_HOUR))
    return f"{hour:02d}:{minute:02d}"
