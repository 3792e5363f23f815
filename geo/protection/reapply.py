"""How much rain or how many dry days until a block's protection falls to the reapply line?"""

import numpy as np

from geo.arrays import FloatArray, IntArray

# Halvings of the bracket: from a hundred days down to less than a second. Arithmetic, no science.
HALVINGS = 40


def until_line(
    left: FloatArray, halving: FloatArray, block: IntArray, *, block_count: int, line: float
) -> FloatArray:
    r"""
    Return how much it takes until the sprays of a block together protect no more than a line.

    Parameters
    ----------
    left : [1]
        Of each spray now, shape (spray,).
    halving : [any]
        Rain (mm) or dry time (d) that halves each spray.
    block : [1]
        Block of each spray, shape (spray,).
    block_count : [1]
        Number of blocks.
    line : [1]
        Protection at which a new spray is worth a thought.

    Returns
    -------
    [any]
        Shape (block,), in the unit of ``halving``: 0 at the line or below it, NaN without a
        spray.

    Notes
    -----
    For one spray :math:`x = h \log_2(p / l)`; for several the :math:`x` at which
    :math:`1 - \prod_s (1 - p_s 2^{-x / h_s}) = l`, found by halving a bracket. New growth is not
    looked ahead to: where the organ grows, the line is met sooner.

    Examples
    --------
    >>> one = {"block": np.array([0]), "block_count": 1, "line": 0.3}
    >>> until_line(np.array([0.478]), np.array([25.0]), **one).round(1).tolist()
    [16.8]
    """
    count = np.bincount(block, minlength=block_count)
    # No more than the sum is protected: where each is down to its part of the line, all are.
    each = np.maximum(left * count[block] / line, 1.0)
    high = np.zeros(block_count)
    np.maximum.at(high, block, halving * np.log2(each))
    unprotected = np.ones(block_count)
    np.multiply.at(unprotected, block, 1.0 - left)
    # At the line already: exactly nothing is left to wait for.
    high = np.where(1.0 - unprotected > line, high, 0.0)
    low = np.zeros(block_count)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        passed = np.ones(block_count)
        np.multiply.at(passed, block, 1.0 - left * 2.0 ** (-middle[block] / halving))
        is_above = 1.0 - passed > line
        low, high = np.where(is_above, middle, low), np.where(is_above, high, middle)
    return np.where(count > 0, high, np.nan)
