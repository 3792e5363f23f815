"""What drives the epidemic from outside, day by day?"""

from dataclasses import dataclass, field, fields, replace

import numpy as np

from geo.arrays import FloatArray
from geo.epidemic.counts import NO_COUNTS, Counts


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """
    One day's columns of `Drivers`, each of shape (block,) or one number for all.

    Attributes
    ----------
    favourability, susceptibility, protection : numpy.ndarray
        [1] As in `Drivers`.
    old_share, cured, reach, removed, release : numpy.ndarray
        [1] As in `Drivers`.
    latency_rate : numpy.ndarray
        [d-1] As in `Drivers`.
    neighbours : numpy.ndarray
        [1] Sporulating share of each neighbour, shape (neighbour,).
    inspected, infected : numpy.ndarray
        [1] Organs counted, shape (block,), 0 where nobody counted.
    """

    favourability: FloatArray
    susceptibility: FloatArray
    protection: FloatArray
    latency_rate: FloatArray
    old_share: FloatArray
    cured: FloatArray
    reach: FloatArray
    removed: FloatArray
    release: FloatArray
    neighbours: FloatArray
    inspected: FloatArray
    infected: FloatArray


def _all() -> FloatArray:
    return np.array(1.0)


def _none() -> FloatArray:
    return np.array(0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drivers:
    """
    The days to compute; each array has the shape (block, day) or is one number for all.

    Attributes
    ----------
    favourability : numpy.ndarray
        [1] Share of a perfect day; always (block, day).
    susceptibility : numpy.ndarray
        [1] Cultivar, stage and age together.
    protection : numpy.ndarray
        [1] Share of infections prevented.
    latency_rate : numpy.ndarray
        [d-1] One over the latent period at the day's temperatures; 0 where infection is quiescent.
    old_share : numpy.ndarray
        [1] Share of the day's tissue that was there the day before.
    cured : numpy.ndarray
        [1] Share of young infection that a curative material kills.
    reach : numpy.ndarray
        [1] How far along its latency an infection may be that it kills: the days of its reach
        over the shortest latent period.
    removed : numpy.ndarray
        [1] Share of the sporulating tissue taken out by hand or by washing.
    release : numpy.ndarray
        [1] What heat leaves of the spores that are shed.
    neighbours : numpy.ndarray or None
        [1] Sporulating share of each neighbour, shape (neighbour, day).
    counts : Counts
        Looks at the blocks.
    """

    favourability: FloatArray
    susceptibility: FloatArray
    protection: FloatArray
    latency_rate: FloatArray
    old_share: FloatArray = field(default_factory=_all)
    cured: FloatArray = field(default_factory=_none)
    reach: FloatArray = field(default_factory=_none)
    removed: FloatArray = field(default_factory=_none)
    release: FloatArray = field(default_factory=_all)
    neighbours: FloatArray | None = None
    counts: Counts = NO_COUNTS

    def on(self, day: int) -> Day:
        """
        Return what drives one day.

        Parameters
        ----------
        day : int
            Index of the day.

        Returns
        -------
        Day
            Its columns.
        """

        def column(array: FloatArray) -> FloatArray:
            return array[:, day] if array.ndim else array

        inspected, infected = self.counts.on(day, block_count=self.favourability.shape[0])
        return Day(
            favourability=self.favourability[:, day],
            susceptibility=column(self.susceptibility),
            protection=column(self.protection),
            latency_rate=column(self.latency_rate),
            old_share=column(self.old_share),
            cured=column(self.cured),
            reach=column(self.reach),
            removed=column(self.removed),
            release=column(self.release),
            neighbours=np.zeros(0) if self.neighbours is None else self.neighbours[:, day],
            inspected=inspected,
            infected=infected,
        )

    def between(self, first: int, last: int) -> "Drivers":
        """
        Return some of the days, copied so that each lies in one piece.

        Parameters
        ----------
        first, last : int
            Index of the first day, and of the one after the last.

        Returns
        -------
        Drivers
            Its day 0 is the first. A column out of a whole season touches memory all over.
        """
        whole = {each.name: getattr(self, each.name) for each in fields(self)}
        cut = {
            name: np.asfortranarray(array[:, first:last])
            for name, array in whole.items()
            if isinstance(array, np.ndarray) and array.ndim
        }
        return replace(self, **cut, counts=replace(self.counts, day=self.counts.day - first))
