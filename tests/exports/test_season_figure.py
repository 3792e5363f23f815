"""The drawing of a season: its days, its axes and its strips."""

from datetime import date
from itertools import pairwise

import numpy as np
import pytest

from geo.exports.season_figure import Figure, limits_of, round_up, season_figure
from geo.exports.season_frame import WIDTH, Frame, frame_of
from geo.ranking.classes import CLASS_WORDS
from tests.demo_run import demo_outcome
from tests.exports.drawn import UNKNOWN, hostile, without_forecast


def figure_of(block: str) -> Figure:
    season = demo_outcome().season
    place = season.block.values.tolist().index(block)
    return season_figure(season, place, limits_of(season, [place]))


def test_weeks_begin_on_mondays_and_names_keep_apart() -> None:
    for count in (3, 51, 120, 365):
        frame = Frame(date(2026, 1, 4), count, 10)
        weeks = frame.weeks()
        assert all(
            frame.date(round((week.x - frame.left) / frame.day_width)).weekday() == 0
            for week in weeks
        )
        named = [week.x for week in weeks if week.name]
        assert all(right - left > 40 for left, right in pairwise(named))
        assert all(week.x + 20 <= WIDTH for week in weeks if week.name)
    assert Frame(date(2026, 1, 4), 51, 10).weeks()[0].name == "5 Jan"


def test_grey_begins_after_today_and_vanishes_without_a_forecast() -> None:
    season = demo_outcome().season
    frame = frame_of(season)
    assert frame.date(frame.today) == demo_outcome().farm.today
    assert frame.left < frame.start(frame.today) < frame.ahead < frame.right
    cut = frame_of(without_forecast(season))
    assert cut.ahead == cut.start(cut.count) == pytest.approx(cut.right)


def test_axes_hold_all_of_the_blocks_they_are_shared_by() -> None:
    season = demo_outcome().season
    limits = limits_of(season, range(24))
    assert limits.cold <= season.day_minimum_temperature.min()
    assert limits.warm >= season.day_maximum_temperature.max()
    assert limits.rain >= season.rain.max()
    assert limits.hazard >= season.hazard.max()
    assert limits.found <= 1.0


def test_axes_stand_where_nothing_is_known() -> None:
    _, season = hostile()
    place = season.block.values.tolist().index(UNKNOWN)
    limits = limits_of(season, [place])
    assert all(np.isfinite([limits.cold, limits.warm, limits.rain, limits.found, limits.hazard]))
    assert limits.warm > limits.cold


@pytest.mark.parametrize(("value", "top"), [(1.0, 1.0), (1.01, 2.0), (20.2, 30.0), (0.0301, 0.05)])
def test_an_axis_ends_at_a_round_number(value: float, top: float) -> None:
    assert round_up(value) == top


def test_strips_stand_one_below_the_other_with_their_units() -> None:
    figure = figure_of("B10")
    tops = [top for top, _ in figure.panels]
    assert tops == sorted(tops)
    assert figure.foot == tops[-1] + figure.panels[-1][1].height
    titles = " ".join(panel.title for _, panel in figure.panels)
    for words in ("°C", "mm a day", "Favourable", "BBCH", "Protection", "panicles, %", "Hazard"):
        assert words in titles
    assert figure.label == ("Season of B10: hazard of the days ahead moderate; counted 2 times")


def test_counts_sprays_and_stages_stand_on_their_days() -> None:
    panels = {panel.title.split()[0]: panel for _, panel in figure_of("B10").panels}
    assert [mark.words for mark in panels["Protection"].marks] == ["1", "2", "3", "4"]
    assert [mark.words for mark in panels["Susceptible"].marks] == ["514", "613"]
    shapes = dict(panels["Infected"].shapes)
    assert shapes["count"].count("M") == 2
    assert shapes["interval"].count("V") == 2
    assert [word.words for word in panels["Hazard"].words] == list(CLASS_WORDS)


def test_a_block_counted_once_says_so() -> None:
    assert figure_of("B08").label.endswith("counted once")


def test_marks_that_would_stand_on_each_other_are_left_to_the_list() -> None:
    season = demo_outcome().season.copy()
    season["spray_hour"] = season["spray_hour"].where(season["spray_block"] != 9, 400.0)
    panels = {
        panel.title.split()[0]: panel
        for _, panel in season_figure(season, 9, limits_of(season, [9])).panels
    }
    assert [mark.words for mark in panels["Protection"].marks] == ["1"]
    assert dict(panels["Protection"].shapes)["spray"].count("M") == 4
