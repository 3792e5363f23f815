"""What about the day as a whole stands in the way of a round, in plain sentences?"""

from collections.abc import Iterator
from datetime import timedelta

import numpy as np

from geo.reference.number import numbers
from geo.season.farm import Farm
from geo.texts import phrase
from geo.windows.ask_material import SULFUR, planned
from geo.windows.open_hours import Windows
from geo.windows.rules import TABLE

MOST_RULES = 3  # our own choice: more is not read


def day_notes(farm: Farm, windows: Windows) -> tuple[str, ...]:
    """
    Return what keeps all blocks out, or many of them.

    Parameters
    ----------
    farm : Farm
        For the planned materials and the labels.
    windows : Windows
        The rules' verdict.

    Returns
    -------
    tuple of str
        A sentence each, with what to do about it; none on a day like any other.
    """
    return (*_labels(farm), *_forecast(farm, windows), *_hours(windows))


def _labels(farm: Farm) -> Iterator[str]:
    if farm.labels is None:
        return
    known = {label.material for label in farm.labels}
    for material in planned(farm):
        if material not in known:
            yield phrase(
                "Your label file has no usable row for {material}, and unknown is closed: copy the "
                "row from the label.",
                material=material,
            )


def _forecast(farm: Farm, windows: Windows) -> Iterator[str]:
    if not windows.start:
        yield phrase(
            "No forecast hour lies ahead, and unknown is closed: give a forecast that begins with "
            "the hour after the last measured one."
        )
        return
    days_after = int(numbers(TABLE)["sulfur", "heat_days_after"].value)
    last = windows.start[-1].date()
    if SULFUR in planned(farm) and last < windows.start[0].date() + timedelta(days=days_after):
        yield phrase(
            "The forecast ends on {last}: for sulfur {days_after} days after the day of the spray "
            "must be known, and unknown is closed. Give a longer forecast.",
            last=last,
            days_after=days_after,
        )


def _hours(windows: Windows) -> Iterator[str]:
    today = windows.is_closed[:, : windows.hours_of_day]
    if not today.size or not today.all():
        return
    closed = [
        (float(np.mean(gate.is_closed[:, : windows.hours_of_day])), gate.rule.about)
        for gate in windows.closing
    ]
    # Sorting keeps the order of the gates among equals: people and labels before weather.
    most = sorted(closed, key=lambda one: -one[0])[:MOST_RULES]
    told = "; ".join(f"{title} ({share * 100:.0f} %)" for share, title in most if share)
    yield phrase(
        "No hour of today is open in any block. Most hours are closed by: {rules}.", rules=told
    )
