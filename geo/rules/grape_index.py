"""Where does the grape growers' daily mildew index stand?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.reference.number import values
from geo.season.days import day_extremes

LEAST_DIFFERENCE = 1e-9  # rounding of weights between spots, far below any hour


@dataclass(frozen=True, slots=True)
class GrapeIndex:
    """
    One pinned variant of the index; rows of ``rival_rules.csv``.

    Attributes
    ----------
    favourable_low, favourable_high : float
        [degC] Ends of the favourable window, both included.
    favourable_hours : float
        [h] Hours in a row within it that make a day favourable.
    days_to_start : float
        [d] Favourable days in a row that start the index.
    points_up, points_down, points_most : float
        [1] Steps of a day, and the ceiling.
    hot_temperature, hot_hours : float
        [degC], [h] Heat from there on, for so many hours in a row, makes a day hot.
    """

    favourable_low: float
    favourable_high: float
    favourable_hours: float
    days_to_start: float
    points_up: float
    points_down: float
    points_most: float
    hot_temperature: float
    hot_hours: float


def grape_index_parameters(*, is_revised: bool = False) -> GrapeIndex:
    """
    Return a variant of the index from the reference table.

    Parameters
    ----------
    is_revised : bool
        Take the heat rule of 2013, 38 degC for 2 hours, instead of 35 degC for 15 minutes.

    Returns
    -------
    GrapeIndex
        With the window of 21 to 30 degC.
    """
    table = values("rival_rules", "grape index")
    if is_revised:
        table |= values("rival_rules", "grape index 2013")
    return GrapeIndex(**table)


def longest_runs(
    air_temperature: FloatArray, index: GrapeIndex, *, starts: IntArray
) -> tuple[FloatArray, FloatArray]:
    """
    Return the longest favourable and the longest hot run of hours within each day.

    Parameters
    ----------
    air_temperature : [degC]
        Shape (spot, hour).
    index : GrapeIndex
        The window and the heat.
    starts : [1]
        First hour of each day, shape (day,).

    Returns
    -------
    [h]
        Favourable, shape (spot, day); NaN on a day with an unknown hour.
    [h]
        Hot, likewise.
    """
    is_favourable = (air_temperature >= index.favourable_low) & (
        air_temperature <= index.favourable_high
    )
    is_hot = air_temperature >= index.hot_temperature
    is_unknown = np.isnan(day_extremes(air_temperature, starts)[0])
    favourable, hot = (
        np.where(is_unknown, np.nan, _longest_run(hours, starts))
        for hours in (is_favourable, is_hot)
    )
    return favourable, hot


def _longest_run(is_in: BoolArray, starts: IntArray) -> FloatArray:
    """Return the longest run of each day; midnight ends a run."""
    hour = np.arange(is_in.shape[-1])
    before_day = np.repeat(starts, np.diff(starts, append=hour.size)) - 1
    last_out = np.maximum.accumulate(np.where(is_in, -1, hour), axis=-1)
    run = hour - np.maximum(last_out, before_day)
    return day_extremes(run.astype(np.float64), starts)[1]


def grape_index(favourable_run: FloatArray, hot_run: FloatArray, index: GrapeIndex) -> FloatArray:
    """
    Return the index of each day.

    Parameters
    ----------
    favourable_run : [h]
        Longest run of favourable hours, shape (block, day).
    hot_run : [h]
        Longest run of hot hours, same shape.
    index : GrapeIndex
        Steps and limits.

    Returns
    -------
    [1]
        Same shape, 0 to 100: an unknown day leaves its block unknown from then on.

    Notes
    -----
    As published by gubler_thomas. Before the start each favourable day of a row adds 20 and any
    other day sets the index back to 0; the third in a row starts it, once and for all. Then a
    favourable day adds 20, or 10 if it is hot too, and any other day takes 10 away. What heat does
    before the start is not said in the texts read: here nothing. The first day of the season stands
    for the day after bud break.
    """
    is_favourable = favourable_run >= index.favourable_hours - LEAST_DIFFERENCE
    is_hot = hot_run >= index.hot_hours - LEAST_DIFFERENCE
    is_unknown = np.isnan(favourable_run + hot_run)
    blocks, days = favourable_run.shape
    points, in_a_row = np.zeros(blocks), np.zeros(blocks)
    has_started, is_lost = np.zeros((2, blocks), dtype=bool)
    result = np.empty((blocks, days))
    for day in range(days):
        favourable = is_favourable[:, day]
        is_lost |= is_unknown[:, day]
        in_a_row = np.where(favourable, in_a_row + 1.0, 0.0)
        step_up = np.where(is_hot[:, day], index.points_up - index.points_down, index.points_up)
        going = np.clip(
            points + np.where(favourable, step_up, -index.points_down), 0.0, index.points_most
        )
        points = np.where(has_started, going, in_a_row * index.points_up)
        points = np.where(is_lost, np.nan, points)
        has_started |= in_a_row >= index.days_to_start
        result[:, day] = points
    return result
