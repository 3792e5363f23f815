"""In which hours may each block be sprayed, and which rule closes the others?"""

from dataclasses import dataclass
from datetime import date, datetime

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.windows.gate import Gate
from geo.windows.sulfur_heat import HeatGate


@dataclass(frozen=True, slots=True)
class NotAsked:
    """
    Rules that nobody was asked about, since the farm does not give what they need.

    Attributes
    ----------
    about : str
        What they are about, as short as a heading, within a sentence.
    words : str
        That they are not asked, why, and what to do: one sentence or two.
    """

    about: str
    words: str


@dataclass(frozen=True, slots=True)
class Windows:
    """
    The rules' verdict on each block and forecast hour, for the planned material.

    Attributes
    ----------
    start : tuple of datetime.datetime
        Local start of each hour.
    hour : numpy.ndarray
        [h] Shape (hour,): the same, since the season's first hour.
    gates : tuple of Gate
        Every rule that was asked.
    is_closed : numpy.ndarray
        [1] Shape (block, hour): closed by any rule that closes.
    not_asked : tuple of NotAsked
        Rules that need what the farm does not give.
    heat : HeatGate or None
        The heat rule by day, from today on; None for other materials than sulfur.
    hot_days : numpy.ndarray
        [d] Shape (block,): days of this month that heat closed, as far as they are known.
    month_days : int
        Days of this month that are known.
    """

    start: tuple[datetime, ...]
    hour: FloatArray
    gates: tuple[Gate, ...]
    is_closed: BoolArray
    not_asked: tuple[NotAsked, ...]
    heat: HeatGate | None
    hot_days: IntArray
    month_days: int

    @property
    def closing(self) -> tuple[Gate, ...]:
        """
        Return the gates that close hours.

        Returns
        -------
        tuple of Gate
            Without cautions.
        """
        return tuple(gate for gate in self.gates if not gate.rule.is_caution)

    @property
    def day(self) -> date | None:
        """
        Return the day the round is planned for.

        Returns
        -------
        datetime.date or None
            Of the first forecast hour; None without a forecast.
        """
        return self.start[0].date() if self.start else None

    @property
    def hours_of_day(self) -> int:
        """
        Return how many hours of that day are left.

        Returns
        -------
        int
            They are the first hours of the forecast.
        """
        return sum(hour.date() == self.day for hour in self.start)


def closed_by_any(gates: tuple[Gate, ...], *, block_count: int, hour_count: int) -> BoolArray:
    """
    Return which hours any of the closing rules closes.

    Parameters
    ----------
    gates : tuple of Gate
        Cautions among them close nothing.
    block_count, hour_count : int
        Shape of what is asked.

    Returns
    -------
    [1]
        Shape (block, hour).
    """
    is_closed = np.zeros((block_count, hour_count), dtype=bool)
    for gate in gates:
        if not gate.rule.is_caution:
            is_closed |= gate.is_closed
    return is_closed
