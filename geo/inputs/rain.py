"""What does a rain gauge write: what fell in the hour, or what fell since it was last emptied?"""

import numpy as np
import pandas as pd

from geo.arrays import BoolArray, FloatArray
from geo.errors import Outcome, quoted
from geo.inputs.at import at_column
from geo.inputs.reading import Reading
from geo.texts import phrase, phrases

TRACE_MM = 0.05  # half the least amount gauges tell, by the catalogue of faults (our choice)
# A gauge that caught nothing in so long while another caught so much is blocked (our choice).
BLOCKED_DAYS, BLOCKED_MM = 30, 80.0
_DAY_HOURS = 24
TRACES = ("t", "tr", "trace")
# A counter stands still above nought for most hours and never falls but to begin anew; rain by
# the hour is nought in most (our choice, far from both).
ENOUGH_HOURS, STANDING_SHARE, HIGHEST_FALLS = 48, 0.5, 0.05


def without_traces(reading: Reading, cells: pd.Series) -> pd.Series:
    """
    Return cells of rain with numbers for traces.

    Parameters
    ----------
    reading : Reading
        The file.
    cells : pandas.Series
        Text.

    Returns
    -------
    pandas.Series
        Text.
    """
    is_trace = cells.str.lower().isin(TRACES)
    if is_trace.any():
        rows = cells.index[is_trace]
        found = phrases(
            "{value} stands {count} time, first in row {row}: a trace of rain, taken as "
            "{trace:g} mm",
            "{value} stands {count} times, first in row {row}: a trace of rain, taken as "
            "{trace:g} mm",
            len(rows),
            value=quoted(cells[rows[0]]),
            row=rows[0],
            trace=TRACE_MM,
        )
        at = at_column(cells.name)
        reading.add(Outcome.NOTE, "E-RAIN-TRACE", at, found=found, fix=phrase("Nothing"))
    return cells.mask(is_trace, str(TRACE_MM))


def by_the_hour(reading: Reading, rain: pd.Series, hours: pd.Series, *, column: str) -> pd.Series:
    """
    Return what fell in each hour, also from a gauge that counts on and on.

    Parameters
    ----------
    reading : Reading
        The file.
    rain : pandas.Series
        As written, mm.
    hours : pandas.Series
        Of each row.
    column : str
        For what is said.

    Returns
    -------
    pandas.Series
        In mm. A counter's first hour is unknown; where it falls it was emptied, and what it shows
        then fell since.
    """
    in_order = rain[hours.sort_values(kind="stable").index]
    known = in_order.dropna()
    if not _is_counter(known):
        return rain
    steps = known.diff()
    fallen = steps.where(steps >= 0.0, known)
    total = float(fallen.sum())
    found = phrases(
        "counts on from hour to hour, up to {highest}: differences are taken, {total:.1f} mm in "
        "all, with {count} new beginning",
        "counts on from hour to hour, up to {highest}: differences are taken, {total:.1f} mm in "
        "all, with {count} new beginnings",
        int((steps < 0).sum()),
        highest=quoted(f"{known.max():g}"),
        total=total,
    )
    fix = phrase("Check the sum against your own gauge")
    reading.add(Outcome.FIX, "E-RAIN-COUNTER", at_column(column), found=found, fix=fix)
    return fallen.reindex(rain.index)


def _is_counter(known: pd.Series) -> bool:
    if len(known) < ENOUGH_HOURS or known.max() <= 0.0:
        return False
    steps = np.diff(known.to_numpy())
    is_standing = (known.to_numpy()[1:] > 0.0) & (steps == 0.0)
    is_rising = (steps > 0.0).any()
    falls = (steps < 0.0).mean()
    return bool(is_standing.mean() >= STANDING_SHARE and falls <= HIGHEST_FALLS and is_rising)


def blocked_gauges(rain: FloatArray) -> BoolArray:
    """
    Return which stations' gauges look blocked.

    Parameters
    ----------
    rain : [mm]
        By station and hour, NaN where nobody measured.

    Returns
    -------
    numpy.ndarray
        True for a gauge that told of no rain in 30 days or more, while another caught 80 mm in
        the same hours.

    Examples
    --------
    >>> hours = np.zeros((2, 24 * 31))
    >>> hours[1, :10] = 9.0
    >>> blocked_gauges(hours)
    array([ True, False])
    """
    is_known = ~np.isnan(rain)
    caught = np.nan_to_num(rain)
    beside = np.array([(caught * known).sum(axis=1).max() for known in is_known])
    is_long = is_known.sum(axis=1) >= BLOCKED_DAYS * _DAY_HOURS
    blocked: BoolArray = is_long & (caught.sum(axis=1) == 0.0) & (beside >= BLOCKED_MM)
    return blocked
