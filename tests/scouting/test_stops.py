"""The trees of a look: inside, the same for the same seed, each with its reason."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from geo.reference.number import values
from geo.scouting.coolest import coolest_tenth
from geo.scouting.stops import (
    COOL,
    EDGE,
    LOT,
    Facing,
    Stop,
    chance_of,
    stops_in,
    strongest_source,
)
from tests.demo_run import demo_outcome

DAY = date(2026, 2, 18)
NORTH = Facing(np.array([0.0, 1.0]), "To the north.")
HALF_A_ROW = values("scouting", "stops")["row_spacing"] / 2.0
PLAIN = shapely.box(0, 0, 300, 200)
HOLE = shapely.box(100, 50, 200, 150)
outlines = st.builds(
    lambda shape, turn, size: affinity.scale(affinity.rotate(shape, turn), size, size),
    st.sampled_from(
        [
            PLAIN,
            PLAIN.difference(HOLE),
            shapely.union(PLAIN, shapely.box(340, 0, 380, 30)),
            shapely.Polygon([(0, 0), (400, 10), (380, 40), (200, 60), (30, 300)]),
        ]
    ),
    st.floats(0, 360),
    st.floats(0.02, 3.0),
)


def points(stops: tuple[Stop, ...]) -> np.ndarray:
    return shapely.points(np.array([(stop.east, stop.north) for stop in stops]).reshape(-1, 2))


@given(outlines, st.integers(0, 25), st.integers(0, 99))
def test_every_stop_is_inside_and_they_are_as_many_as_wanted(
    outline: shapely.Geometry, count: int, day: int
) -> None:
    chance = chance_of(DAY + timedelta(days=day), "B01")
    coolest = shapely.intersection(outline, outline.centroid.buffer(np.sqrt(outline.area) / 3))
    stops = stops_in(outline, count, chance=chance, coolest=coolest, facing=NORTH)
    assert len(stops) == count
    assert shapely.contains(outline, points(stops)).all()


@given(outlines, st.integers(1, 20))
def test_the_same_seed_gives_the_same_stops_and_another_day_others(
    outline: shapely.Geometry, count: int
) -> None:
    def drawn(day: date, block: str) -> tuple[Stop, ...]:
        return stops_in(outline, count, chance=chance_of(day, block), facing=NORTH)

    assert drawn(DAY, "B01") == drawn(DAY, "B01")
    assert drawn(DAY, "B01") != drawn(DAY + timedelta(days=1), "B01")
    assert drawn(DAY, "B01") != drawn(DAY, "B02")


def test_half_a_row_is_kept_from_edges_and_holes() -> None:
    outline = PLAIN.difference(HOLE)
    for day in range(20):
        stops = stops_in(
            outline, 20, chance=chance_of(DAY + timedelta(days=day), "B"), facing=NORTH
        )
        kept = shapely.distance(outline.boundary, points(stops)).min()
        assert kept >= HALF_A_ROW - 1e-6
        assert not shapely.intersects(HOLE, points(stops)).any()


def test_a_block_of_a_single_tree_gets_its_stops_within_it() -> None:
    tree = shapely.box(0, 0, 2, 2)
    stops = stops_in(tree, 5, chance=chance_of(DAY, "B"), facing=NORTH)
    assert len(stops) == 5
    assert shapely.contains(tree, points(stops)).all()


@pytest.mark.parametrize(
    ("count", "cool", "edge", "lot"),
    [(20, 6, 6, 8), (12, 3, 3, 6), (5, 1, 1, 3), (3, 1, 1, 1), (2, 0, 0, 2), (1, 0, 0, 1)],
)
def test_at_least_as_many_are_drawn_by_lot_as_of_either_kind(
    count: int, cool: int, edge: int, lot: int
) -> None:
    hollow = shapely.box(0, 0, 80, 80)
    stops = stops_in(PLAIN, count, chance=chance_of(DAY, "B"), coolest=hollow, facing=NORTH)
    kinds = [stop.kind for stop in stops]
    assert [kinds.count(kind) for kind in (COOL, EDGE, LOT)] == [cool, edge, lot]
    by_kind = {kind: [stop for stop in stops if stop.kind == kind] for kind in (COOL, EDGE)}
    assert all(shapely.contains(hollow, points(tuple(by_kind[COOL])))) if cool else True
    assert all(stop.north == pytest.approx(200 - HALF_A_ROW) for stop in by_kind[EDGE])
    assert all(stop.reason for stop in stops)


def test_without_a_cool_part_and_a_source_all_are_drawn_by_lot() -> None:
    stops = stops_in(PLAIN, 8, chance=chance_of(DAY, "B"))
    assert {stop.kind for stop in stops} == {LOT}


def test_a_cool_part_that_lies_all_within_the_margin_counts_as_none() -> None:
    stops = stops_in(PLAIN, 8, chance=chance_of(DAY, "B"), coolest=shapely.box(0, 0, 2, 2))
    assert {stop.kind for stop in stops} == {LOT}


def test_on_the_demo_farm_each_stop_is_inside_its_block_and_cool_ones_in_its_coolest_tenth() -> (
    None
):
    outcome = demo_outcome()
    farm, season = outcome.farm, outcome.season
    tenth = coolest_tenth(farm, season).geometry
    kinds = set()
    for place, (block, outline) in enumerate(farm.blocks.geometry.items()):
        facing = strongest_source(farm, season, place)
        cool = tenth.get(block)
        stops = stops_in(outline, 10, chance=chance_of(DAY, block), coolest=cool, facing=facing)
        assert shapely.contains(outline, points(stops)).all()
        for stop in stops:
            kinds.add(stop.kind)
            if stop.kind == COOL:
                assert cool.contains(shapely.Point(stop.east, stop.north))
    assert kinds == {COOL, EDGE, LOT}


def test_the_strongest_source_is_the_outline_with_the_largest_share() -> None:
    outcome = demo_outcome()
    farm, season = outcome.farm, outcome.season
    block = int(farm.blocks.index.get_loc("B14"))
    facing = strongest_source(farm, season, block)
    assert facing is not None
    is_in = (season.arrival_block.values == block) & (season.arrival_source.values != block)
    pair = np.flatnonzero(is_in)[season.arrival_share.values[is_in].argmax()]
    source = int(season.arrival_source.values[pair])
    every = [*farm.blocks.geometry, *farm.neighbours.geometry]
    step = shapely.get_coordinates(
        shapely.shortest_line(every[block].representative_point(), every[source])
    )
    ahead = (step[1] - step[0]) @ facing.towards
    assert ahead == pytest.approx(every[block].representative_point().distance(every[source]))
    assert np.hypot(*facing.towards) == pytest.approx(1.0)
    assert "today's spores" in facing.reason


def test_without_a_named_source_the_strongest_side_of_the_compass_counts() -> None:
    outcome = demo_outcome()
    season = outcome.season.assign(arrival_share=outcome.season.arrival_share * 0.0)
    by_side = np.zeros_like(season.arrival_from_compass.values)
    by_side[0, 2] = 0.2
    season = season.assign(arrival_from_compass=(season.arrival_from_compass.dims, by_side))
    facing = strongest_source(outcome.farm, season, 0)
    assert facing is not None
    assert facing.towards.tolist() == pytest.approx([1.0, 0.0])
    assert facing.reason == "At the edge towards the east, whence 20 % of today's spores."
    assert strongest_source(outcome.farm, season, 1) is None


def test_a_source_that_lies_around_the_block_has_no_side() -> None:
    outcome = demo_outcome()
    farm, season = outcome.farm, outcome.season
    pairs = [
        (block, source)
        for block, source in zip(
            season.arrival_block.values.tolist(),
            season.arrival_source.values.tolist(),
            strict=True,
        )
        if block != source and source < len(farm.blocks)
    ]
    block, source = pairs[0]
    share = np.where(
        (season.arrival_block.values == block) & (season.arrival_source.values == source), 0.9, 0.0
    )
    season = season.assign(arrival_share=(season.arrival_share.dims, share))
    blocks = farm.blocks.copy()
    around = blocks.geometry.iloc[block].buffer(50)
    blocks.loc[blocks.index[source], "geometry"] = around
    assert strongest_source(replace(farm, blocks=blocks), season, block) is None


def test_a_farms_own_row_spacing_sets_the_margin() -> None:
    for day in range(10):
        chance = chance_of(DAY + timedelta(days=day), "B")
        stops = stops_in(PLAIN, 20, chance=chance, facing=NORTH, row_spacing=12.0)
        assert shapely.distance(PLAIN.boundary, points(stops)).min() >= 6.0 - 1e-6
