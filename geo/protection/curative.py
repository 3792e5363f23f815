"""How much of the hidden infection does a spray still reach?"""

import numpy as np

from geo.arrays import FloatArray, IntArray


def cured_share(
    strength: FloatArray,
    reach: FloatArray,
    block: IntArray,
    day: IntArray,
    *,
    shape: tuple[int, int],
) -> tuple[FloatArray, FloatArray]:
    """
    Return which share of the youngest hidden infections the sprays of a day stop.

    Parameters
    ----------
    strength : [1]
        Share of infections within reach that a spray stops, shape (spray,).
    reach : [d]
        How old an infection may be, shape (spray,); 0 for a protectant.
    block, day : [1]
        Of each spray, shape (spray,); a day outside the season does nothing.
    shape : [1]
        Numbers of blocks and days.

    Returns
    -------
    [1]
        Share stopped, shape (block, day).
    [d]
        Age up to which, shape (block, day).

    Notes
    -----
    A protectant stops none: what is inside already is beyond it. Of several sprays of a day only
    the one with the largest share times reach counts, so that nothing is stopped twice.

    Examples
    --------
    >>> share, age = cured_share(np.array([0.4, 0.9]), np.array([3.0, 0.0]), np.array([0, 0]),
    ...     np.array([1, 1]), shape=(1, 2))
    >>> share.tolist(), age.tolist()
    ([[0.0, 0.4]], [[0.0, 3.0]])
    """
    share, age = np.zeros(shape), np.zeros(shape)
    counts = (day >= 0) & (day < shape[1]) & (strength * reach > 0.0)
    order = np.flatnonzero(counts)[np.argsort((strength * reach)[counts], kind="stable")]
    # Where a place is named twice, the last one, the largest, is kept.
    share[block[order], day[order]] = strength[order]
    age[block[order], day[order]] = reach[order]
    return share, age
