"""A block is sprayed whole, and finished before the next is begun."""

from functools import cache

import numpy as np
import pytest
import xarray as xr

from geo.rounds.day_round import DayRound
from geo.rounds.day_windows import wind_of_day
from geo.rounds.plan_round import plan_day_round
from tests.demo_run import demo_outcome


@cache
def planned(hours: float) -> DayRound:
    made = demo_outcome()
    return plan_day_round(made.farm, made.season, made.spray, made.windows, hours=hours)


def rows_of(day_round: DayRound) -> dict[str, tuple[list[int], int]]:
    """Return the rows sprayed of each block, and how many it has."""
    found: dict[str, tuple[list[int], int]] = {}
    for day in day_round.sprayers:
        for stop in day.stops:
            rows, _ = found.get(stop.block, ([], 0))
            rows += range(stop.first_row, stop.last_row + 1)
            found[stop.block] = rows, stop.rows_of_block
    return found


@pytest.mark.parametrize("hours", [4.0, 8.0])
def test_every_block_of_the_round_is_sprayed_from_its_first_row_to_its_last(hours: float) -> None:
    of_blocks = rows_of(planned(hours))
    assert of_blocks
    for rows, count in of_blocks.values():
        assert sorted(rows) == list(range(1, count + 1))


def test_what_is_left_out_is_left_out_whole() -> None:
    of_blocks = rows_of(planned(8.0))
    left = {one.block for one in planned(8.0).left_out}
    assert not left & of_blocks.keys()
    entries = {entry.block: entry.avoidable for entry in demo_outcome().spray.entries}
    sprayed = sum(entries[block] for block in of_blocks)
    assert planned(8.0).avoided == pytest.approx(sprayed)


def test_a_sprayer_never_comes_back_to_a_block_it_has_left() -> None:
    for day in planned(8.0).sprayers:
        blocks = [stop.block for stop in day.stops]
        runs = [
            block for block, before in zip(blocks, ["", *blocks], strict=False) if block != before
        ]
        assert len(runs) == len(set(runs))


# Downwind first, so that the driver leaves the cloud behind: common practice, no source.
@pytest.mark.parametrize("wind_from", [0.0, 90.0, 200.0])
def test_each_sprayer_goes_upwind_from_block_to_block(wind_from: float) -> None:
    made = demo_outcome()
    wind = xr.full_like(made.season.wind_from_direction, wind_from)
    season = made.season.assign(wind_from_direction=wind)
    day_round = plan_day_round(made.farm, season, made.spray, made.windows, hours=8.0)
    turn = np.radians(wind_from)
    middle = made.farm.blocks.geometry.centroid
    upwind = middle.x * np.sin(turn) + middle.y * np.cos(turn)
    for day in day_round.sprayers:
        blocks = list(dict.fromkeys(stop.block for stop in day.stops))
        assert (np.diff(upwind[blocks]) > 0).mean() > 0.5


def test_without_a_known_wind_the_first_rank_goes_first() -> None:
    assert np.isnan(wind_of_day(demo_outcome().season, demo_outcome().windows))
    for day in planned(8.0).sprayers:
        ranks = list(dict.fromkeys(stop.rank for stop in day.stops))
        assert ranks == sorted(ranks)


def test_where_no_block_can_be_finished_one_is_begun_and_that_is_said() -> None:
    day_round = planned(0.6)
    of_blocks = rows_of(day_round)
    assert of_blocks
    begun = {block for block, (rows, count) in of_blocks.items() if len(rows) < count}
    assert begun == of_blocks.keys()
    reasons = {one.block: one.reason for one in day_round.left_out}
    assert all("other rows" in reasons[block] for block in begun)
