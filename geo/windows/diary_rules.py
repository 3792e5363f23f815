"""What do sprays of the diary forbid: too soon after oil, too often of one code?"""

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray

HOURS_A_DAY = 24.0  # by definition
SEASON_DAYS = 365.0  # a season is counted as the year before the spray, on the careful side


def days_since(
    spray_block: IntArray, spray_hour: FloatArray, hour: FloatArray, *, block_count: int
) -> FloatArray:
    """
    Return how long ago a block last got a spray.

    Parameters
    ----------
    spray_block : [1]
        Shape (spray,): of the sprays that count.
    spray_hour : [h]
        Shape (spray,).
    hour : [h]
        Shape (hour,): hours of the forecast on the same clock, after all sprays.
    block_count : int
        How many blocks there are.

    Returns
    -------
    [d]
        Shape (block, hour); infinite where there was none.
    """
    last = np.full(block_count, -np.inf)
    np.maximum.at(last, spray_block, spray_hour)
    since: FloatArray = (hour[None, :] - last[:, None]) / HOURS_A_DAY
    return since


def uses_with_this(
    spray_block: IntArray, spray_hour: FloatArray, hour: FloatArray, *, block_count: int
) -> FloatArray:
    """
    Return how many uses of a season a spray would make it.

    Parameters
    ----------
    spray_block : [1]
        Shape (spray,): of the sprays that count.
    spray_hour : [h]
        Shape (spray,).
    hour : [h]
        Shape (hour,): hours of the forecast, after all sprays.
    block_count : int
        How many blocks there are.

    Returns
    -------
    [1]
        Shape (block, hour). What was sprayed in a block in one hour counts once: a mixture is
        one use of each of its codes.
    """
    moments = np.unique(np.column_stack([spray_block, spray_hour]), axis=0)
    uses = np.ones((block_count, hour.size))
    counts = (hour[None, :] - moments[:, 1:]) <= SEASON_DAYS * HOURS_A_DAY
    np.add.at(uses, moments[:, 0].astype(np.int64), counts.astype(np.float64))
    return uses


def running_with_this(
    spray_block: IntArray, spray_hour: FloatArray, has_code: BoolArray, *, block_count: int
) -> FloatArray:
    """
    Return how many uses of a code in a row a spray would make it.

    Parameters
    ----------
    spray_block : [1]
        Shape (spray,): of all fungicide sprays of the diary, of this season and earlier ones.
    spray_hour : [h]
        Shape (spray,).
    has_code : [1]
        Shape (spray,): whether the spray carries the code.
    block_count : int
        How many blocks there are.

    Returns
    -------
    [1]
        Shape (block,): 1 where the last application was without the code.

    Notes
    -----
    Sprays of one block and hour are one application, which carries the codes of all of them
    (croplife2017: premixes count for each code, and the count runs across seasons).
    """
    moments, which = np.unique(
        np.column_stack([spray_block, spray_hour]), axis=0, return_inverse=True
    )
    carries = np.zeros(len(moments), dtype=bool)
    np.logical_or.at(carries, which.ravel(), has_code)
    block = moments[:, 0].astype(np.int64)
    last_without = np.full(block_count, -1)
    place = np.arange(len(moments))
    np.maximum.at(last_without, block[~carries], place[~carries])
    run = np.ones(block_count)
    np.add.at(run, block, (place > last_without[block]).astype(np.float64))
    return run
