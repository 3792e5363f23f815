"""How soon do people enter or pick a block once it is sprayed?"""

import numpy as np

from geo.arrays import FloatArray, IntArray


def hours_until_entry(
    crew_block: IntArray,
    crew_start: FloatArray,
    crew_end: FloatArray,
    hour: FloatArray,
    *,
    block_count: int,
) -> FloatArray:
    """
    Return how long a block stays empty of people once an hour of spraying is over.

    Parameters
    ----------
    crew_block : [1]
        Shape (crew,): where each crew is planned.
    crew_start, crew_end : [h]
        Shape (crew,): from when to when, on the clock of the hours.
    hour : [h]
        Shape (hour,): starts of the hours.
    block_count : int
        How many blocks there are.

    Returns
    -------
    [h]
        Shape (block, hour): 0 where somebody is in the block, infinite where nobody is planned.
    """
    empty = np.full((block_count, hour.size), np.inf)
    wait = np.maximum(crew_start[:, None] - (hour[None, :] + 1.0), 0.0)
    is_over = crew_end[:, None] <= hour[None, :]
    np.minimum.at(empty, crew_block, np.where(is_over, np.inf, wait))
    return empty


def days_until_picking(
    picked_block: IntArray, picked_day: IntArray, day: IntArray, *, block_count: int
) -> FloatArray:
    """
    Return how many days there are from a spray to the next picking.

    Parameters
    ----------
    picked_block : [1]
        Shape (picking,): where each picking is planned.
    picked_day : [d]
        Shape (picking,): on which day.
    day : [d]
        Shape (hour,): day of each hour, on the same count.
    block_count : int
        How many blocks there are.

    Returns
    -------
    [d]
        Shape (block, hour): infinite where no picking is planned from that day on.
    """
    days = np.full((block_count, day.size), np.inf)
    wait = (picked_day[:, None] - day[None, :]).astype(np.float64)
    np.minimum.at(days, picked_block, np.where(wait < 0.0, np.inf, wait))
    return days
