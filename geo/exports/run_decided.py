"""What a run decided of a disease, as the next run will want to know it."""

import numpy as np
import xarray as xr

from geo.exports.page_orders import finite
from geo.rounds.order import SprayOrder

DECIMALS = 4  # of a share: more than any eye tells apart


def decided(season: xr.Dataset, order: SprayOrder) -> dict[str, object]:
    """
    Return where each block stood, and what its sprays still prevented.

    Parameters
    ----------
    season : xarray.Dataset
        Of the disease.
    order : SprayOrder
        Of the day against it.

    Returns
    -------
    dict
        Ready for JSON: ``order``, ``cannot_now``, ``not_worth_it_now`` and ``protection_left``.
    """
    left = protection_today(season, order)
    blocks = map(str, season["block"].values)
    return {
        "order": [entry.block for entry in order.entries],
        "cannot_now": [entry.block for entry in order.cannot_now],
        "not_worth_it_now": [entry.block for entry in order.not_worth],
        "protection_left": {
            block: finite(round(float(value), DECIMALS))
            for block, value in zip(blocks, left, strict=True)
        },
    }


def protection_today(season: xr.Dataset, order: SprayOrder) -> np.ndarray:
    """
    Return what the sprays of each block still prevent.

    Parameters
    ----------
    season : xarray.Dataset
        Of the disease.
    order : SprayOrder
        Knows today.

    Returns
    -------
    numpy.ndarray
        [1] By block, on today, or on the last day before it that the season knows.
    """
    days = season["day"].values.astype("datetime64[D]")
    today = max(0, int(np.searchsorted(days, np.datetime64(order.today), side="right")) - 1)
    left: np.ndarray = season["protection_left"].transpose("block", "day").values[:, today]
    return left
