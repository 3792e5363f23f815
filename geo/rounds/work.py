"""How long does it take to spray rows, and how is a block split into tanks?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray
from geo.texts import phrase

_METRES_A_MINUTE = 1000.0 / 60.0  # for each km/h
_SECONDS_A_MINUTE = 60.0
_ROUNDING = 1e-9  # a row that fills the tank to the last drop still fits


@dataclass(frozen=True, slots=True)
class Work:
    """
    What the time in a block is made of.

    Attributes
    ----------
    spraying, turning, filling, driving, setup : float
        Minutes.
    """

    spraying: float
    turning: float = 0.0
    filling: float = 0.0
    driving: float = 0.0
    setup: float = 0.0

    @property
    def minutes(self) -> float:
        """
        Return all of it.

        Returns
        -------
        float
            Minutes.
        """
        return self.spraying + self.turning + self.filling + self.driving + self.setup

    def hectares_an_hour(self, area: float) -> float:
        """
        Return how fast the area is done.

        Parameters
        ----------
        area : [ha]
            Sprayed in that time.

        Returns
        -------
        [ha h-1]
            With everything that is no spraying.
        """
        return area / self.minutes * 60.0  # minutes of an hour


def minutes_of_rows(
    length: FloatArray, *, speed: float, turn_seconds: float, setup_minutes: float = 0.0
) -> Work:
    """
    Return how long a stretch of rows takes, sprayed one after the other.

    Parameters
    ----------
    length : [m]
        Of each row, shape (row,).
    speed : [km h-1]
        While spraying.
    turn_seconds : [s]
        From one row into the next, nozzles off.
    setup_minutes : [min]
        Before the first row.

    Returns
    -------
    Work
        With one turn fewer than rows.
    """
    return Work(
        spraying=minutes_of_way(float(length.sum()), speed=speed),
        turning=max(0, len(length) - 1) * turn_seconds / _SECONDS_A_MINUTE,
        setup=setup_minutes,
    )


def minutes_of_way(metres: float, *, speed: float) -> float:
    """
    Return how long a way takes.

    Parameters
    ----------
    metres : [m]
        To drive.
    speed : [km h-1]
        Of travel.

    Returns
    -------
    [min]
        Without stops.
    """
    return metres / (speed * _METRES_A_MINUTE)


def work_rate(*, speed: float, width: float, share: float = 1.0) -> float:
    """
    Return the area done in an hour.

    Parameters
    ----------
    speed : [km h-1]
        While spraying.
    width : [m]
        Treated in one pass.
    share : [1]
        Of the time that is spraying.

    Returns
    -------
    [ha h-1]
        In theory, if the share is 1.
    """
    return speed * width * share / 10.0  # 1000 m in a km, 10 000 m2 in a hectare


def loads_of_rows(litres: FloatArray, *, tank_litres: float) -> tuple[int, ...]:
    """
    Return how many rows each load is enough for, if a tank is refilled at a row's end only.

    The fewest loads that hold every row in its place; of all ways to split them, that in which the
    loads differ least (the least sum of their squares), the larger first.

    Parameters
    ----------
    litres : [L]
        That each row takes, in the order of spraying, shape (row,).
    tank_litres : [L]
        What the tank holds.

    Returns
    -------
    tuple of int
        Rows of each load; empty without rows, and where one row takes more than the tank.

    Examples
    --------
    >>> loads_of_rows(np.full(25, 160.0), tank_litres=2000.0)
    (9, 8, 8)
    """
    rows = len(litres)
    if not rows or litres.max() > tank_litres * (1.0 + _ROUNDING):
        return ()
    until = np.r_[0.0, np.cumsum(litres)]
    # Of a load from after one row to after another; what is no load, or too large, cannot be.
    load = until[None, :] - until[:, None]
    is_load = np.triu(np.ones_like(load, dtype=bool), k=1)
    is_load &= load <= tank_litres * (1.0 + _ROUNDING)
    square = np.where(is_load, load**2, np.inf)
    least, cuts = square[0], []
    while np.isinf(least[rows]):
        # Best place of the last cut before each row; of several the latest: the larger load first.
        summed = (least[:, None] + square)[::-1]
        cuts.append(rows - summed.argmin(axis=0))
        least = summed.min(axis=0)
    ends = [rows]
    for cut in reversed(cuts):
        ends.append(int(cut[ends[-1]]))
    return tuple(np.diff([0, *ends[::-1]]).tolist())


def row_pattern(row_spacing: float, turning_radius: float | None) -> str:
    """
    Return in which order rows are driven, in words.

    Parameters
    ----------
    row_spacing : [m]
        From row to row.
    turning_radius : [m]
        Of tractor and sprayer; None where it is not known.

    Returns
    -------
    str
        A plain sentence. Every alley is treated in either pattern.
    """
    if turning_radius is None:
        return phrase("Next row after next row (the turning radius is not known).")
    needed = 2.0 * turning_radius  # a half circle from row to row
    if row_spacing >= needed:
        return phrase(
            "Next row after next row: rows are {row_spacing:g} m apart, a turn takes {needed:g}.",
            row_spacing=row_spacing,
            needed=needed,
        )
    return phrase(
        "Every second row (1, 3, 5), the rest on the way back (6, 4, 2): a turn takes {needed:g} m "
        "and rows are {row_spacing:g} m apart. Next row after next row would need reversing.",
        row_spacing=row_spacing,
        needed=needed,
    )
