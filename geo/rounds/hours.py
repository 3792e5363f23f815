"""How long does each block take, and how far down the order do today's sprayer hours reach?"""

import numpy as np
import xarray as xr

from geo.arrays import BoolArray, FloatArray
from geo.season.farm import Farm


def sprayer_hours(farm: Farm, season: xr.Dataset) -> FloatArray | None:
    """
    Return how long each block takes to spray.

    Parameters
    ----------
    farm : Farm
        The user may have given hours for a hectare.
    season : xarray.Dataset
        For the areas.

    Returns
    -------
    [h]
        Shape (block,), without driving there; None where the user gave no hours.
    """
    each = farm.settings.sprayer_hours_per_hectare
    if each is None:
        return None
    hours: FloatArray = season.area.values * each
    return hours


def hours_today(farm: Farm) -> float | None:
    """
    Return how many hours all sprayers have today.

    Parameters
    ----------
    farm : Farm
        The user may have given hours of work for each of its sprayers.

    Returns
    -------
    float or None
        None where the user gave none. A farm that names no sprayer is taken to have one.
    """
    each = farm.settings.day_round.hours
    return None if each is None else each * max(1, len(farm.settings.sprayers))


def reached(hours: FloatArray, total: float) -> BoolArray:
    """
    Return which blocks some hours reach, going down an order.

    Parameters
    ----------
    hours : [h]
        Of each block, first to last.
    total : float
        To be spent.

    Returns
    -------
    [1]
        True down to the last block that fits. A block that does not fit ends it, so fewer hours
        never take in a block that more hours leave out.

    Examples
    --------
    >>> reached(np.array([2.0, 3.0, 1.0]), 4.5).tolist()
    [True, False, False]
    """
    # A thousandth of a millionth of an hour is rounding, not work.
    return np.cumsum(hours) <= total + 1e-9
