"""Until when does re-entry keep people out of a block?"""

import numpy as np

from geo.arrays import FloatArray, IntArray


def closed_to_people(
    spray_block: IntArray, spray_hour: FloatArray, interval: FloatArray, *, block_count: int
) -> tuple[FloatArray, IntArray]:
    """
    Return until when each block is closed to people, and after which spray.

    Parameters
    ----------
    spray_block : [1]
        Shape (spray,): where each was.
    spray_hour : [h]
        Shape (spray,): when, on any clock.
    interval : [h]
        Shape (spray,): re-entry on the label of what was sprayed; infinite where it is unknown,
        since unknown is closed.
    block_count : int
        How many blocks there are.

    Returns
    -------
    until : [h]
        Shape (block,), on the same clock; minus infinite where nothing was sprayed.
    spray : [1]
        Shape (block,): the spray that keeps them out longest, -1 where there is none.

    Examples
    --------
    >>> until, spray = closed_to_people(
    ...     np.array([0, 0]), np.array([7.0, 9.0]), np.array([24.0, 4.0]), block_count=2
    ... )
    >>> until.tolist(), spray.tolist()
    ([31.0, -inf], [0, -1])
    """
    ends = spray_hour + interval
    until = np.full(block_count, -np.inf)
    np.maximum.at(until, spray_block, ends)
    spray = np.full(block_count, -1)
    longest_last = np.argsort(ends, kind="stable")
    spray[spray_block[longest_last]] = longest_last
    return until, spray
