"""The last and the next look at each block, seen from each day."""

from dataclasses import dataclass

import numpy as np

from geo.arrays import BoolArray, IntArray


@dataclass(frozen=True, slots=True)
class Looks:
    """
    Which visit came last and which comes next, for each subject and day.

    Attributes
    ----------
    last, following : numpy.ndarray
        [1] Shape (subject, day): index into the visits, -1 or the number of visits where there
        is none at all.
    last_day, following_day : numpy.ndarray
        [1] Shape (subject, day): the day of that visit, within the season.
    has_last, has_following : numpy.ndarray
        [1] Shape (subject, day).
    """

    last: IntArray
    following: IntArray
    last_day: IntArray
    following_day: IntArray
    has_last: BoolArray
    has_following: BoolArray


def looks(subject: IntArray, day: IntArray, *, subject_count: int, day_count: int) -> Looks:
    """
    Return the last and the next visit for each subject and day, without a loop over either.

    Parameters
    ----------
    subject, day : [1]
        Of each visit, shape (visit,), sorted by subject and then by day. A visit before the
        first day counts as made on it.
    subject_count, day_count : [1]
        How many there are.

    Returns
    -------
    Looks
        A visit on the day itself is the last one.

    Examples
    --------
    >>> found = looks(np.array([0, 0]), np.array([1, 3]), subject_count=1, day_count=5)
    >>> found.has_last.tolist(), found.last[0, 3:].tolist()
    ([[False, True, True, True, True]], [1, 1])
    """
    within = np.clip(day, 0, day_count - 1)
    key = subject * day_count + within
    row = np.arange(subject_count)[:, None]
    wanted = row * day_count + np.arange(day_count)[None, :]
    following = np.searchsorted(key, wanted, side="right")
    last = following - 1
    # One visit to nobody at the end, for "before the first" (-1) and "after the last".
    whose, when = np.append(subject, -1), np.append(within, 0)
    return Looks(
        last=last,
        following=following,
        last_day=when[last],
        following_day=when[following],
        has_last=whose[last] == row,
        has_following=whose[following] == row,
    )
