"""Which flushes did people see on each block, how far was each, and in which mixture?"""

from dataclasses import dataclass

import numpy as np

from geo.arrays import BoolArray, FloatArray, IntArray

# Means of the same mixture written in another order differ by rounding alone.
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Flushes:
    """
    Stage observations, sorted by what they tell: where each flush was, and who stood beside whom.

    Attributes
    ----------
    visit_block, visit_day : numpy.ndarray
        [1] Of each visit to a block, shape (visit,), sorted by block and day.
    block : numpy.ndarray
        [1] Whose each flush is, shape (flush,).
    seen_flush, seen_day : numpy.ndarray
        [1] Of each sight of a flush, shape (sight,), sorted by flush and day.
    seen_progress : numpy.ndarray
        [d] Mean place of the flush's portions there, shape (sight,).
    portion_flush : numpy.ndarray
        [1] Which flush a portion belongs to, shape (visit, portion).
    offset : numpy.ndarray
        [d] How far each portion was from its flush's mean, shape (visit, portion).
    share : numpy.ndarray
        [1] Share of each portion, shape (visit, portion), 0 where there is none.
    """

    visit_block: IntArray
    visit_day: IntArray
    block: IntArray
    seen_flush: IntArray
    seen_day: IntArray
    seen_progress: FloatArray
    portion_flush: IntArray
    offset: FloatArray
    share: FloatArray


def flushes(
    block: IntArray,
    day: IntArray,
    *,
    flush: IntArray,
    progress: FloatArray,
    weight: FloatArray,
    begins_anew: bool,
) -> Flushes:
    """
    Sort portions into visits and flushes.

    Parameters
    ----------
    block, day : [1]
        Of each portion, shape (portion,), in any order.
    flush : [1]
        Number of the flush that the portion's code names.
    progress : [d]
        Place of the portion on its scale.
    weight : [1]
        Share of the portion, relative to the others of its block and day.
    begins_anew : bool
        Whether a flush that lies further back than when last seen is another, new one: leaves
        flush again and again, and few people number them.

    Returns
    -------
    Flushes
        What each visit adds up to, whatever the order of its portions.
    """
    where = np.stack([block, flush, day], axis=1).astype(np.int64)
    sights, sight = np.unique(where, axis=0, return_inverse=True)
    total = np.bincount(sight, weight, minlength=len(sights))
    mean = np.bincount(sight, weight * progress, minlength=len(sights)) / total
    number = np.cumsum(_begins(sights, mean, begins_anew=begins_anew)) - 1
    of_flush = np.searchsorted(number, np.arange(number.max(initial=-1) + 1))

    visits, visit = np.unique(where[:, [0, 2]], axis=0, return_inverse=True)
    position = _position(visit, visit_count=len(visits))
    shape = (len(visits), int(position.max(initial=0)) + 1)
    portion_flush = np.zeros(shape, dtype=np.int64)
    offset, share = np.zeros(shape), np.zeros(shape)
    portion_flush[visit, position] = number[sight]
    offset[visit, position] = progress - mean[sight]
    share[visit, position] = weight / np.bincount(visit, weight, minlength=len(visits))[visit]
    return Flushes(
        visit_block=visits[:, 0],
        visit_day=visits[:, 1],
        block=sights[of_flush, 0],
        seen_flush=number.astype(np.int64),
        seen_day=sights[:, 2],
        seen_progress=mean,
        portion_flush=portion_flush,
        offset=offset,
        share=share,
    )


def _begins(sights: IntArray, mean: FloatArray, *, begins_anew: bool) -> BoolArray:
    """Return at which sights, sorted by block, flush and day, a flush is seen first."""
    begins = np.ones(len(sights), dtype=bool)
    begins[1:] = (sights[1:, :2] != sights[:-1, :2]).any(axis=1)
    if begins_anew:
        begins[1:] |= mean[1:] < mean[:-1] - ROUNDING
    return begins


def _position(visit: IntArray, *, visit_count: int) -> IntArray:
    """Return each portion's place among those of its visit."""
    order = np.argsort(visit, kind="stable")
    first = np.searchsorted(visit[order], np.arange(visit_count))
    position = np.empty_like(visit)
    position[order] = np.arange(visit.size) - first[visit[order]]
    return position
