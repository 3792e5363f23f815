"""What the summary says of the pools: one line if loggers had a say, else none."""

from geo.cli.speech import pool_lines
from geo.weather import POOLS
from tests.laws.made_season import before, made_season


def test_loggers_are_told_in_one_line_with_interval_and_prior() -> None:
    season = POOLS.add_to(before(made_season(), POOLS))
    (line,) = pool_lines(season)
    assert line.startswith("Cool pools fitted to 2 loggers: full strength ")
    share = float(season.pool_scale_depth_prior_share)
    assert f"{share:.0%} of it assumed" in line
    assert "K (" in line
    assert "m (" in line


def test_without_loggers_nothing_is_said() -> None:
    season = POOLS.add_to(before(made_season(), POOLS).isel(logger=[]))
    assert list(pool_lines(season)) == []
