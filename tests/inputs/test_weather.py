"""Weather files: units, ranges and rows, each fault with its row, column and value."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.inputs.weather import wind_at_two_metres

STATION = "station.csv"


@pytest.mark.published(
    "allen1998", "Eq. 47 and Example 14, from memory: 3.2 m/s at 10 m, 2.4 at 2 m"
)
def test_wind_at_two_metres_is_that_of_the_worked_example():
    assert wind_at_two_metres(np.array([3.2]), height=10.0) == pytest.approx([2.4], abs=0.05)


@pytest.mark.published("allen1998", "text under Eq. 47, from memory: the factor is 0.748 at 10 m")
def test_the_factor_for_ten_metres_is_the_printed_one():
    assert wind_at_two_metres(np.array([1.0]), height=10.0) == pytest.approx([0.748], abs=5e-4)


def test_wind_at_two_metres_stays_as_it_is():
    wind = np.array([0.0, 1.3])
    assert wind_at_two_metres(wind, height=2.0) is wind


@given(st.floats(0.5, 100.0), st.floats(0.5, 100.0))
def test_the_higher_the_sensor_the_less_wind_is_left(one, other):
    low, high = sorted((one, other))
    wind = np.array([5.0])
    at_low, at_high = (wind_at_two_metres(wind, height=height)[0] for height in (low, high))
    # The printed factor is 1.0002 at 2 m, where no rule is applied.
    assert at_low >= at_high * 0.999


def test_the_demo_s_forecast_wind_is_brought_down(demo):
    _, season = demo
    ahead = season.wind_speed.values[season.is_forecast.values == 1]
    assert 0.2 < ahead.min() < ahead.max() < 5.5


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("air_temperature_degC", "warm"),
        ("relative_humidity_percent", "93%"),
        ("wind_speed_m_s", "1.2.3"),
        ("precipitation_mm", "much"),
        ("cloud_cover_fraction", "clear"),
    ],
)
def test_a_bad_number_stops_with_row_column_and_value(farm, column, value):
    farm.cell(STATION, 77, column, value)
    issue = farm.stop("E-NUMBER")
    assert issue.where == f"{STATION} row 77 column {column}"
    assert f'"{value}"' in issue.found


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("air_temperature_degC", "61"),
        ("air_temperature_degC", "-41"),
        ("relative_humidity_percent", "106"),
        ("relative_humidity_percent", "-1"),
        ("wind_speed_m_s", "468"),
        ("precipitation_mm", "301"),
        ("cloud_cover_fraction", "8"),
    ],
)
def test_a_value_out_of_range_is_set_aside_with_row_column_and_value(farm, column, value):
    farm.cell("forecast.csv", 9, column, value)
    issue = farm.only("E-RANGE")
    assert issue.outcome == "HOLD"
    assert issue.where == f"forecast.csv row 9 column {column}"
    assert f'"{value}"' in issue.found


def test_many_values_out_of_range_stop(farm):
    rows = farm.table("forecast.csv")
    for row in rows[1:20]:
        row[4] = "301"
    farm.write_table("forecast.csv", rows)
    assert sum(issue.code == "E-RANGE" for issue in farm.stopped()) == 19


def test_all_faults_of_a_file_are_named_at_once(farm):
    farm.cell(STATION, 7, "air_temperature_degC", "warm")
    farm.cell(STATION, 9, "wind_speed_m_s", "much")
    assert [issue.where for issue in farm.stopped()] == [
        f"{STATION} row 7 column air_temperature_degC",
        f"{STATION} row 9 column wind_speed_m_s",
    ]


def test_humidity_just_above_full_is_full_and_said(farm):
    farm.cell(STATION, 7, "relative_humidity_percent", "104")
    assert "1 value above 100 %" in farm.only("E-HUMIDITY").found
    assert farm.read()[1].relative_humidity.values[5] == 100.0


def column_of(farm, name, column, change):
    rows = farm.table(name)
    place = rows[0].index(column)
    for row in rows[1:]:
        row[place] = str(change(float(row[place])))
    farm.write_table(name, rows)


def test_humidity_as_a_fraction_is_refused(farm):
    column_of(farm, STATION, "relative_humidity_percent", lambda value: value / 100)
    issue = farm.stop("E-UNIT")
    assert issue.where == f"{STATION} column relative_humidity_percent"
    assert "fraction" in issue.found


def test_degrees_fahrenheit_are_refused(farm):
    column_of(farm, STATION, "air_temperature_degC", lambda value: 1.8 * value + 32)
    assert "Fahrenheit" in farm.stop("E-UNIT").found


def test_a_bad_time_stops_with_its_row(farm):
    farm.cell(STATION, 12, "time", "04/01/2026 10:00")
    assert farm.stop("E-TIME").where == f"{STATION} row 12 column time"


def test_a_half_hourly_row_is_refused(farm):
    farm.cell(STATION, 12, "time", "2026-01-04T10:30")
    assert farm.stop("E-TIME-MINUTE").where == f"{STATION} row 12 column time"


def test_rows_out_of_order_are_sorted(farm, demo):
    rows = farm.table(STATION)
    farm.write_table(STATION, [rows[0], *rows[:0:-1]])
    assert farm.only("E-ROW-ORDER").outcome == "FIX"
    assert farm.read()[1].equals(demo[1])


def test_the_same_row_twice_counts_once(farm, demo):
    rows = farm.table(STATION)
    farm.write_table(STATION, [*rows[:50], rows[49], *rows[50:]])
    issue = farm.only("E-ROW-TWICE")
    assert issue.outcome == "FIX"
    assert "row 51" in issue.found
    assert farm.read()[1].equals(demo[1])


def test_of_two_rows_that_disagree_about_an_hour_neither_is_used(farm):
    rows = farm.table(STATION)
    again = [*rows[49][:1], "30.0", *rows[49][2:]]
    farm.write_table(STATION, [*rows[:50], again, *rows[50:]])
    issue = farm.only("E-HOUR-TWICE")
    assert (issue.outcome, issue.where) == ("HOLD", f"{STATION} row 51 column time")
    assert farm.read()[1].is_filled.values[48] == 1


def test_times_in_utc_give_the_same_season(farm, demo):
    rows = farm.table(STATION)
    for row in rows[1:]:
        row[0] += "-07:00"
    farm.write_table(STATION, rows)
    assert farm.read()[1].equals(demo[1])


def test_cloud_may_be_unknown(farm):
    rows = farm.table(STATION)
    farm.write_table(STATION, [row[:5] for row in rows])
    cloud = farm.read()[1].cloud_cover.values
    assert np.isnan(cloud[:1000]).all()
    assert not np.isnan(cloud[-24:]).any()
