"""What does a block lose if it is left today until its next open hours?"""

from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.arrays import FloatArray, IntArray
from geo.reference.number import values
from geo.rounds.tank import tank_left
from geo.season.days import day_starts
from geo.season.farm import Farm
from geo.season.today import today_index


@dataclass(frozen=True, slots=True)
class Loss:
    """
    What leaving each block out of today's round costs, at the relative level.

    Attributes
    ----------
    avoidable : numpy.ndarray
        Days of hazard index 1 times hectares, shape (3, block): what a spray today would keep
        out until the block's next open hours, at the lowest, the expected and the highest effect
        of the planned materials.
    unsprayed : numpy.ndarray
        In the same unit, shape (block,): all that comes until then without a spray.
    least_protection : numpy.ndarray
        [1] Shape (block,): lowest protection by the diary's sprays on the days until then.
    """

    avoidable: FloatArray
    unsprayed: FloatArray
    least_protection: FloatArray


def avoidable_loss(farm: Farm, season: xr.Dataset, *, start: FloatArray, end: FloatArray) -> Loss:
    r"""
    Return the loss between two times, sprayed at the first or not.

    Parameters
    ----------
    farm : Farm
        For the planned tank.
    season : xarray.Dataset
        Of a disease, with its hazard.
    start, end : [h]
        Shape (block,), since the season's first hour: when the block could be sprayed today, and
        when next; nothing is counted beyond the last day there is.

    Returns
    -------
    Loss
        Of each block.

    Notes
    -----
    :math:`B = A \sum_D w_D \lambda_D \frac{P'_D - P_D}{1 - P_D}` over local days, with the area
    :math:`A`, the share :math:`w_D` of the day that lies between the two times, the hazard index
    :math:`\lambda_D` as it stands, and the protection :math:`P_D` without and :math:`P'_D` with the
    spray in the middle of that share. Two things are left out, and so count neither for nor
    against a block: spores that a sprayed block would not shed, and hidden infection that a
    systemic material would still reach. Days whose hazard is not known add nothing.
    """
    days = slice(today_index(season), season.sizes["day"])
    share, middle = _shares(season, start, end, days)
    old = season.protection_left.values[:, days]
    hazard = np.nan_to_num(season.hazard.values[:, days]) * share
    new = tank_left(farm, season, start=start, when=middle, days=days)
    cap = values("fungicides", "any")["cap"]
    both = np.maximum(np.minimum(1.0 - (1.0 - old) * (1.0 - new), cap), old)
    averted = np.divide(both - old, 1.0 - old, out=np.zeros(both.shape), where=old < 1.0)
    area = season.area.values
    return Loss(
        avoidable=area * (hazard * averted).sum(axis=2),
        unsprayed=area * hazard.sum(axis=1),
        least_protection=np.where(share > 0.0, old, np.inf).min(axis=1),
    )


def _shares(
    season: xr.Dataset, start: FloatArray, end: FloatArray, days: slice
) -> tuple[FloatArray, FloatArray]:
    """Return the share of each day between two times, and its middle, (block, day)."""
    starts: IntArray = day_starts(season.hour_day.values)
    first, last = starts[days], np.append(starts[1:], season.sizes["hour"])[days]
    begin = np.clip(start[:, None], first, last)
    stop = np.maximum(np.clip(end[:, None], first, last), begin)
    return (stop - begin) / (last - first), (begin + stop) / 2.0
