"""What does each source shed on a day?"""

import numpy as np

from geo.arrays import FloatArray
from geo.epidemic.course import Course, State


def shed_on(
    day: int, course: Course, start: State, release: FloatArray, neighbours: FloatArray
) -> FloatArray:
    """
    Return what each source sheds on a day, as the epidemic took it.

    Parameters
    ----------
    day : int
        Index of the day.
    course : Course
        The epidemic.
    start : State
        Before the first day.
    release : [1]
        What heat leaves of the spores that are shed, shape (block, day).
    neighbours : [1]
        Sporulating share of each neighbour, shape (neighbour, day).

    Returns
    -------
    [1]
        Shape (source,): what yesterday's tissue releases today; of a block that is not known any
        more what it shed when it last was.
    """
    yesterday = course.sporulating[:, day - 1] if day else start.tissue.sporulating
    own = yesterday * release[:, day]
    unknown = np.flatnonzero(np.isnan(own))
    first = start.tissue.sporulating[unknown, None]
    past = np.concatenate([first, course.sporulating[unknown, :day]], axis=1)
    past = past * release[unknown, : day + 1]
    is_known = np.isfinite(past)
    last = day - np.argmax(is_known[:, ::-1], axis=1)
    found = past[np.arange(unknown.size), last]
    own[unknown] = np.where(is_known.any(axis=1), found, start.shed[unknown])
    return np.concatenate([own, neighbours[:, max(day - 1, 0)]])
