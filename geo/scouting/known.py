"""What is known of each block, since when, and in which words?"""

from dataclasses import dataclass

import numpy as np
import xarray as xr

from geo.arrays import BoolArray, FloatArray
from geo.ranking.doubt import spread
from geo.ranking.sentences import two_digits
from geo.scouting.look import count_words
from geo.texts import phrase, phrases


@dataclass(frozen=True, slots=True)
class Known:
    """
    What is known of the blocks, as plain arrays: a large farm asks block by block.

    Attributes
    ----------
    days_since_look, days_since_stage_seen : numpy.ndarray
        [d] Shape (block,), NaN for never.
    spread : numpy.ndarray
        [1] Shape (block,): how many times more or less the hazard may be.
    area : numpy.ndarray
        [ha] Shape (block,).
    infected, inspected : numpy.ndarray
        [1] Shape (block,): of the newest count, 0 where nobody counted.
    """

    days_since_look: FloatArray
    days_since_stage_seen: FloatArray
    spread: FloatArray
    area: FloatArray
    infected: FloatArray
    inspected: FloatArray

    def is_fresh(self, *, within_days: int) -> BoolArray:
        """
        Return which blocks were counted lately.

        Parameters
        ----------
        within_days : int
            How lately.

        Returns
        -------
        numpy.ndarray
            Shape (block,); False where nobody ever counted.
        """
        fresh: BoolArray = self.days_since_look < within_days
        return fresh

    def words(self, block: int) -> str:
        """
        Return what is known of a block.

        Parameters
        ----------
        block : int
            Its place.

        Returns
        -------
        str
            One plain sentence.
        """
        since, stage = self.days_since_look[block], self.days_since_stage_seen[block]
        look, seen = phrase("never counted"), phrase("stage never noted")
        if not np.isnan(since):
            look = phrase("counted {days_ago}", days_ago=_days_ago(since))
            if self.inspected[block]:
                look += f" ({count_words(self.infected[block], self.inspected[block])})"
        if not np.isnan(stage):
            seen = phrase("stage noted {days_ago}", days_ago=_days_ago(stage))
        return phrase(
            "May be {within} times more or less by its count, stage, cultivars and ground alone: "
            "{look}, {stage}; {area:.1f} ha.",
            within=two_digits(float(self.spread[block])),
            look=look,
            stage=seen,
            area=self.area[block],
        )


def known_of(season: xr.Dataset) -> Known:
    """
    Return what is known of the blocks.

    Parameters
    ----------
    season : xarray.Dataset
        Ranked, of one disease.

    Returns
    -------
    Known
        As of today.
    """
    infected, inspected = np.zeros((2, season.sizes["source"]))
    # Of several counts of a block the newest stays: it is written last.
    by_day = np.argsort(season.visit_day.values, kind="stable")
    source = season.visit_block.values[by_day]
    infected[source] = season.visit_infected.values[by_day]
    inspected[source] = season.visit_inspected.values[by_day]
    blocks = season.sizes["block"]
    return Known(
        days_since_look=season.days_since_look.values,
        days_since_stage_seen=season.days_since_stage_seen.values,
        spread=spread(season.doubt.values),
        area=season.area.values,
        infected=infected[:blocks],
        inspected=inspected[:blocks],
    )


def _days_ago(days: float) -> str:
    if days == 0:
        return phrase("today")
    if days == 1:
        return phrase("yesterday")
    return phrases("{count} day ago", "{count} days ago", int(days))
