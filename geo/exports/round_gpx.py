"""The round as GPX 1.1: each sprayer's way, and a numbered place for each stop."""

from dataclasses import replace
from pathlib import Path
from string import ascii_uppercase

from geo.exports.gpx import Mark, Way, write_gpx
from geo.exports.sheet_words import shown
from geo.rounds.day_round import DayRound, SprayerDay, Stop
from geo.season.farm import Farm
from geo.texts import listed, mark, phrase, phrase_of

PLANNED = mark("planned, not driven")


def write_round_gpx(path: Path, *, farm: Farm, day_round: DayRound) -> None:
    """
    Write the ways and stops for a navigation device or a phone.

    Parameters
    ----------
    path : pathlib.Path
        Of the GPX file.
    farm : Farm
        For its name.
    day_round : DayRound
        What was planned.
    """
    letters = sprayer_letters(len(day_round.sprayers))
    ways = [_way(*one) for one in zip(day_round.sprayers, letters, strict=True)]
    write_gpx(
        path,
        farm=replace(farm, name=shown(farm.name)),
        day=day_round.day,
        description=phrase(
            "Round of the day: planned, not driven; {materials}",
            materials=listed(map(phrase_of, day_round.materials), last="comma"),
        ),
        marks=[mark for way in ways for mark in way.marks],
        ways=ways,
    )


def sprayer_letters(count: int) -> list[str]:
    """
    Return a letter for each sprayer, so that a device sorts the stops of each together.

    Parameters
    ----------
    count : int
        Of sprayers.

    Returns
    -------
    list of str
        An empty one where a letter would tell nothing.
    """
    if count == 1:
        return [""]
    return [ascii_uppercase[number % len(ascii_uppercase)] for number in range(count)]


def _way(sprayer: SprayerDay, letter: str) -> Way:
    name = shown(sprayer.sprayer)
    marks = tuple(
        Mark(
            name=f"{letter}{stop.number:02d} {shown(stop.block)}",
            longitude=stop.longitude,
            latitude=stop.latitude,
            comment=_rows(stop),
            description=f"{name}, {_rows(stop)}",
        )
        for stop in sprayer.stops
    )
    return Way(name=name, description=phrase_of(PLANNED), bends=sprayer.path, marks=marks)


def _rows(stop: Stop) -> str:
    return phrase(
        "rows {first} to {last} of {rows}, {litres:.0f} L of tank {tank}, {hour}",
        first=stop.first_row,
        last=stop.last_row,
        rows=stop.rows_of_block,
        litres=stop.litres,
        tank=stop.load,
        hour=stop.starts.strftime("%H:%M"),
    )
