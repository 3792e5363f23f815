"""The sheet for the office: each sprayer's day in one line, what is not reached and why."""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from markupsafe import Markup, escape

from geo.exports.sheet_words import shown
from geo.ranking.sentences import two_digits
from geo.rounds.day_round import DayRound
from geo.texts import phrase

MOST_LEFT_OUT = 24  # our own choice: what a page holds; the CSV has all
MOST_NAMED = 8  # our own choice: what a line of the cab's sheet holds


def office_sheet(day_round: DayRound, names: Mapping[str, str]) -> dict[str, Any]:
    """
    Return what the office wants to know of a round.

    Parameters
    ----------
    day_round : DayRound
        What was planned.
    names : mapping of str to str
        What blocks are called besides their ids.

    Returns
    -------
    dict
        Words, not yet escaped.
    """
    left_out = [
        {
            "block": shown(one.block),
            "name": names.get(one.block, ""),
            "rank": one.rank,
            "cost": two_digits(one.cost),
            "reason": sentence(one.reason),
        }
        for one in day_round.left_out
    ]
    return {
        "sprayers": [
            {
                "name": shown(one.sprayer),
                "leaves": f"{one.leaves:%H:%M}",
                "returns": f"{one.returns:%H:%M}",
                "stops": len(one.stops),
                "loads": len(one.loads),
                "litres": f"{sum(load.litres for load in one.loads):.0f}",
                "area": f"{sum(stop.area for stop in one.stops):.1f}",
                "kilometres": f"{one.kilometres:.1f}",
                "hours": [
                    _clock(hours)
                    for hours in (
                        one.spraying_hours,
                        one.driving_hours,
                        one.filling_hours,
                        one.waiting_hours,
                    )
                ],
            }
            for one in day_round.sprayers
        ],
        "worth": _worth(day_round),
        "left_out": left_out[:MOST_LEFT_OUT],
        "more_left_out": max(len(left_out) - MOST_LEFT_OUT, 0),
        "first_left_out": left_out[:MOST_NAMED],
        "more_than_named": max(len(left_out) - MOST_NAMED, 0),
        "notes": [
            _named_apart(sentence(note), (one.sprayer for one in day_round.sprayers))
            for note in day_round.notes
        ],
    }


def sentence(text: str) -> str:
    """
    Return a sentence with one full stop at its end.

    Parameters
    ----------
    text : str
        With or without.

    Returns
    -------
    str
        As it is printed.
    """
    return f"{text.strip().rstrip('.')}."


def _named_apart(words: str, names: Iterable[str]) -> Markup:
    # Notes are written for the terminal too, where marks round a name would show.
    longest_first = sorted(map(re.escape, map(str, map(escape, names))), key=len, reverse=True)
    pattern = rf"(?<!\w)({'|'.join(longest_first) or '(?!)'})(?!\w)"
    return Markup(re.sub(pattern, r"<bdi>\1</bdi>", str(escape(words))))  # noqa: S704


def _worth(day_round: DayRound) -> str:
    if not day_round.sprayers:
        return ""
    avoided, bound = two_digits(day_round.avoided), two_digits(day_round.bound)
    if day_round.is_proven:
        return phrase(
            "The round avoids {avoided} days of hazard index 1 × hectares: no round of this day "
            "avoids more.",
            avoided=avoided,
        )
    return phrase(
        "The round avoids {avoided} days of hazard index 1 × hectares; no round of this day "
        "avoids more than {bound}.",
        avoided=avoided,
        bound=bound,
    )


def _clock(hours: float) -> str:
    minutes = round(hours * 60)
    return f"{minutes // 60}:{minutes % 60:02d}"
