"""What the summary says, also of a farm with nothing ahead and of pools that loggers know."""

from dataclasses import replace

from geo.cli.speech import pool_lines
from geo.cli.summary import print_summary
from geo.rounds import NotRanked
from geo.weather import POOLS
from tests.demo_run import demo_outcome, with_other
from tests.laws.made_season import made_before


def test_a_farm_with_nothing_ahead_has_no_order_and_says_so(capsys) -> None:
    demo = demo_outcome()
    rest = tuple(NotRanked(block, "No hazard ahead.") for block in ("B01", "B02"))
    spray = replace(demo.spray, entries=(), cannot_now=(), not_ranked=rest, horizon_days=1)
    print_summary(with_other(demo, spray=spray, scouting=replace(demo.scouting, entries=())), {})
    said = capsys.readouterr().out
    assert "first 0 of 0" in said
    assert "Cannot now" not in said
    assert "Nothing ahead, or nothing known (2): B01, B02" in said


def test_a_long_list_of_what_is_not_worth_it_is_cut_short(capsys) -> None:
    demo = demo_outcome()
    rest = demo.spray.not_worth[0]
    entry = replace(demo.spray.entries[0], sprayer_hours=None)
    spray = replace(demo.spray, not_worth=(rest,) * 9, entries=(entry,))
    print_summary(with_other(demo, spray=spray), {})
    said = capsys.readouterr().out
    assert "Not worth it now (9), no money reckoned:" in said
    assert said.count(rest.reason) == 5
    assert "and 4 more, in the spray order's file" in said
    assert "By loss for each hectare if a block waits until it is next open:" in said
    assert entry.waiting in said
    for unasked in spray.not_asked:
        assert unasked.words in said


def test_the_open_hours_of_the_day_stand_in_the_summary_with_what_closes_its_ends(capsys) -> None:
    print_summary(demo_outcome(), {})
    (line,) = (one for one in capsys.readouterr().out.splitlines() if one.startswith("Open today"))
    assert line.startswith("Open today: 11:00 to 18:00. Before that closed by: Too little wind")


def test_a_value_hardly_past_its_limit_is_not_printed_like_the_limit(capsys) -> None:
    demo = demo_outcome()
    hot = next(one for one in demo.spray.cannot_now if one.rule == "sulfur-heat")
    near, far = (replace(hot, value=value, limit=29.4) for value in (29.44, 31.0))
    print_summary(with_other(demo, spray=replace(demo.spray, cannot_now=(near, far))), {})
    said = capsys.readouterr().out
    assert f"{hot.about}: 29.44 °C on " in said
    assert f"{hot.about}: 31.0 °C on " in said
    assert said.count(", limit 29.4 °C; clears: ") == 2


def test_a_long_list_of_closed_blocks_is_cut_short(capsys) -> None:
    demo = demo_outcome()
    closed = demo.spray.cannot_now[0]
    print_summary(with_other(demo, spray=replace(demo.spray, cannot_now=(closed,) * 20)), {})
    said = capsys.readouterr().out
    assert "Cannot now (20)" in said
    assert said.count(f"{closed.block}  ") == 8 + said.count(f". {closed.block}  ")
    assert "and 12 more, in the spray order's file" in said


def test_loggers_are_told_in_one_line_with_interval_and_prior() -> None:
    season = POOLS.add_to(made_before(POOLS))
    (line,) = pool_lines(season)
    assert line.startswith("Cool pools fitted to 2 loggers: full strength ")
    share = float(season.pool_scale_depth_prior_share)
    assert f"{share:.0%} of it assumed" in line
    assert "K (" in line
    assert "m (" in line


def test_without_loggers_nothing_is_said() -> None:
    season = POOLS.add_to(made_before(POOLS).isel(logger=[]))
    assert list(pool_lines(season)) == []
