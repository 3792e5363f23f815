"""Today's scouting order: the doubtful block with much at stake before the certain one."""

import numpy as np
import xarray as xr

from geo.arrays import BoolArray, FloatArray, IntArray
from geo.ranking.layer import spores_doubt, stage_doubt_ahead
from geo.reference.diseases import disease_with
from geo.reference.number import values
from geo.scouting.known import known_of
from geo.scouting.look import Look, effect_words, look_at, proof_words
from geo.scouting.order import CLOSED, DRAWN, DUE, VALUE, ScoutingEntry, ScoutingOrder
from geo.scouting.sanitation import sanitation_words
from geo.scouting.value import chance_of_other_decision, hazard_cases, value_of_knowing
from geo.scouting.walk_hours import walk_hours
from geo.scouting.when import block_words, farm_words
from geo.season.disease import disease_key
from geo.season.farm import Farm, Settings
from geo.season.looked_up import LookedUp
from geo.season.today import today_index
from geo.texts import mark, phrase, phrase_of

PLACE_WORDS = {
    VALUE: "",
    DUE: mark("Due: not counted within the visit interval."),
    DRAWN: mark("Its place is drawn by lot."),
    CLOSED: mark("Last: closed to people in the hours of the walk."),
}
# Where a block stands to the stand-in for the line of decision, its doubt counted in.
SIDE_WORDS = {
    -1: mark("Its hazard is well below the middle block's: a look hardly changes that."),
    0: mark("Its hazard is near the middle block's: a look may decide on which side it is."),
    1: mark("Its hazard is well above the middle block's: a look hardly changes that."),
}
MINUTES_AN_HOUR = 60.0  # by definition
RARELY = 0.05  # our choice: a look that changes fewer decisions hardly changes one


def plan_scouting_order(farm: Farm, season: xr.Dataset) -> ScoutingOrder:
    """
    Return today's scouting order.

    Parameters
    ----------
    farm : Farm
        For the day and the settings.
    season : xarray.Dataset
        Ranked.

    Returns
    -------
    ScoutingOrder
        Blocks with a hazard to come. Those not looked at for the visit interval are due and come
        first; within the due and within the rest, the order is by the value of looking. A share
        of all places is drawn, by the day, so that looks also go where the model expects little.
        Blocks closed to people in the hours of the walk come last.

    Notes
    -----
    The value of looking is the expected gain of the better decision after the look, over the
    hours it takes. The look moves the expected hazard by as much doubt as it settles (count and
    stage; not cultivars, age or ground), and a spray is then decided by where it lands. At the
    relative level there is no money, so a stand-in takes its place: a spray is taken to cost, on
    each hectare, what it saves at the middle hazard among the blocks that have any. A block far
    above that line is sprayed and one far below is not, whatever a look finds; near it a look
    decides.
    """
    season = LookedUp(season)
    hazard = np.nan_to_num(season.hazard_ahead.values, nan=0.0)
    stake = hazard * season.area.values
    today = today_index(season)
    look = look_at(season.sporulating.values[: season.sizes["block"], today])
    worth, side = _worth(season, hazard, look)
    known = known_of(season)
    since = known.days_since_look
    is_fresh = known.is_fresh(within_days=farm.settings.visit_interval_days)
    hours = walk_hours(farm, season)
    is_open = np.ones(stake.shape, dtype=bool) if hours is None else hours.is_open
    chosen, order = _order(farm, worth=worth, is_due=~is_fresh, stake=np.where(is_open, stake, 0.0))
    shut: IntArray = np.flatnonzero(~is_open & (stake > 0))
    order += shut[np.argsort(-worth[shut], kind="stable")].tolist()
    chosen += [CLOSED] * shut.size
    best = worth.max() or 1.0
    blocks, doubt = season.block.values.tolist(), season.doubt.values
    years = farm.today.year - farm.blocks["planted"].to_numpy(dtype=float)
    disease = disease_with(disease_key(season))
    entries = tuple(
        ScoutingEntry(
            rank=rank,
            block=blocks[i],
            score=float(worth[i] / best),
            doubt=float(doubt[i]),
            stake=float(stake[i]),
            days_since_look=None if np.isnan(since[i]) else int(since[i]),
            chosen=why,
            trees=int(look.trees[i]),
            organs_per_tree=look.organs_per_tree,
            share_left=float(look.left[i]),
            proof=proof_words(look, int(i), disease.organs),
            reason=" ".join(
                filter(
                    None,
                    (
                        known.words(int(i)),
                        phrase_of(SIDE_WORDS[int(side[i])]),
                        phrase_of(PLACE_WORDS[why]),
                    ),
                )
            ),
            when=block_words(hours, season, int(i), agent=disease.agent),
            option=(
                sanitation_words(
                    disease,
                    years=float(years[i]),
                    infected=float(known.infected[i]),
                    inspected=float(known.inspected[i]),
                )
                if is_fresh[i]
                else ""
            ),
            walk_from=hours.clock(hours.block_start[i]) if hours and is_open[i] else None,
            walk_until=hours.clock(hours.block_end[i]) if hours and is_open[i] else None,
        )
        for rank, (i, why) in enumerate(zip(order, chosen, strict=True), start=1)
    )
    return ScoutingOrder(
        today=farm.today,
        entries=entries,
        when=farm_words(hours, has_labels=farm.labels is not None),
        rule=f"{_rule_words(farm.settings)} {effect_words(disease.organs)}",
    )


def _worth(season: xr.Dataset, hazard: FloatArray, look: Look) -> tuple[FloatArray, IntArray]:
    """Return the value of an hour of looking, 0 where nothing is at stake, and the line's side."""
    doubt = np.nan_to_num(season.doubt.values, nan=0.0)
    has_hazard = hazard > 0
    if not has_hazard.any():
        return np.zeros(hazard.shape), np.full(hazard.shape, -1)
    line = float(np.median(hazard[has_hazard]))
    table = season.factors.values
    before = spores_doubt(season, table)
    # Each block has a look of its own size.
    after = spores_doubt(season, table, counted=look.effective)
    settled = np.nan_to_num(before**2 - after**2 + stage_doubt_ahead(season) ** 2, nan=0.0)
    # What is expected after the look varies by just the doubt that the look takes away.
    cases = hazard_cases(hazard, np.sqrt(np.clip(settled, 0.0, doubt**2)))
    worth: FloatArray = value_of_knowing(cases, cost=line) * season.area.values / look.hours
    is_near = chance_of_other_decision(cases, cost=line) >= RARELY
    return worth, np.where(is_near, 0, np.where(hazard > line, 1, -1))


def _order(
    farm: Farm, *, worth: FloatArray, is_due: BoolArray, stake: FloatArray
) -> tuple[list[str], list[int]]:
    """Return why each block has its place, and the blocks, first to last."""
    at_stake = np.flatnonzero(stake > 0)
    # Blocks of one worth, mostly of none, go by what is at stake.
    queue: IntArray = at_stake[np.lexsort((-stake[at_stake], -worth[at_stake], ~is_due[at_stake]))]
    left = queue.tolist()
    draw = np.random.default_rng(farm.today.toordinal())
    chosen, order = [], []
    while left:
        is_drawn = draw.random() < farm.settings.random_share
        block = left.pop(int(draw.integers(len(left))) if is_drawn else 0)
        order.append(block)
        chosen.append(DRAWN if is_drawn else DUE if is_due[block] else VALUE)
    return chosen, order


def _rule_words(settings: Settings) -> str:
    minutes = values("scouting", "look")["hours_per_tree"] * MINUTES_AN_HOUR
    return phrase(
        "Blocks not counted for {days} days are due and come first; {share:.0f} % of the places "
        "are drawn by lot, by the date (both assumed unless set). The value of looking is that of "
        "an hour at the trees, {minutes:.0f} minutes each (assumed); a planned walk adds the way "
        "between them.",
        days=settings.visit_interval_days,
        share=settings.random_share * 100,
        minutes=minutes,
    )
