"""Hours in UTC, days of the farm: clock changes, offsets and zones of half an hour."""

from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.inputs.days import complete_days, local_dates, utc_hours
from geo.inputs.reading import Reading

HAVANA = ZoneInfo("America/Havana")
KOLKATA = ZoneInfo("Asia/Kolkata")
MANILA = ZoneInfo("Asia/Manila")


@pytest.fixture
def reading(tmp_path):
    return Reading("weather", tmp_path / "station.csv")


def midnight(day, zone):
    """Return a local midnight in UTC; Havana puts its clock on and back at midnight."""
    local = day.tz_localize(zone, ambiguous=True, nonexistent="shift_forward")
    return local.tz_convert("UTC").tz_localize(None)


def hours_of(reading, *texts, zone):
    cells = pd.Series(texts, index=range(2, len(texts) + 2), name="time")
    return utc_hours(reading, cells, zone=zone)


def test_local_times_and_times_with_an_offset_agree(reading):
    hours = hours_of(
        reading,
        "2026-02-18T05:00",
        "2026-02-18 06:00",
        "2026-02-18T07:00+08:00",
        "2026-02-18T00:00Z",
        "2026-02-18T09:00:00+0800",
        zone=MANILA,
    )
    assert hours.dt.hour.tolist() == [21, 22, 23, 0, 1]
    assert hours.dtype == "datetime64[ns]"
    assert not reading.issues


def test_half_hour_zones_begin_their_hours_at_half_past(reading):
    hours = hours_of(reading, "2026-02-18T05:00", "2026-02-18T06:00", zone=KOLKATA)
    assert hours.dt.strftime("%d %H:%M").tolist() == ["17 23:30", "18 00:30"]


@pytest.mark.parametrize(
    "text", ["18/02/2026 05:00", "noon", "", "2569-02-18T05:00", "9999-01-01Z"]
)
def test_what_is_no_time_is_named(reading, text):
    hours_of(reading, "2026-02-18T05:00", text, zone=MANILA)
    issue = reading.issues[0]
    assert (issue.code, issue.where) == ("E-TIME", "station.csv row 3 column time")
    assert f'"{text}"' in issue.found


def test_the_hour_that_the_clock_skips_is_named(reading):
    hours_of(reading, "2026-03-08T00:30", "2026-03-08T01:00", zone=HAVANA)
    assert [issue.code for issue in reading.issues] == ["E-TIME-SKIPPED"]
    assert "America/Havana" in reading.issues[0].found


def test_the_hour_that_comes_twice_is_taken_in_order(reading):
    texts = ["2025-11-02T00:00", "2025-11-02T00:00", "2025-11-02T01:00"]
    hours = hours_of(reading, *texts, zone=HAVANA)
    assert hours.diff().dropna().tolist() == [pd.Timedelta(hours=1)] * 2


@pytest.mark.parametrize(("day", "count"), [("2026-03-08", 23), ("2025-11-02", 25)])
def test_a_day_with_a_clock_change_is_complete_with_fewer_or_more_hours(day, count):
    start = midnight(pd.Timestamp(day), HAVANA)
    hours = pd.date_range(start - pd.Timedelta(hours=5), periods=5 + count + 3, freq="h")
    days = complete_days(hours, HAVANA)
    assert days.days.tolist() == [pd.Timestamp(day)]
    assert days.is_inside.sum() == count
    assert days.hour_day.tolist() == [0] * count
    one_less = complete_days(hours[: 5 + count - 1], HAVANA)
    assert one_less.days.empty


@given(st.integers(0, 60), st.integers(1, 120), st.sampled_from([HAVANA, KOLKATA, MANILA]))
def test_every_complete_day_begins_and_ends_at_midnight(first, count, zone):
    hours = pd.date_range("2026-03-06T00:30", periods=first + count, freq="h")[first:]
    days = complete_days(hours, zone)
    dates = local_dates(hours, zone)
    assert np.array_equal(days.days[days.hour_day], dates[days.is_inside])
    for day in days.days:
        start, end = midnight(day, zone), midnight(day + pd.Timedelta(days=1), zone)
        assert (dates == day).sum() == round((end - start) / pd.Timedelta(hours=1))
