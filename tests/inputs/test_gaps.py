"""Gaps: short ones are filled and flagged, the others refused with file, row and length."""

import re

import numpy as np
import pytest

STATION = "station.csv"
FORECAST = "forecast.csv"
# Row 2 is the first hour; 31 January is dry, 28 January at 02:00 it rains.
DRY_ROW = 2 + 27 * 24 + 10
WET_ROW = 2 + 24 * 24 + 2


def test_the_demo_has_no_gap(demo):
    _, season = demo
    assert not season.is_filled.any()
    assert np.unique(np.diff(season.hour.values)) == np.timedelta64(1, "h")


@pytest.mark.parametrize("length", [1, 2, 3])
def test_a_short_gap_is_filled_by_a_straight_line_and_flagged(farm, demo, length):
    farm.drop(STATION, DRY_ROW, DRY_ROW + length - 1)
    found = farm.only("E-WEATHER-FILLED").found
    assert re.match(rf"{length} h \([\d.]+ %\) of air_temperature_degC", found)
    assert f"{length} h of unknown rain" in farm.only("E-RAIN-FILLED").found
    _, season = farm.read()
    gap = slice(DRY_ROW - 2, DRY_ROW - 2 + length)
    assert np.flatnonzero(season.is_filled).tolist() == list(range(gap.start, gap.stop))
    for name in ("air_temperature", "relative_humidity", "wind_speed"):
        values = demo[1][name].values
        line = np.linspace(values[gap.start - 1], values[gap.stop], length + 2)[1:-1]
        np.testing.assert_allclose(season[name].values[gap], line, rtol=1e-12)
    assert not season.precipitation.values[gap].any()


def test_one_missing_value_leaves_the_others_alone(farm, demo):
    farm.cell(STATION, DRY_ROW, "air_temperature_degC", "---")
    _, season = farm.read()
    assert season.is_filled.values.sum() == 1
    assert season.wind_speed.equals(demo[1].wind_speed)
    assert not farm.issues("E-RAIN-FILLED")


def test_a_gap_of_four_hours_is_refused(farm):
    farm.drop(STATION, DRY_ROW, DRY_ROW + 3)
    issue = farm.stop("E-WEATHER-GAP")
    assert issue.where == f"{STATION} row {DRY_ROW - 1}"
    assert "for 4 h after 2026-01-31T09:00" in issue.found
    assert "3 h may be missing" in issue.fix


def test_a_long_gap_in_one_column_names_the_column(farm):
    for row in range(DRY_ROW, DRY_ROW + 13):
        farm.cell(STATION, row, "wind_speed_m_s", "")
    assert farm.stop("E-WEATHER-GAP").found.startswith("no wind_speed_m_s for 13 h")


def test_a_gap_of_half_a_day_takes_the_course_of_the_days_beside_it(farm, demo):
    for row in range(DRY_ROW, DRY_ROW + 9):
        farm.cell(STATION, row, "air_temperature_degC", "")
    assert "course of the days beside" in farm.only("E-WEATHER-FILLED").found
    season = farm.read()[1]
    first = DRY_ROW - 2
    was = demo[1].air_temperature.values[first : first + 9]
    now = season.air_temperature.values[first : first + 9]
    straight = np.interp(
        range(1, 10), [0, 10], demo[1].air_temperature.values[[first - 1, first + 9]]
    )
    assert np.abs(now - was).mean() < np.abs(straight - was).mean()
    assert season.is_filled.values[first : first + 9].all()


def test_at_the_beginning_one_day_beside_must_do_and_without_any_it_is_refused(farm):
    for row in range(4, 12):
        farm.cell(STATION, row, "air_temperature_degC", "")
    assert "course of the days beside" in farm.only("E-WEATHER-FILLED").found
    for row in range(4 + 24, 12 + 24):
        farm.cell(STATION, row, "air_temperature_degC", "")
    assert farm.stop("E-WEATHER-GAP").where == f"{STATION} row 3"


def test_every_long_gap_is_named(farm):
    farm.drop(FORECAST, 30, 34)
    farm.drop(STATION, DRY_ROW, DRY_ROW + 5)
    assert [issue.where for issue in farm.stopped() if issue.outcome == "STOP"] == [
        f"{STATION} row {DRY_ROW - 1}",
        f"{FORECAST} row 29",
    ]
    farm.drop(STATION, 2, DRY_ROW + 20)
    assert [issue.where for issue in farm.stopped()] == [f"{FORECAST} row 29"]


@pytest.mark.parametrize("row", [WET_ROW, WET_ROW + 1])
def test_unknown_rain_beside_rain_is_never_guessed(farm, row):
    farm.cell(STATION, row, "precipitation_mm", "")
    issue = farm.stop("E-RAIN-UNKNOWN")
    assert issue.where == f"{STATION} row {row - 1}"
    assert "rain unknown for 1 h" in issue.found


def test_a_forecast_that_begins_too_late_is_a_gap(farm):
    farm.drop(FORECAST, 2, 5)
    issue = farm.stop("E-WEATHER-GAP")
    assert issue.where == f"{STATION} row 1087"
    assert "for 4 h after 2026-02-18T05:00" in issue.found


def test_a_forecast_that_begins_a_little_late_is_joined(farm):
    farm.drop(FORECAST, 2, 4)
    _, season = farm.read()
    is_filled = season.is_filled.values == 1
    assert is_filled.sum() == 3
    assert season.is_forecast.values[is_filled].all()


def test_the_station_is_believed_where_both_speak(farm, demo):
    rows = farm.table(FORECAST)
    early = ["2026-02-18T04:00", "1.0", "50", "9.0", "5.0", "0.5"]
    late = ["2026-02-18T05:00", *early[1:]]
    farm.write_table(FORECAST, [rows[0], early, late, *rows[1:]])
    assert farm.read()[1].equals(demo[1])


def test_a_value_taken_from_the_forecast_is_said_and_flagged(farm):
    rows = farm.table(FORECAST)
    late = ["2026-02-18T05:00", "11.5", "90", "0.5", "0.0", "0.5"]
    farm.write_table(FORECAST, [rows[0], late, *rows[1:]])
    farm.cell(STATION, 1087, "relative_humidity_percent", "")
    assert "1 hour with values taken from the forecast" in farm.only("E-WEATHER-BORROWED").found
    _, season = farm.read()
    assert season.relative_humidity.values[1085] == 90.0
    assert season.is_filled.values[1085] == 1
    assert season.is_forecast.values[1085] == 0


def test_hours_by_different_clocks_are_refused(farm):
    rows = farm.table(FORECAST)
    for row in rows[1:]:
        row[0] = row[0].replace(":00", ":30")
    farm.write_table(FORECAST, rows)
    assert farm.stop("E-TIME-MINUTE").where == f"{FORECAST} column time"


def test_unknown_hours_at_the_beginning_are_cut(farm):
    for row in range(2, 8):
        farm.cell(STATION, row, "wind_speed_m_s", "")
    _, season = farm.read()
    assert str(season.day.values[0])[:10] == "2026-01-05"
    assert not season.is_filled.any()


@pytest.mark.parametrize("keep", [1, 0])
def test_a_station_that_measured_nothing_is_refused(farm, keep):
    rows = farm.table(STATION)
    blank = [[row[0], "", "", "", "", ""] for row in rows[1:20]] * keep
    farm.write_table(STATION, [rows[0], *blank])
    assert farm.stop("E-WEATHER-EMPTY").where == STATION
