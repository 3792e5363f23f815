"""Dates: a whole column tells in which order it is written, and no row is guessed at."""

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geo.errors import InputError, Outcome
from geo.inputs.calendar_dates import dates
from geo.inputs.reading import Reading
from geo.inputs.spellings import Heading


@pytest.fixture
def reading(tmp_path):
    return Reading("diary", tmp_path / "table.csv")


def read(reading, *cells, **options):
    return dates(reading, pd.Series(dict(enumerate(cells, start=2)), name="date"), **options)


@pytest.mark.parametrize("cell", ["2026-02-30", "31/04/2026", "", "18.2.26", "soon", "99999"])
def test_what_is_no_day_is_held_with_its_value(reading, cell):
    assert read(reading, "2026-02-01", cell, "28/02/2026").isna().tolist() == [False, True, False]
    issue = reading.issues[0]
    assert (issue.code, issue.outcome) == ("E-DATE", Outcome.HOLD)
    assert issue.where == "table.csv row 3 column date"
    assert f'"{cell}"' in issue.found


def test_where_leaving_a_row_out_would_open_something_it_stops(reading):
    read(reading, "soon", outcome=Outcome.STOP)
    assert reading.issues[0].outcome is Outcome.STOP


def test_one_row_tells_for_all_whether_the_day_comes_first(reading):
    assert read(reading, "03/04/2026", "28/02/2026").dt.month.tolist() == [4, 2]
    assert "day first" in reading.issues[0].found
    assert read(reading, "03/04/2026", "02/28/2026").dt.month.tolist() == [3, 2]


def test_where_no_row_tells_the_user_is_asked(reading):
    with pytest.raises(InputError, match=r"E-DATE-ORDER STOP table.csv row 2 column date"):
        read(reading, "03/04/2026", "05/06/2026")


def test_rows_that_contradict_each_other_are_refused(reading):
    with pytest.raises(InputError, match="some rows have the day first"):
        read(reading, "28/02/2026", "02/28/2026")


def test_like_numbers_ask_for_nothing(reading):
    assert read(reading, "03/03/2026").dt.day.tolist() == [3]


def test_the_column_map_may_say_it(reading):
    reading.headings = [Heading("When", "date", "month first", "by the column map")]
    assert read(reading, "03/04/2026").dt.month.tolist() == [3]


@pytest.mark.parametrize(("in_1904", "day"), [(False, "2026-04-02"), (True, "2030-04-03")])
def test_day_numbers_of_spreadsheets_count_from_the_workbooks_epoch(reading, in_1904, day):
    # 46114 from 1899-12-30 and from 1904-01-01: counted by hand, 1462 days apart.
    reading.counts_from_1904 = in_1904
    assert read(reading, "46114").dt.strftime("%Y-%m-%d").tolist() == [day]
    assert reading.issues[0].code == "E-DATE-FORM"


@pytest.mark.parametrize("cell", ["3 Apr 2026", "April 3, 2026", "03-Apr-2026", "2026/4/3"])
def test_names_of_months_and_years_in_front_are_read(reading, cell):
    assert read(reading, cell).dt.strftime("%Y-%m-%d").tolist() == ["2026-04-03"]


def test_a_year_of_another_calendar_is_named_and_not_changed(reading):
    assert read(reading, "2569-02-18").isna().all()
    assert "2569 there is 2026" in reading.issues[0].found


@given(
    days=st.lists(
        st.dates(
            min_value=pd.Timestamp("1950-01-01").date(), max_value=pd.Timestamp("2150-01-01").date()
        ),
        min_size=1,
        max_size=9,
    ),
    form=st.sampled_from(["%Y-%m-%d", "%d/%m/%Y", "%d.%m.%Y", "%m-%d-%Y", "%d %b %Y"]),
)
def test_a_column_is_read_as_it_was_written_or_refused(tmp_path_factory, days, form):
    reading = Reading("diary", tmp_path_factory.mktemp("dates") / "table.csv")
    cells = [f"{day:{form}}" for day in days]
    try:
        found = read(reading, *cells)
    except InputError:
        found = None
    if found is None:
        assert [issue.code for issue in reading.issues] == ["E-DATE-ORDER"]
    else:
        assert found.dt.date.tolist() == days


@given(st.lists(st.text(max_size=12), min_size=1, max_size=5))
def test_no_text_makes_the_reader_stumble(tmp_path_factory, cells):
    reading = Reading("diary", tmp_path_factory.mktemp("dates") / "table.csv")
    try:
        found = read(reading, *cells)
    except InputError:
        return
    assert (
        found.isna().sum() == sum(1 for issue in reading.issues if issue.code == "E-DATE")
        or len(cells) > 1
    )
