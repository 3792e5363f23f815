"""How near are water, hives and houses, and how much drifts that far?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import FloatArray

HALF_CIRCLE_DEGREES, QUARTER_CIRCLE_DEGREES = 180.0, 90.0  # by definition


@dataclass(frozen=True, slots=True)
class DriftCurve:
    """
    A published drift curve of two branches.

    Attributes
    ----------
    near_factor, near_exponent : float
        Of the branch up to the hinge, in percent of the rate at 1 m, and without unit.
    far_factor, far_exponent : float
        Of the branch beyond it.
    hinge : float
        Where they meet, in m.
    """

    near_factor: float
    near_exponent: float
    far_factor: float
    far_exponent: float
    hinge: float


def drift_share(distance: FloatArray, curve: DriftCurve) -> FloatArray:
    r"""
    Return how much of the rate lands at a distance downwind.

    Parameters
    ----------
    distance : [m]
        From the edge of the treated area; below 1 m counts as 1 m.
    curve : DriftCurve
        Of the crop and stage.

    Returns
    -------
    [%]
        :math:`A z^B` up to the hinge and :math:`C z^D` beyond it (rautmann2001): the 90th
        percentile of one application in German orchards. It ranks edges and is no legal buffer.
    """
    far_enough = np.maximum(distance, 1.0)
    near = curve.near_factor * far_enough**curve.near_exponent
    far = curve.far_factor * far_enough**curve.far_exponent
    share: FloatArray = np.where(far_enough <= curve.hinge, near, far)
    return share


def distance_downwind(
    distance: FloatArray, bearing: FloatArray, wind_from_direction: FloatArray
) -> FloatArray:
    """
    Return how near the nearest place lies that wind may carry drops to.

    Parameters
    ----------
    distance : [m]
        Shape (block, place).
    bearing : [degree]
        Shape (block, place): towards the place, clockwise from north; NaN inside the block.
    wind_from_direction : [degree]
        Shape (hour,), NaN where unknown.

    Returns
    -------
    [m]
        Shape (block, hour); infinite where no place lies downwind. Wind of unknown direction may
        blow towards any place.
    """
    nearest = np.full((distance.shape[0], wind_from_direction.size), np.inf)
    towards = wind_from_direction + HALF_CIRCLE_DEGREES
    for away, angle in zip(distance.T, bearing.T, strict=True):
        turn = (towards[None, :] - angle[:, None] + HALF_CIRCLE_DEGREES) % (
            2.0 * HALF_CIRCLE_DEGREES
        ) - HALF_CIRCLE_DEGREES
        is_spared = np.abs(turn) > QUARTER_CIRCLE_DEGREES
        nearest = np.minimum(nearest, np.where(is_spared, np.inf, away[:, None]))
    return nearest
