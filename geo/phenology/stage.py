"""Observed stages advanced between visits by thermal time."""

import numpy as np

from geo.arrays import FloatArray
from geo.season.visits import Looks


def mean_progress(
    looks: Looks, observed_progress: FloatArray, cumulative_thermal_days: FloatArray
) -> FloatArray:
    """
    Return the mean place of each block's panicles on the scale of reference days.

    Parameters
    ----------
    looks : Looks
        Last and next stage observation for each block and day.
    observed_progress : [d]
        Mean place seen at each observation, shape (visit,).
    cumulative_thermal_days : [d]
        Shape (block, day), thermal days up to the end of the day.

    Returns
    -------
    [d]
        Shape (block, day). NaN for a block without any observation.

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


def average_over_portions(
    progress: FloatArray,
    looks: Looks,
    *,
    offset: FloatArray,
    share: FloatArray,
    scale: tuple[FloatArray, FloatArray],
) -> FloatArray:
    """
    Return the mean of a stage's property over the portions of a block.

    Parameters
    ----------
    progress : [d]
        Mean place of each block and day, shape (block, day).
    looks : Looks
        Which observation's mixture holds on which day.
    offset : [d]
        How far each portion was from its observation's mean, shape (visit, portion).
    share : [1]
        Share of each portion, shape (visit, portion), 0 where there is none.
    scale : [d], [1]
        Places of the stages and the property there; linear between.

    Returns
    -------
    [1]
        Shape (block, day). NaN where the progress is NaN.
    """
    mixture = np.where(looks.has_last, looks.last, looks.following)
    none = np.zeros((1, offset.shape[1]))
    offset, share = np.concatenate([offset, none]), np.concatenate([share, none])
    total = np.zeros_like(progress)
    for portion in range(offset.shape[1]):
        place = progress + offset[mixture, portion]
        total += share[mixture, portion] * np.interp(place, *scale)
    return np.where(np.isnan(progress), np.nan, total)
