"""Where a day stands on the drawing of a season, and which days are named beneath it."""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import xarray as xr

from geo.arrays import FloatArray
from geo.exports.page_words import as_date
from geo.season.today import today_of
from geo.texts.days import short_day_words

# Units of the drawing: wide enough for a phone without turning it.
WIDTH, LEFT, RIGHT = 400.0, 38.0, 8.0
NAME_ROOM = 46.0  # that "30 Nov" needs beneath the drawing


@dataclass(frozen=True, slots=True)
class Week:
    """
    A Monday.

    Attributes
    ----------
    x : float
        Where its day begins.
    name : str
        Such as ``5 Jan``; empty where there is no room.
    """

    x: float
    name: str


@dataclass(frozen=True, slots=True)
class Frame:
    """
    The days of a drawing.

    Attributes
    ----------
    first : datetime.date
        First day.
    count : int
        Days.
    today : int
        Place of today; it may lie beyond the last day.
    left, right : float
        Edges of the days in the drawing.
    """

    first: date
    count: int
    today: int
    left: float = LEFT
    right: float = WIDTH - RIGHT

    @property
    def day_width(self) -> float:
        """
        Return the width of a day.

        Returns
        -------
        float
            In units of the drawing.
        """
        return (self.right - self.left) / self.count

    @property
    def ahead(self) -> float:
        """
        Return where the days after today begin.

        Returns
        -------
        float
            The right edge if there are none.
        """
        return self.start(min(self.today + 1, self.count))

    def start(self, day: float) -> float:
        """
        Return where a day begins.

        Parameters
        ----------
        day : float
            Days from the first.

        Returns
        -------
        float
            In units of the drawing.
        """
        return round(self.left + day * self.day_width, 1)

    def date(self, day: int) -> date:
        """
        Return the date of a day.

        Parameters
        ----------
        day : int
            Days from the first; below 0 for one before it.

        Returns
        -------
        datetime.date
            By the farm's calendar.
        """
        return self.first + timedelta(days=day)

    def middles(self) -> FloatArray:
        """
        Return the middle of each day.

        Returns
        -------
        ndarray
            Shape (day,).
        """
        days = np.arange(self.count, dtype=np.float64)
        return self.left + (days + 0.5) * self.day_width

    def weeks(self) -> tuple[Week, ...]:
        """
        Return the Mondays, as many of them named as there is room for.

        Returns
        -------
        tuple of Week
            First to last.
        """
        mondays = range(-self.first.weekday() % 7, self.count, 7)
        step = max(1, int(np.ceil(NAME_ROOM / (7 * self.day_width))))
        return tuple(
            Week(self.start(day), self._name(day) if number % step == 0 else "")
            for number, day in enumerate(mondays)
        )

    def _name(self, day: int) -> str:
        if self.start(day) + NAME_ROOM / 2 > self.right + RIGHT:
            return ""
        return short_day_words(self.date(day))


def frame_of(season: xr.Dataset, *, left: float = LEFT, right: float = WIDTH - RIGHT) -> Frame:
    """
    Return the days of a season as a drawing shows them.

    Parameters
    ----------
    season : xarray.Dataset
        Any.
    left, right : float
        Edges of the days in the drawing.

    Returns
    -------
    Frame
        All its days.
    """
    days = season["day"].values
    return Frame(as_date(days[0]), len(days), today_of(season), left, right)
