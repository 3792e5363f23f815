"""The season's days: whole local ones, and what is said where the forecast falls short."""

import numpy as np
import pytest

FORECAST = "forecast.csv"
CLOSED = "sulfur and the days ahead unknown = closed"


def test_the_demo_runs_from_its_first_day_to_the_fifth_after_today(demo):
    read, season = demo
    assert str(read.today) == "2026-02-18"
    assert season.sizes["day"] == 51
    assert np.bincount(season.hour_day.values).tolist() == [24] * 51
    assert str(season.hour.values[0])[:16] == "2026-01-04T07:00"
    last = season.hour.values[season.is_forecast.values == 0][-1]
    assert str(last)[:16] == "2026-02-18T12:00"


@pytest.mark.parametrize("content", ["", "\n", "header", "stale"])
def test_a_forecast_that_says_nothing_is_held(farm, content):
    rows = farm.table(FORECAST)
    if content == "header":
        farm.write_table(FORECAST, rows[:1])
    elif content == "stale":
        farm.write_table(FORECAST, [rows[0], ["2026-02-17T05:00", *rows[1][1:]]])
    else:
        (farm.folder / FORECAST).write_text(content, "utf-8")
    issue = farm.only("E-FORECAST-MISSING")
    assert issue.outcome == "HOLD"
    assert issue.where == FORECAST
    assert CLOSED in issue.found
    read, season = farm.read()
    assert str(season.day.values[-1])[:10] == "2026-02-17"
    assert str(read.today) == "2026-02-18"
    forecast = next(file for file in read.files if file.role == "forecast")
    assert forecast.used == 0


def test_a_look_of_this_morning_keeps_its_day_where_there_is_no_forecast(farm):
    (farm.folder / FORECAST).write_text("", "utf-8")
    farm.add("scouting.csv", "2026-02-18", "B01", "50", "3", "610", "")
    _, season = farm.read()
    of_block = season.visit_block.values == 0
    # The season ends with yesterday: today's number is that of the day after its last.
    assert season.visit_day.values[of_block].max() == season.sizes["day"]
    of_block = season.portion_block.values == 0
    assert season.portion_day.values[of_block].max() == season.sizes["day"]


def test_a_forecast_of_fewer_days_than_asked_for_is_noted(farm):
    farm.drop(FORECAST, 50, 200)
    issue = farm.only("E-FORECAST-SHORT")
    assert issue.outcome == "NOTE"
    assert "2 of the 3 whole days" in issue.found


def test_a_forecast_that_ends_today_is_held(farm):
    farm.drop(FORECAST, 10, 200)
    assert farm.only("E-FORECAST-SHORT").outcome == "HOLD"


def test_less_than_a_day_of_weather_is_refused(farm):
    rows = farm.table("station.csv")
    farm.write_table("station.csv", [rows[0], *rows[3:20]])
    (farm.folder / FORECAST).write_text("", "utf-8")
    assert "17 h make no complete day" in farm.stop("E-WEATHER-SHORT").found


def test_a_season_across_a_clock_change_has_a_day_of_23_hours(farm):
    farm.swap("farm.toml", "America/Mazatlan", "America/Santiago")
    day = np.datetime64("2025-09-05T00:00")
    # Santiago puts its clock forward at midnight of 7 September 2025: there is no 00:00.
    hours = [day + np.timedelta64(hour, "h") for hour in range(96)]
    rows = farm.table("station.csv")
    skipped = np.datetime64("2025-09-07T00:00")
    lines = [
        [str(hour)[:16], *row[1:]]
        for hour, row in zip(hours, rows[1:], strict=False)
        if hour != skipped
    ]
    farm.write_table("station.csv", [rows[0], *lines])
    for name in ("diary.csv", "scouting.csv"):
        farm.write_table(name, farm.table(name)[:1])
    (farm.folder / FORECAST).write_text("", "utf-8")
    _, season = farm.read()
    assert np.bincount(season.hour_day.values).tolist() == [24, 24, 23, 24]
    assert not season.is_filled.any()
