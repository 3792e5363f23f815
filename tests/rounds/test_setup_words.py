"""Set-up: what all nozzles give, and what a watch shows, before a sprayer leaves."""

from dataclasses import replace
from datetime import time

import numpy as np

from geo.rounds.ready import ReadyRound, ReadySprayer
from geo.rounds.setup_words import setup_words

SPRAYER = ReadySprayer("A", "airblast", None, 2000.0, 24, 4.0, 12.0, 15.0)
ROUND = ReadyRound(
    sprayers=(SPRAYER,),
    start=time(6),
    hours=8.0,
    turn_seconds=25.0,
    setup_minutes=2.0,
    turning_radius=None,
    row_spacing=np.array([8.0, 8.0]),
    row_direction=np.array([np.nan, 40.0]),
    volume=np.array([1000.0, 1000.0]),
    assumed=(),
)


def test_flow_of_all_nozzles_and_of_each_is_told_with_a_course_of_a_hundred_metres() -> None:
    assert list(setup_words(ROUND)) == [
        (
            "A: 53.3 L/min from all nozzles (2.22 each of 24) for 1000 L/ha at 4 km/h on rows of "
            "8.0 m; 100 m take 90 s."
        ),
        "Next row after next row (the turning radius is not known).",
    ]


def test_blocks_that_differ_are_told_from_least_to_most() -> None:
    mixed = replace(
        ROUND,
        sprayers=(replace(SPRAYER, nozzles=None),),
        volume=np.array([500.0, 1000.0]),
        turning_radius=5.0,
    )
    first, pattern = setup_words(mixed)
    assert first.startswith("A: 26.7 to 53.3 L/min from all nozzles for 500 to 1000 L/ha at ")
    assert pattern.startswith("Every second row")
