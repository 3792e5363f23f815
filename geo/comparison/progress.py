"""How much disease did a block carry over the season?"""

import numpy as np

from geo.arrays import FloatArray


def area_under_curve(day: FloatArray, share: FloatArray) -> float:
    r"""
    Return the area under the disease progress curve, by trapezoids.

    Parameters
    ----------
    day : [d]
        Days of the looks, rising, shape (look,).
    share : [%]
        Disease found on them, or a share in any other unit.

    Returns
    -------
    [any]
        Unit of the share times days; NaN for fewer than two looks.

    Notes
    -----
    :math:`\sum_i (y_i + y_{i+1}) (t_{i+1} - t_i) / 2` (sparks2008). It grows with the days
    between the first and the last look: hold it against another block's only if both were looked
    at over the same days, or take `standardised_area`.
    """
    if len(day) < 2:  # noqa: PLR2004 - an area has two sides
        return float("nan")
    return float(np.trapezoid(share, day))


def standardised_area(day: FloatArray, share: FloatArray) -> float:
    """
    Return that area over the days it spans: the mean disease between the first and the last look.

    Parameters
    ----------
    day : [d]
        Days of the looks, rising, shape (look,).
    share : [%]
        Disease found on them, or a share in any other unit.

    Returns
    -------
    [any]
        In the unit of the share; NaN for fewer than two looks. As a share of one it is what some
        call the relative area.
    """
    area = area_under_curve(day, share)
    return area / float(day[-1] - day[0]) if len(day) > 1 else area
