"""From the few spots where hourly weather is computed to the many blocks that lie between them."""

import numpy as np

from geo.arrays import AnyArray, FloatArray, IntArray


def at_blocks(at_spots: FloatArray, spot: IntArray, weight: FloatArray) -> FloatArray:
    """
    Return what blocks feel, from what their surrounding spots feel.

    Parameters
    ----------
    at_spots : [any]
        Shape (spot, ...).
    spot : [1]
        Shape (block, corner): which spots a block lies between.
    weight : [1]
        Shape (block, corner), rows summing to 1.

    Returns
    -------
    [any]
        Shape (block, ...), never beyond what the spots around a block feel. NaN in a spot stays
        with the blocks that lean on it.
    """
    shape = (-1, *(1,) * (at_spots.ndim - 1))
    low: AnyArray = at_spots[spot[:, 0]]
    high, total = low, low * weight[:, 0].reshape(shape)
    for corner in range(1, spot.shape[1]):
        felt = at_spots[spot[:, corner]]
        total = total + felt * weight[:, corner].reshape(shape)
        low, high = np.minimum(low, felt), np.maximum(high, felt)
    # Weights sum to 1 but for rounding: a share that is 1 all round must stay 1.
    between: AnyArray = np.clip(total, low, high)
    return between
