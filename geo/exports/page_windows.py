"""The open and closed hours of each block as the page reads them."""

from math import isfinite
from typing import Any

import numpy as np

from geo.texts.days import day_words, weekday_number_words
from geo.windows.open_hours import Windows

MOST_HOURS = 72  # of the strip on the card; the table has them all


def windows_data(windows: Windows) -> dict[str, Any]:
    """
    Return which rule closes which hour.

    Parameters
    ----------
    windows : Windows
        The rules' verdict.

    Returns
    -------
    dict
        Hours in words; the rules that close or warn in any of them; and for each block its
        pattern: a number of 32 bits an hour, with one bit a rule.
    """
    hours = windows.start[:MOST_HOURS]
    shape = (windows.is_closed.shape[0], len(hours))
    shown = [gate for gate in windows.gates if gate.is_closed[:, : len(hours)].any()]
    bits = np.zeros(shape, dtype=np.uint32)
    for place, gate in enumerate(shown):
        bits |= gate.is_closed[:, : len(hours)].astype(np.uint32) << np.uint32(place)
    patterns, which = np.unique(bits, axis=0, return_inverse=True)
    return {
        "days": [day_words(hour.date()) for hour in hours],
        "weekdays": [weekday_number_words(hour.date()) for hour in hours],
        "clock": [f"{hour:%H:%M}" for hour in hours],
        "rules": [
            {
                "title": gate.rule.about,
                "limit": gate.rule.limit if isfinite(gate.rule.limit) else None,
                "unit": gate.rule.unit,
                "caution": gate.rule.is_caution,
            }
            for gate in shown
        ],
        "patterns": patterns.astype("<u4"),
        "of": which.ravel().tolist(),
        "not_asked": [unasked.words for unasked in windows.not_asked],
    }
