"""Today's scouting order: the doubtful block with much at stake before the certain one."""

import numpy as np
import xarray as xr

from geo.ranking.doubt import spread
from geo.ranking.sentences import two_digits
from geo.scouting.order import ScoutingEntry, ScoutingOrder
from geo.season.farm import Farm


def plan_scouting_order(farm: Farm, season: xr.Dataset) -> ScoutingOrder:
    """
    Return today's scouting order, first form.

    Parameters
    ----------
    farm : Farm
        For the day.
    season : xarray.Dataset
        Ranked.

    Returns
    -------
    ScoutingOrder
        Blocks by doubt times stake. The doubt is the standard deviation of the logarithm of the
        hazard: it grows with the days since the last look and the last stage observation, with
        small counts, with cultivars whose ratings contradict each other and with poor ground. The
        stake is the hazard to come times the hectares: a block without a hazard is left out. A
        stand-in for the value of looking, without money.
    """
    stake = season.hazard_ahead.values * season.area.values
    doubt = season.doubt.values
    score = np.nan_to_num(stake * doubt, nan=0.0)
    best = score.max() or 1.0
    since = season.days_since_look.values
    blocks = season.block.values.tolist()
    at_stake = [i for i in np.argsort(-score, kind="stable") if score[i] > 0]
    entries = tuple(
        ScoutingEntry(
            rank=rank,
            block=blocks[i],
            score=float(score[i] / best),
            doubt=float(doubt[i]),
            stake=float(stake[i]),
            days_since_look=None if np.isnan(since[i]) else int(since[i]),
            reason=_reason(season, int(i)),
        )
        for rank, i in enumerate(at_stake, start=1)
    )
    return ScoutingOrder(today=farm.today, entries=entries)


def _reason(season: xr.Dataset, block: int) -> str:
    since, stage = season.days_since_look.values[block], season.days_since_stage_seen.values[block]
    look = "never counted" if np.isnan(since) else f"counted {_days_ago(since)}"
    seen = "stage never noted" if np.isnan(stage) else f"stage noted {_days_ago(stage)}"
    within = two_digits(float(spread(season.doubt.values[block])))
    known = f"May be {within} times more or less by its count, stage, cultivars and ground alone"
    return f"{known}: {look}, {seen}; {season.area.values[block]:.1f} ha."


def _days_ago(days: float) -> str:
    if days == 0:
        return "today"
    return "yesterday" if days == 1 else f"{days:.0f} days ago"
