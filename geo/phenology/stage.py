"""Observed stages advanced between visits by thermal time."""

from collections.abc import Callable, Sequence

import numpy as np

from geo.arrays import FloatArray, IntArray
from geo.phenology.flushes import Flushes
from geo.season.visits import Looks


def mean_progress(
    looks: Looks, observed_progress: FloatArray, cumulative_thermal_days: FloatArray
) -> FloatArray:
    """
    Return the mean place of each flush on the scale of reference days.

    Parameters
    ----------
    looks : Looks
        Last and next stage observation for each flush and day.
    observed_progress : [d]
        Mean place seen at each observation, shape (visit,).
    cumulative_thermal_days : [d]
        Shape (flush, day), thermal days up to the end of the day.

    Returns
    -------
    [d]
        Shape (flush, day). NaN for one without any observation.

    Notes
    -----
    Between two observations the thermal days are stretched so that both are met; after the last
    and before the first they are taken as they are. A stage never goes back: where observations
    contradict each other the newest wins and earlier days are lowered to it.
    """
    seen = np.append(observed_progress, np.nan)
    last, following = seen[looks.last], seen[looks.following]
    at_last = np.take_along_axis(cumulative_thermal_days, looks.last_day, axis=1)
    at_next = np.take_along_axis(cumulative_thermal_days, looks.following_day, axis=1)
    since = cumulative_thermal_days - at_last
    until = at_next - cumulative_thermal_days
    between = since + until
    share = np.divide(since, between, out=np.zeros_like(since), where=between > 0)
    progress = np.select(
        [looks.has_last & looks.has_following, looks.has_last, looks.has_following],
        [last + share * (following - last), last + since, following - until],
        default=np.nan,
    )
    # Never back: a day may not lie beyond any later one.
    lowered: FloatArray = np.minimum.accumulate(progress[:, ::-1], axis=1)[:, ::-1]
    return lowered


def days_from_sight(looks: Looks, cumulative_thermal_days: FloatArray) -> FloatArray:
    """
    Return how far the nearest observation of a flush lies from each day, in thermal days.

    Parameters
    ----------
    looks : Looks
        Last and next stage observation for each flush and day.
    cumulative_thermal_days : [d]
        Shape (flush, day), thermal days up to the end of the day.

    Returns
    -------
    [d]
        Shape (flush, day), 0 on the day of an observation. Infinite without any.
    """
    at_last = np.take_along_axis(cumulative_thermal_days, looks.last_day, axis=1)
    at_next = np.take_along_axis(cumulative_thermal_days, looks.following_day, axis=1)
    since = np.where(looks.has_last, cumulative_thermal_days - at_last, np.inf)
    until = np.where(looks.has_following, at_next - cumulative_thermal_days, np.inf)
    return np.minimum(since, until)


def average_over_portions(
    of_flush: Sequence[FloatArray],
    mixture: IntArray,
    seen: Flushes,
    *,
    of_portion: Callable[..., Sequence[FloatArray]],
) -> list[FloatArray]:
    """
    Return the means of properties over the portions of a block.

    Parameters
    ----------
    of_flush : [any]
        What the properties are worked out from, each of shape (flush, day): places first.
    mixture : [1]
        Which visit's mixture holds, shape (block, day); -1 where there is none.
    seen : Flushes
        Offsets and shares of the portions of each visit.
    of_portion : callable
        Told the portion's own place and the other arrays, gives the properties.

    Returns
    -------
    list of [any]
        Each of shape (block, day). NaN where there is no mixture.
    """
    is_known = mixture >= 0
    # One more of each, which stands for a block that nobody looked at.
    nothing = np.full((1, mixture.shape[1]), np.nan)
    arrays = [np.concatenate([array, nothing]) for array in of_flush]
    flush_of, offset_of, share_of = (
        np.concatenate([known, np.full((1, known.shape[1]), none)])
        for known, none in ((seen.portion_flush, -1), (seen.offset, 0.0), (seen.share, 0.0))
    )
    day = np.arange(mixture.shape[1])[None, :]
    totals: list[FloatArray] = []
    for portion in range(share_of.shape[1]):
        flush, share = flush_of[mixture, portion], share_of[mixture, portion]
        place, *others = (array[flush, day] for array in arrays)
        place += offset_of[mixture, portion]
        parts = of_portion(place, *others)
        totals = totals or [np.zeros(mixture.shape) for _ in parts]
        for total, part in zip(totals, parts, strict=True):
            np.add(total, share * part, out=total, where=share > 0.0)
    return [np.where(is_known, total, np.nan) for total in totals]
