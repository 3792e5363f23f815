"""From the few spots where hourly weather is computed to the many blocks that lie between them."""

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
        Shape (block, ...). NaN in a spot stays with the blocks that lean on it.
    """
    total: AnyArray = _weighted(at_spots, spot[:, 0], weight[:, 0])
    for corner in range(1, spot.shape[1]):
        total = total + _weighted(at_spots, spot[:, corner], weight[:, corner])
    return total


def _weighted(at_spots: FloatArray, spot: IntArray, weight: FloatArray) -> AnyArray:
    shape = weight.shape + (1,) * (at_spots.ndim - 1)
    return at_spots[spot] * weight.reshape(shape)
