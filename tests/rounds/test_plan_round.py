"""The round of a day: what it may never do, what it owes to its inputs, and what it says."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from functools import cache

import geopandas as gpd
import numpy as np
import pytest
import shapely

from geo.errors import InputError
from geo.rounds.day_round import DayRound, Stop
from geo.rounds.plan_round import plan_day_round
from geo.season import Farm
from geo.season.crews import Crews
from geo.season.label import Label
from geo.season.sprayers import Sprayer
from tests.demo_run import demo_outcome

SHORT = 2.0  # hours of work in most of these rounds: a whole day takes longer to search


def planned(farm: Farm | None = None, **changes: object) -> DayRound:
    """Return the demo's round, with another farm or other windows, order or options."""
    made = demo_outcome()
    order, windows = changes.pop("order", made.spray), changes.pop("windows", made.windows)
    options = {"hours": SHORT} | changes
    return plan_day_round(farm or made.farm, made.season, order, windows, **options)


@cache
def short_round() -> DayRound:
    return planned()


def with_sprayers(*sprayers: Sprayer, **settings: object) -> Farm:
    farm = demo_outcome().farm
    return replace(farm, settings=replace(farm.settings, sprayers=sprayers, **settings))


def stops_of(day_round: DayRound) -> list[Stop]:
    return [stop for day in day_round.sprayers for stop in day.stops]


def minutes_of(moment: datetime) -> float:
    return moment.hour * 60 + moment.minute + moment.second / 60


def test_no_load_holds_more_than_its_tank_and_each_is_what_its_stops_take() -> None:
    tanks = {one.name: one.tank_litres for one in demo_outcome().farm.settings.sprayers}
    for day in short_round().sprayers:
        assert day.loads
        for load in day.loads:
            its = [stop for stop in day.stops if stop.load == load.number]
            assert load.litres == pytest.approx(sum(stop.litres for stop in its))
            assert 0 < load.litres <= tanks[day.sprayer] + 1e-6
            assert load.filled_until <= min(stop.arrives for stop in its)
            assert load.ingredients[0].material == "sulfur"


def test_every_stop_lies_within_open_hours_of_its_block() -> None:
    windows = demo_outcome().windows
    blocks = demo_outcome().season.block.values.tolist()
    for stop in stops_of(short_round()):
        for hour, start in enumerate(windows.start[: windows.hours_of_day]):
            begins = minutes_of(start.replace(tzinfo=None))
            if minutes_of(stop.starts) < begins + 60 and minutes_of(stop.finishes) > begins:
                assert not windows.is_closed[blocks.index(stop.block), hour]


def test_each_row_is_sprayed_once_at_most() -> None:
    seen: set[tuple[str, int]] = set()
    for stop in stops_of(short_round()):
        rows = {(stop.block, row) for row in range(stop.first_row, stop.last_row + 1)}
        assert stop.last_row <= stop.rows_of_block
        assert not rows & seen
        seen |= rows
    assert seen


def test_nobody_is_away_longer_than_the_hours_of_work_or_in_two_places_at_once() -> None:
    for day in short_round().sprayers:
        assert day.returns - day.leaves <= timedelta(hours=SHORT, seconds=1)
        hours = day.spraying_hours + day.driving_hours + day.filling_hours + day.waiting_hours
        assert hours == pytest.approx((day.returns - day.leaves).total_seconds() / 3600, abs=1e-3)
        ends = [day.leaves, *(stop.finishes for stop in day.stops)]
        assert all(a <= b.arrives for a, b in zip(ends, day.stops, strict=False))
        assert len(day.path) > len(day.stops)


def test_what_is_avoided_and_what_is_left_make_up_the_order() -> None:
    round_, order = short_round(), demo_outcome().spray
    left = sum(one.cost for one in round_.left_out)
    assert round_.avoided + left == pytest.approx(sum(one.avoidable for one in order.entries))
    assert round_.avoided <= round_.bound
    assert [one.cost for one in round_.left_out] == sorted(
        (one.cost for one in round_.left_out), reverse=True
    )
    assert {one.reason for one in round_.left_out} <= {
        "No time is left for its other rows.",
        "No time is left: the hours go to blocks that lose more for each hour and way.",
    }


def test_more_hours_never_lower_what_is_avoided_and_ranks_never_change() -> None:
    found = [planned(hours=hours) for hours in (0.0, 0.5, 1.0, 1.5, SHORT)]
    avoided = [one.avoided for one in found]
    assert avoided[0] == 0.0
    assert avoided == sorted(avoided)
    ranks = {entry.block: entry.rank for entry in demo_outcome().spray.entries}
    for one in found:
        assert all(stop.rank == ranks[stop.block] for stop in stops_of(one))
        assert all(left.rank == ranks[left.block] for left in one.left_out)
    assert "There are no hours of work: nothing is planned." in found[0].notes
    assert {one.reason for one in found[0].left_out} == {"There are no hours of work."}
    assert len(found[0].left_out) == len(ranks)


def test_a_moved_shed_changes_the_way_and_not_the_priorities() -> None:
    farm = demo_outcome().farm
    places = farm.places.copy()
    gate = places.geometry[places["kind"] == "gate"].iloc[1]
    places.loc[places["kind"] == "shed", "geometry"] = shapely.Point(gate.x, gate.y)
    moved = planned(replace(farm, places=places))
    assert moved.sprayers[0].path[0] != short_round().sprayers[0].path[0]
    ranks = {stop.block: stop.rank for stop in stops_of(short_round())}
    assert all(ranks.get(stop.block, stop.rank) == stop.rank for stop in stops_of(moved))


def test_a_moved_gate_changes_where_a_block_is_entered_and_not_its_rank() -> None:
    farm = demo_outcome().farm
    stop = stops_of(short_round())[0]
    outline = farm.blocks.geometry.loc[stop.block]
    entered = gpd.GeoSeries([shapely.Point(stop.longitude, stop.latitude)], crs="EPSG:4326").to_crs(
        farm.crs
    )[0]
    corners = shapely.points(shapely.get_coordinates(outline))
    places = farm.places.copy()
    last = places.index[places["kind"] == "gate"][-1]
    places.loc[last, "geometry"] = corners[shapely.distance(corners, entered).argmax()]
    moved = planned(replace(farm, places=places))
    again = [one for one in stops_of(moved) if one.block == stop.block]
    assert again
    assert all((one.longitude, one.rank) != (stop.longitude, stop.rank) for one in again)
    assert {one.rank for one in again} == {stop.rank}


def test_without_tracks_ways_are_straight_lines_and_that_is_said() -> None:
    farm = demo_outcome().farm
    bare = planned(replace(farm, places=farm.places[farm.places["kind"] != "track"]))
    assert (short_round().ways, bare.ways) == ("tracks", "straight lines")
    assert any("straight lines" in note for note in bare.notes)


def test_a_tank_that_is_not_kept_stirred_stays_in_the_shed() -> None:
    still = Sprayer("Old one", agitated=False, tank_litres=2000.0)
    stirred = Sprayer("New one", agitated=True, tank_litres=2000.0)
    both = planned(with_sprayers(still, stirred))
    assert [day.sprayer for day in both.sprayers] == ["New one"]
    assert any(note.startswith("Old one stays in the shed") for note in both.notes)
    alone = planned(with_sprayers(still))
    assert alone.sprayers == ()
    assert {one.reason for one in alone.left_out} == {
        "No sprayer here may carry the planned materials."
    }


def test_a_row_that_no_tank_holds_leaves_the_block_out_and_says_why() -> None:
    small = planned(with_sprayers(Sprayer("Knapsack", agitated=True, tank_litres=16.0)))
    assert small.sprayers == ()
    assert {one.reason for one in small.left_out} == {"One row takes more than the tank holds."}


def test_hours_too_short_for_a_load_are_named_with_their_length() -> None:
    made = demo_outcome().windows
    open_hours = np.flatnonzero(~made.is_closed[:, : made.hours_of_day].all(axis=0))
    start = time(int(made.start[open_hours[-1]].hour), 55)
    late = planned(start=start)
    assert late.sprayers == ()
    assert any(
        one.reason.startswith("No open hours in a row are long enough: a load takes ")
        for one in late.left_out
    )


def test_a_start_after_the_last_open_hour_is_told_in_words_and_not_in_minutes() -> None:
    late = planned(start=time(23, 30))
    assert late.sprayers == ()
    assert {one.reason for one in late.left_out} == {
        "Its open hours of today are over before the sprayers may leave."
    }


def test_a_day_without_open_blocks_says_which_rules_close_it() -> None:
    order = demo_outcome().spray
    closed = planned(order=replace(order, entries=()))
    assert (closed.sprayers, closed.avoided, closed.is_proven) == ((), 0.0, True)
    named = f"No block is open today: {len(order.cannot_now)} are closed by "
    (told,) = (note for note in closed.notes if note.startswith(named))
    assert ":" not in told.removeprefix(named)
    idle = planned(order=replace(order, entries=(), cannot_now=()))
    assert "No block is worth a spray today: nothing is planned." in idle.notes


def test_blocks_that_a_rule_keeps_out_are_named_with_it() -> None:
    order = demo_outcome().spray
    held = order.cannot_now[0]
    many = tuple(replace(held, block=f"H{n:02d}", about="Heat") for n in range(9))
    one = replace(held, block="W01", about="Wind")
    notes = planned(order=replace(order, cannot_now=(*many, one))).notes
    assert (
        "Closed today, 10 in all: Heat: H00, H01, H02, H03, H04, H05, H06, H07 and 1 more; "
        "Wind: W01."
    ) in notes


def test_without_a_forecast_nothing_is_planned_and_that_is_said() -> None:
    made = demo_outcome()
    none = replace(
        made.windows,
        start=(),
        hour=np.zeros(0),
        gates=(),
        is_closed=np.zeros((len(made.farm.blocks), 0), dtype=bool),
    )
    farm = replace(made.farm, crews=Crews(*(np.zeros(0, dtype=np.int64) for _ in range(5))))
    empty = planned(farm, windows=none, order=replace(made.spray, entries=()))
    assert empty.day == made.farm.today
    assert any(note.startswith("No hour of forecast is known") for note in empty.notes)


def test_a_short_forecast_and_a_missing_label_file_are_said() -> None:
    made = demo_outcome()
    short = planned(
        replace(made.farm, labels=None), order=replace(made.spray, horizon_days=2), hours=1.0
    )
    assert any(note.startswith("Weather is known for 2 of 3 days") for note in short.notes)
    assert any(note.startswith("No label file is given") for note in short.notes)
    assert stops_of(short)[0].re_entry_ends is None
    assert stops_of(short)[0].pre_harvest_ends is None


def test_re_entry_and_picking_count_from_the_end_by_the_longest_of_the_tank() -> None:
    made = demo_outcome().farm
    labels = (
        Label("sulfur", re_entry_hours=24.0, pre_harvest_days=0.0),
        Label("copper", re_entry_hours=48.0, pre_harvest_days=1.0),
    )
    farm = replace(made, labels=labels, settings=replace(made.settings, mixed_with="copper"))
    stop = stops_of(planned(farm, hours=1.0))[0]
    assert stop.re_entry_ends == stop.finishes + timedelta(hours=48)
    assert stop.pre_harvest_ends == date(2026, 2, 19)


def test_no_crew_is_sent_through_a_fresh_spray() -> None:
    made = demo_outcome()
    first = stops_of(planned(hours=1.0))[0]
    names = made.season.block.values.tolist()
    at = names.index(first.block)
    # A track straight through the block, with a gate beyond it that a crew's block is entered by.
    middle = made.farm.blocks.geometry.iloc[at].centroid
    reach = shapely.LineString([(middle.x - 900, middle.y), (middle.x + 900, middle.y)])
    shed = shapely.Point(middle.x - 900, middle.y)
    goal = names.index(next(block for block in names if block != first.block))
    outlines = made.farm.blocks.geometry.copy()
    outlines.iloc[goal] = shapely.box(middle.x + 905, middle.y - 40, middle.x + 1000, middle.y + 40)
    places = gpd.GeoDataFrame(
        {"kind": ["track", "shed"], "name": ["Through", "Shed"]},
        geometry=[reach, shed],
        crs=made.farm.crs,
    )
    midnight = made.windows.hour[0] - made.windows.start[0].hour
    crews = Crews(
        block=np.array([goal, goal]),
        start=midnight + np.array([8.0, 80.0]),
        end=midnight + np.array([20.0, 90.0]),
        day=np.array([0, 3]),
        is_picking=np.array([True, True]),
    )
    farm = replace(
        made.farm, places=places, blocks=made.farm.blocks.set_geometry(outlines), crews=crews
    )
    order = replace(
        made.spray, entries=tuple(one for one in made.spray.entries if one.block == first.block)
    )
    closed = planned(farm, order=order, hours=2.0)
    assert stops_of(closed) == []
    words = f"the way to {names[goal]} leads through it"
    assert any(note.startswith(first.block) and words in note for note in closed.notes)
    # Done with before the block opens: nothing stands in the way.
    gone = replace(crews, end=midnight + np.array([9.0, 90.0]))
    assert stops_of(planned(replace(farm, crews=gone), order=order, hours=2.0))
    # Tomorrow at noon a crew passes: what is sprayed must be dry for the label's hours by then.
    noon = replace(
        crews, start=midnight + np.array([36.0, 80.0]), end=midnight + np.array([40.0, 90.0])
    )
    for stop in stops_of(planned(replace(farm, crews=noon), order=order, hours=2.0)):
        assert stop.re_entry_ends is not None
        assert stop.re_entry_ends <= datetime.fromisoformat("2026-02-19T12:00")


def test_options_that_cannot_be_are_refused_in_words() -> None:
    with pytest.raises(InputError, match=r"E-HOURS-RANGE .* -1 hours of work"):
        planned(hours=-1.0)
    with pytest.raises(InputError, match=r"E-SPRAYERS-RANGE .* 3 sprayers, and 2 are described"):
        planned(sprayers=3)
    one = planned(sprayers=1, hours=1.0)
    assert len(one.sprayers) == 1
    assert not any("Small sprayer" in note for note in one.notes)
    assert any("Assumed, not given in farm.toml: Large sprayer" in note for note in one.notes)


def test_blocks_beyond_the_hours_by_rank_are_told_apart() -> None:
    order = demo_outcome().spray
    far = replace(order, entries=tuple(replace(one, is_within=False) for one in order.entries))
    assert any("do not reach by rank" in note for note in planned(order=far, hours=1.0).notes)
    near = replace(order, entries=tuple(replace(one, is_within=True) for one in order.entries))
    assert not any("do not reach by rank" in note for note in planned(order=near, hours=1.0).notes)
