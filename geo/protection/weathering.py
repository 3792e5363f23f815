"""What time, rain and new growth leave of a spray, and of several together."""

import numpy as np

from geo.arrays import FloatArray, IntArray


def spray_left(
    *,
    fresh: FloatArray,
    age: FloatArray,
    rain: FloatArray,
    new_tissue: FloatArray,
    half_life: FloatArray,
    halving_rain: FloatArray,
) -> FloatArray:
    r"""
    Return the share of infections a spray still prevents.

    Parameters
    ----------
    fresh : [1]
        Efficacy times coverage just after the spray.
    age : [d]
        Since the spray; negative before it.
    rain : [mm]
        Since the spray.
    new_tissue : [1]
        Share of the organ grown since, which carries none.
    half_life : [d]
        Of the deposit in dry weather.
    halving_rain : [mm]
        Rain that halves the deposit.

    Returns
    -------
    [1]
        Broadcast shape, 0 before the spray.

    Notes
    -----
    :math:`p = e\,c\,2^{-a/h}\,2^{-R/R_{50}}\,(1 - n)`. A protectant acts on spores that have not
    germinated; nothing here reaches an infection that is already inside. Heat drives sulfur off,
    but no rate was found for it: it is left out, so that sulfur may fade faster in hot hours.

    Examples
    --------
    >>> contact = {"fresh": np.array(0.85 * 0.9), "half_life": np.array(14.0)}
    >>> float(spray_left(age=np.array(5.0), rain=np.array(8.0), new_tissue=np.array(0.0),
    ...     halving_rain=np.array(25.0), **contact).round(3))
    0.478
    """
    halvings = age / half_life + rain / halving_rain
    left: FloatArray = fresh * np.exp2(-halvings) * (1.0 - new_tissue)
    return np.where(age < 0, 0.0, left)


def rain_between(precipitation: FloatArray, start: FloatArray, end: FloatArray) -> FloatArray:
    """
    Return the rain between two times.

    Parameters
    ----------
    precipitation : [mm]
        Of each hour, shape (hour,).
    start, end : [h]
        Since the first hour; broadcast against each other.

    Returns
    -------
    [mm]
        Broadcast shape; what fell before the first hour or falls after the last is not known,
        and 0.

    Examples
    --------
    >>> rain_between(np.array([0.0, 4.0, 0.0]), np.array([0.0, 1.5]), np.array(3.0)).tolist()
    [4.0, 2.0]
    """
    fallen = np.concatenate([[0.0], np.cumsum(precipitation)])
    hours = np.arange(fallen.size)
    rain: FloatArray = np.interp(end, hours, fallen) - np.interp(start, hours, fallen)
    return np.maximum(rain, 0.0)


def new_share(then: FloatArray, size: FloatArray) -> FloatArray:
    """
    Return the share of an organ that grew since it was sprayed.

    Parameters
    ----------
    then : [any]
        Its size when sprayed.
    size : [any]
        Its size at the times asked about, in the same unit.

    Returns
    -------
    [1]
        Broadcast shape; 0 where it did not grow.

    Examples
    --------
    >>> new_share(np.array([[0.5]]), np.array([[0.4, 0.5, 1.0]])).tolist()
    [[0.0, 0.0, 0.5]]
    """
    then, size = np.broadcast_arrays(then, size)
    grown = np.divide(then, size, out=np.ones(size.shape), where=size > then)
    share: FloatArray = 1.0 - grown
    return share


def together(left: FloatArray, block: IntArray, *, block_count: int, cap: float) -> FloatArray:
    r"""
    Return the protection of each block by all its sprays.

    Parameters
    ----------
    left : [1]
        Of each spray and day, shape (spray, day).
    block : [1]
        Block of each spray, shape (spray,).
    block_count : [1]
        Number of blocks.
    cap : [1]
        No programme protects more.

    Returns
    -------
    [1]
        Shape (block, day): :math:`1 - \prod_s (1 - p_s)`, at most the cap.
    """
    unprotected = np.ones((block_count, left.shape[1]))
    np.multiply.at(unprotected, block, 1.0 - left)
    return np.minimum(1.0 - unprotected, cap)
