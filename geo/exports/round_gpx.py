"""The round as GPX 1.1 (WGS 84): a track for each sprayer, a numbered waypoint for each stop."""

from itertools import chain
from pathlib import Path
from string import ascii_uppercase

from gpxpy.gpx import GPX, GPXTrack, GPXTrackPoint, GPXTrackSegment, GPXWaypoint

from geo import __version__
from geo.exports.files import write_text
from geo.exports.page_words import day_words
from geo.exports.sheet_words import shown
from geo.rounds.day_round import DayRound, SprayerDay, Stop
from geo.season.farm import Farm

PLANNED = "planned, not driven"


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
        What was planned. Points bear no time: nobody has been there yet.
    """
    gpx = GPX()
    gpx.creator = f"mangoblock-risk {__version__}"
    made = " (made scenario)" if farm.is_made else ""
    gpx.name = f"{shown(farm.name)}{made}, {day_words(day_round.day)} {day_round.day.year}"
    gpx.description = f"Round of the day: {PLANNED}; {', '.join(day_round.materials)}"
    marks = _marks(len(day_round.sprayers))
    gpx.waypoints = list(chain.from_iterable(map(_waypoints, day_round.sprayers, marks)))
    gpx.tracks = [
        _track(number, sprayer) for number, sprayer in enumerate(day_round.sprayers, start=1)
    ]
    write_text(path, gpx.to_xml(version="1.1"))


def _marks(count: int) -> list[str]:
    """Return a letter for each sprayer, so that a device sorts the stops of each together."""
    if count == 1:
        return [""]
    return [ascii_uppercase[number % len(ascii_uppercase)] for number in range(count)]


def _waypoints(sprayer: SprayerDay, mark: str) -> list[GPXWaypoint]:
    width = len(str(len(sprayer.stops)))
    return [
        GPXWaypoint(
            latitude=round(stop.latitude, 7),
            longitude=round(stop.longitude, 7),
            name=f"{mark}{stop.number:0{max(width, 2)}d} {shown(stop.block)}",
            comment=_rows(stop),
            description=f"{shown(sprayer.sprayer)}, {_rows(stop)}",
            type="stop",
        )
        for stop in sprayer.stops
    ]


def _rows(stop: Stop) -> str:
    return (
        f"rows {stop.first_row} to {stop.last_row} of {stop.rows_of_block}, "
        f"{stop.litres:.0f} L of tank {stop.load}, {stop.starts:%H:%M}"
    )


def _track(number: int, sprayer: SprayerDay) -> GPXTrack:
    track = GPXTrack(name=shown(sprayer.sprayer), number=number, description=PLANNED)
    points = [GPXTrackPoint(latitude=round(y, 7), longitude=round(x, 7)) for x, y in sprayer.path]
    track.segments.append(GPXTrackSegment(points))
    return track
