"""When could each block be sprayed today, and when next?"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.windows.gate import open_run
from geo.windows.open_hours import Windows

NEVER = -1  # in place of the hour of a forecast: none of them


@dataclass(frozen=True, slots=True)
class Slots:
    """
    The first stretch of open hours of today and of the days after it that is long enough.

    Attributes
    ----------
    windows : Windows
        The rules' verdict they are taken from.
    needed : numpy.ndarray
        [h] Shape (block,): open hours in a row that each block takes.
    today, next : numpy.ndarray
        [1] Shape (block,): place of their first hour in the forecast, `NEVER` for none.
    run : numpy.ndarray
        [h] Shape (block,): open hours in a row that today's have, until the end of the day.
    """

    windows: Windows
    needed: IntArray
    today: IntArray
    next: IntArray
    run: IntArray

    @property
    def is_open(self) -> BoolArray:
        """
        Return which blocks may be sprayed today.

        Returns
        -------
        numpy.ndarray
            [1] Shape (block,).
        """
        is_open: BoolArray = self.today != NEVER
        return is_open

    def span(self) -> tuple[FloatArray, FloatArray]:
        """
        Return between which times leaving a block today costs anything.

        Returns
        -------
        numpy.ndarray
            [h] Start of today's hours, shape (block,), since the season's first hour; where there
            are none, the end of the forecast.
        numpy.ndarray
            [h] Start of the next ones, or the end of the forecast.
        """
        ends = np.append(self.windows.hour, self.windows.hour.max(initial=-1.0) + 1.0)
        return ends[self.today], ends[self.next]

    def next_window(self, block: int) -> datetime | None:
        """
        Return when a block is next open after today.

        Parameters
        ----------
        block : int
            Its place.

        Returns
        -------
        datetime.datetime or None
            Local; None if not within the forecast.
        """
        at = int(self.next[block])
        return None if at == NEVER else self.windows.start[at].replace(tzinfo=None)

    def end_of_forecast(self) -> datetime:
        """
        Return when the hours that were asked about end.

        Returns
        -------
        datetime.datetime
            Local.
        """
        return self.windows.start[-1].replace(tzinfo=None) + timedelta(hours=1)

    def stretch(self, block: int) -> dict[str, Any]:
        """
        Return when a block is open today, and what warns in those hours.

        Parameters
        ----------
        block : int
            Place of one that is.

        Returns
        -------
        dict
            Of the fields of a spray entry.
        """
        first = int(self.today[block])
        last = first + int(self.run[block])
        start = self.windows.start
        return {
            "open_from": start[first].replace(tzinfo=None),
            "open_until": start[last - 1].replace(tzinfo=None) + timedelta(hours=1),
            "cautions": tuple(
                gate.rule.title
                for gate in self.windows.gates
                if gate.rule.is_caution and gate.of_block(gate.is_closed, block)[first:last].any()
            ),
        }


def slots_of(windows: Windows, hours: FloatArray | None) -> Slots:
    """
    Return when each block could be sprayed.

    Parameters
    ----------
    windows : Windows
        The rules' verdict.
    hours : numpy.ndarray or None
        [h] Of sprayer that each block takes, shape (block,); None where they are not known: an
        open hour is enough then.

    Returns
    -------
    Slots
        Of every block.
    """
    block_count, day = len(windows.is_closed), windows.hours_of_day
    hours = np.ones(block_count) if hours is None else hours
    needed = np.maximum(np.ceil(hours), 1.0).astype(np.int64)
    # Today's hours end with the day; a later stretch may run on past midnight.
    of_day = open_run(windows.is_closed[:, :day])
    later = open_run(windows.is_closed)[:, day:]
    today = _first(of_day >= needed[:, None])
    after = _first(later >= needed[:, None])
    run = np.zeros(block_count, dtype=np.int64)
    is_open = today != NEVER
    run[is_open] = of_day[is_open, today[is_open]]
    return Slots(windows, needed, today, np.where(after == NEVER, NEVER, after + day), run)


def _first(is_so: BoolArray) -> IntArray:
    """Return the first place of each row where it is so, or `NEVER`."""
    if not is_so.shape[1]:
        return np.full(len(is_so), NEVER)
    return np.where(is_so.any(axis=1), is_so.argmax(axis=1), NEVER)
