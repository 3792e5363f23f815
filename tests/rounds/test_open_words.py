"""The open hours of the day are told with the rules that close its ends."""

from dataclasses import replace

import numpy as np

from geo.rounds.open_words import open_words
from geo.windows.open_hours import Windows
from tests.demo_run import demo_outcome


def told(windows: Windows) -> list[str]:
    places = {block: i for i, block in enumerate(demo_outcome().season.block.values.tolist())}
    return list(open_words(windows, [places[one.block] for one in demo_outcome().spray.entries]))


def opened(*hours: int) -> Windows:
    made = demo_outcome().windows
    is_closed = np.ones_like(made.is_closed)
    is_closed[:, list(hours)] = False
    return replace(made, is_closed=is_closed)


def test_the_open_hours_are_told_with_the_rules_that_close_those_around_them() -> None:
    (words,) = told(demo_outcome().windows)
    assert words == (
        "Open today: 11:00 to 18:00. Before that closed by: Too little wind, drops hang (100 %); "
        "Delta T too small, drops hang (80 %). After that closed by: Inversion likely, hours of "
        "sun around it (100 %); Too little wind, drops hang (83 %)."
    )


def test_closed_hours_between_open_ones_are_counted() -> None:
    made = demo_outcome().windows
    (words,) = told(opened(3, 6))
    start = made.start[3]
    assert words.startswith(f"Open today: {start:%H:%M} to {start.hour + 4:02d}:00, less 2 h ")


def test_a_day_that_is_open_from_end_to_end_names_no_rule() -> None:
    made = demo_outcome().windows
    (words,) = told(opened(*range(made.hours_of_day)))
    assert words == f"Open today: {made.start[0]:%H:%M} to 24:00."


def test_a_day_without_an_open_hour_has_no_such_line() -> None:
    assert told(opened()) == []
