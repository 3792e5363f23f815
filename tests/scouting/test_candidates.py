"""Which blocks a walk may choose among, and what it counts each for."""

from dataclasses import replace

import numpy as np
import shapely

from geo.scouting.candidates import DUE_WORTH, LEAST_WORTH, Candidate, candidates_of
from geo.scouting.order import DRAWN, DUE, ScoutingEntry
from geo.season.sprayers import RoundSettings
from tests.exports.made import made
from tests.scouting.made_walk import OPENS, entry, order_of

MADE = made()


def candidates(
    *entries: ScoutingEntry, hours: float = 2.0
) -> tuple[tuple[Candidate, ...], tuple[ScoutingEntry, ...]]:
    return candidates_of(
        MADE.farm,
        MADE.season,
        order_of(*entries),
        hours=hours,
        towards=shapely.Point(0, 0),
        day=OPENS.date(),
    )


def test_only_so_many_as_fill_the_time_three_times_are_chosen_among() -> None:
    entries = [entry(rank, f"B{rank:02d}", count=10) for rank in range(1, 9)]
    found, later = candidates(*entries, hours=0.5)
    assert [one.entry.block for one in found] == ["B01", "B02", "B03"]
    assert [one.block for one in later] == ["B04", "B05", "B06", "B07", "B08"]


def test_an_hour_is_never_worth_less_than_behind_it_and_due_ones_count_for_more() -> None:
    found, _ = candidates(
        entry(1, "B01", score=0.0, count=4, why=DUE),
        entry(2, "B02", score=0.3, count=4),
        entry(3, "B06", score=0.8, count=4),
        entry(4, "B07", score=0.0, count=4),
    )
    # Four trees take a fifth of an hour.
    worth = [one.prize / 0.2 for one in found]
    np.testing.assert_allclose(worth, [LEAST_WORTH + DUE_WORTH, 0.8, 0.8, LEAST_WORTH])
    np.testing.assert_allclose([one.value / 0.2 for one in found], [0.0, 0.3, 0.8, 0.0])


def test_of_due_blocks_the_one_of_more_value_counts_more_whatever_stands_behind() -> None:
    found, _ = candidates(
        entry(1, "B01", score=0.7, count=4, why=DUE),
        entry(2, "B02", score=0.1, count=4, why=DUE),
        entry(3, "B06", score=1.0, count=4),
    )
    worth = [one.prize / 0.2 for one in found]
    np.testing.assert_allclose(worth, [0.7 + DUE_WORTH, 0.1 + DUE_WORTH, 1.0])


def test_a_block_drawn_within_reach_outweighs_all_others() -> None:
    near, far = (
        entry(2, "B02", score=0.0, count=10, why=DRAWN),
        entry(4, "B07", score=0.0, count=10, why=DRAWN),
    )
    found, _ = candidates(entry(1, "B01", count=10), near, entry(3, "B06", count=10), far, hours=1)
    prizes = {one.entry.block: one.prize for one in found}
    assert prizes["B02"] > prizes["B01"] + prizes["B06"] + prizes["B07"]
    assert prizes["B07"] < prizes["B01"]


def test_rows_as_wide_as_the_outline_or_the_farm_says_are_kept() -> None:
    wide = replace(MADE.farm.settings, day_round=RoundSettings(row_spacing=30.0))
    farm = replace(MADE.farm, settings=wide)
    blocks = farm.blocks.assign(row_spacing=np.nan)
    blocks.loc["B02", "row_spacing"] = 10.0
    for block, margin in (("B01", 15.0), ("B02", 5.0)):
        ((found,), _) = candidates_of(
            replace(farm, blocks=blocks),
            MADE.season,
            order_of(entry(1, block, count=12)),
            hours=1.0,
            towards=shapely.Point(0, 0),
            day=OPENS.date(),
        )
        edge = farm.blocks.geometry.loc[block].boundary
        kept = min(edge.distance(shapely.Point(one.east, one.north)) for one in found.walk.stops)
        assert margin - 1e-6 <= kept < 3 * margin
