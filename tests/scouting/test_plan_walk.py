"""The walk: the most value in the time there is, within each block's hours, and never twice."""

from dataclasses import replace
from datetime import timedelta
from itertools import combinations, pairwise, permutations

import numpy as np
import pytest
import shapely

from geo.scouting.coolest import coolest_tenth
from geo.scouting.inside_walk import block_walk, walking_minutes, way_in
from geo.scouting.order import DRAWN, DUE, ScoutingOrder
from geo.scouting.paths import Paths
from geo.scouting.plan_walk import plan_walk
from geo.scouting.stops import chance_of, stops_in, strongest_source
from geo.scouting.walk import Walk
from tests.exports.made import Made, made
from tests.scouting.made_walk import CLOSES, OPENS, entry, morning, order_of

BLOCKS = ["B01", "B02", "B06", "B07"]
SCORES = (1.0, 0.7, 0.4, 0.2)
ORDER = order_of(
    *(
        entry(rank, block, score=score, count=3 + rank)
        for rank, (block, score) in enumerate(zip(BLOCKS, SCORES, strict=True), start=1)
    )
)


@pytest.fixture(scope="module")
def farm_made() -> Made:
    return made()


def gate_of(farm_made: Made) -> tuple[str, shapely.Point]:
    gate = farm_made.farm.places[farm_made.farm.places["kind"] == "gate"].iloc[0]
    return str(gate["name"]), gate.geometry


def planned(
    farm_made: Made, *, hours: float = 1.0, order: ScoutingOrder = ORDER, **closed: object
) -> Walk:
    return plan_walk(
        farm_made.farm,
        farm_made.season,
        order,
        morning=morning(BLOCKS, **closed),
        hours=hours,
        starts=[gate_of(farm_made)],
    )


def test_it_keeps_its_time_and_passes_each_tree_once(farm_made: Made) -> None:
    walk = planned(farm_made, hours=1.5)
    assert walk.visits
    assert walk.returns - walk.leaves <= timedelta(hours=1.5, seconds=1)
    assert walk.leaves >= OPENS
    assert walk.returns <= CLOSES
    numbers = [stop.number for visit in walk.visits for stop in visit.stops]
    assert numbers == list(range(1, len(numbers) + 1))
    for visit in walk.visits:
        assert len(visit.stops) == visit.entry.trees
        outline = farm_made.farm.blocks.geometry.loc[visit.entry.block]
        for stop in visit.stops:
            assert outline.contains(shapely.Point(stop.stop.east, stop.stop.north))
    walked = {visit.entry.block for visit in walk.visits}
    assert walked.isdisjoint(one.entry.block for one in walk.left_out)
    assert len(walked) + len(walk.left_out) == len(BLOCKS)
    assert walk.way[0] == walk.way[-1] == walk.start_place
    assert walk.metres == pytest.approx(shapely.LineString(walk.way).length)
    assert walk.ways == "tracks"
    there = sum(visit.metres_to + visit.metres_inside for visit in walk.visits)
    assert there < walk.metres
    # Time away is the walking and three minutes a tree.
    minutes = (walk.returns - walk.leaves).total_seconds() / 60
    on_foot = float(walking_minutes(np.array(walk.metres)))
    assert minutes == pytest.approx(on_foot + 3 * len(numbers), abs=1.0)


@pytest.mark.parametrize("hours", [0.4, 0.8, 1.2, 3.0])
def test_no_choice_of_blocks_collects_more(farm_made: Made, hours: float) -> None:
    """Two roads to one answer: every choice and order of four blocks."""
    farm, season = farm_made.farm, farm_made.season
    paths = Paths(farm, [gate_of(farm_made)])
    cool = coolest_tenth(farm, season).geometry
    of_block = {}
    for one in ORDER.entries:
        outline = farm.blocks.geometry.loc[one.block]
        place = list(season.block.values).index(one.block)
        way = way_in(outline, paths.towards)
        trees = stops_in(
            outline,
            one.trees,
            chance=chance_of(OPENS.date(), one.block),
            coolest=cool.get(one.block),
            facing=strongest_source(farm, season, place),
        )
        prize = one.score * one.trees
        of_block[one.block] = way, block_walk(trees, way).minutes, prize

    paths.lead_to([of_block[one][0] for one in BLOCKS])
    between = paths.minutes(0)

    def minutes(order: tuple[str, ...]) -> float:
        places = [0, *(BLOCKS.index(one) + 1 for one in order), 0]
        walked = sum(float(between[one, other]) for one, other in pairwise(places))
        return walked + sum(of_block[one][1] for one in order)

    best = max(
        sum(of_block[one][2] for one in chosen)
        for count in range(len(BLOCKS) + 1)
        for chosen in combinations(BLOCKS, count)
        if min(map(minutes, permutations(chosen))) <= hours * 60 - 0.1
    )
    walk = planned(farm_made, hours=hours)
    found = sum(of_block[visit.entry.block][2] for visit in walk.visits)
    assert found == pytest.approx(best)
    assert walk.value_share == pytest.approx(best / sum(prize for _, _, prize in of_block.values()))


def test_a_sprayed_block_is_walked_after_its_re_entry_time_or_not_at_all(farm_made: Made) -> None:
    late = OPENS + timedelta(hours=1)
    walk = planned(farm_made, hours=4.0, B01=late)
    arrives = {visit.entry.block: visit.arrives for visit in walk.visits}
    assert arrives["B01"] >= late
    shut = planned(farm_made, hours=4.0, B01=CLOSES - timedelta(minutes=5), B02=None)
    reasons = {one.entry.block: one.reason for one in shut.left_out}
    assert "do not enter before 14 Aug 10:25" in reasons["B01"]
    assert reasons["B02"] == "Nobody should walk there in these hours."
    assert {visit.entry.block for visit in shut.visits} == {"B06", "B07"}


def test_why_a_block_is_closed_is_said_in_the_words_of_the_order(farm_made: Made) -> None:
    heat = "30 °C or more is forecast from the start of these hours: walk another day."
    hot = order_of(replace(entry(1, "B01"), when=heat), entry(2, "B02"))
    walk = planned(farm_made, order=hot, B01=None)
    assert walk.left_out[0].reason == heat


def test_where_there_is_no_time_nobody_walks_and_it_says_so(farm_made: Made) -> None:
    walk = planned(farm_made, hours=0.1)
    assert not walk.visits
    assert walk.leaves == walk.returns == OPENS
    assert walk.way == ()
    assert walk.value_share == walk.metres == 0.0
    assert walk.left_out[0].reason.endswith(" minutes alone.")
    short = planned(farm_made, hours=1.0)
    assert "In the time there is, others together are worth more." in {
        one.reason for one in short.left_out
    }


def test_what_is_left_out_for_a_lot_is_not_said_to_be_worth_less(farm_made: Made) -> None:
    lot = order_of(entry(1, "B07", score=0.0, why=DRAWN), entry(2, "B01"), entry(3, "B02"))
    alone = planned(farm_made, hours=1.0, order=lot)
    assert [visit.entry.block for visit in alone.visits] == ["B07"]
    assert {one.reason for one in alone.left_out} == {
        "Drawn by lot and kept: B07. With that, it does not fit in the time."
    }
    both = planned(farm_made, hours=1.5, order=lot)
    assert {visit.entry.block for visit in both.visits} > {"B07"}
    assert {one.reason for one in both.left_out} == {
        "Drawn by lot and kept: B07. With that, others fit the time better."
    }


def test_a_block_too_far_to_reach_and_leave_in_the_time_says_so(farm_made: Made) -> None:
    look = planned(farm_made, hours=4.0).visits[0]
    minutes = (look.leaves - look.arrives).total_seconds() / 60
    order = order_of(look.entry)
    walk = planned(farm_made, hours=(minutes + 0.5) / 60, order=order)
    assert not walk.visits
    assert walk.left_out[0].reason.startswith(f"Its look takes {minutes:.0f} minutes, ")
    assert walk.left_out[0].reason.endswith(" with the way there and back.")


def test_a_block_that_is_not_open_so_long_is_left_out(farm_made: Made) -> None:
    early = replace(
        morning(BLOCKS),
        hours={block: (OPENS, OPENS + timedelta(minutes=9)) for block in BLOCKS},
    )
    walk = plan_walk(
        farm_made.farm,
        farm_made.season,
        ORDER,
        morning=early,
        hours=2.0,
        starts=[gate_of(farm_made)],
    )
    assert not walk.visits
    assert "it is not open so long" in walk.left_out[0].reason


def test_blocks_that_are_due_go_before_those_of_value(farm_made: Made) -> None:
    due = order_of(
        entry(1, "B07", score=0.0, count=4, why=DUE),
        entry(2, "B01", score=1.0, count=4),
        entry(3, "B02", score=0.0, count=4),
    )
    walk = planned(farm_made, hours=1.5, order=due)
    assert {"B07", "B01"} <= {visit.entry.block for visit in walk.visits}
    half = planned(farm_made, hours=0.7, order=due)
    assert [visit.entry.block for visit in half.visits] == ["B07"]
    assert half.value_share == 0.0


def test_a_block_drawn_by_lot_is_walked_wherever_it_lies(farm_made: Made) -> None:
    lot = order_of(
        entry(1, "B01", score=1.0, count=4),
        entry(2, "B07", score=0.0, count=4, why=DRAWN),
        entry(3, "B02", score=0.9, count=4),
        entry(4, "B06", score=0.9, count=4, why=DRAWN),
    )
    walk = planned(farm_made, hours=0.7, order=lot)
    assert [visit.entry.block for visit in walk.visits] == ["B07"]
    # One drawn far down the order is no more than its worth: the time does not reach it.
    walk = planned(farm_made, hours=0.7, order=order_of(*lot.entries[::2], lot.entries[3]))
    assert "B06" not in {visit.entry.block for visit in walk.visits}


def test_of_a_long_order_only_the_first_are_chosen_among(farm_made: Made) -> None:
    walk = planned(farm_made, hours=0.2)
    assert walk.chosen_among == 3
    assert walk.left_out[-1].reason == "Further down the order than the time reaches."


def test_of_several_gates_the_one_that_collects_most_on_the_shortest_way_is_taken(
    farm_made: Made,
) -> None:
    near = (
        "Near gate",
        shapely.Point(farm_made.farm.blocks.geometry.loc["B01"].exterior.coords[0]),
    )
    far = ("Far gate", shapely.Point(near[1].x - 5_000, near[1].y))
    walk = plan_walk(
        farm_made.farm,
        farm_made.season,
        ORDER,
        morning=morning(BLOCKS),
        hours=1.0,
        starts=[far, near],
    )
    assert walk.start == "Near gate"


def test_the_same_day_gives_the_same_walk(farm_made: Made) -> None:
    assert planned(farm_made) == planned(farm_made)
