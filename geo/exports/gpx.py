"""Named places and planned ways for phones and navigation devices: GPX 1.1, WGS 84."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from gpxpy.gpx import GPX, GPXRoute, GPXRoutePoint, GPXTrack, GPXTrackPoint, GPXTrackSegment
from gpxpy.gpx import GPXWaypoint as Waypoint

from geo import __version__
from geo.exports.farm_title import farm_title
from geo.exports.files import write_text
from geo.exports.xml_text import xml_text
from geo.season.farm import Farm
from geo.texts.days import day_words

DIGITS = 7  # of a degree: a centimetre


@dataclass(frozen=True, slots=True)
class Mark:
    """
    A place with a name.

    Attributes
    ----------
    name : str
        Short: it stands on the device's map.
    longitude, latitude : float
        Degrees.
    comment : str
        What many devices show below the name.
    description : str
        The whole of it.
    kind : str
        Such as "stop" or "gate".
    """

    name: str
    longitude: float
    latitude: float
    comment: str = ""
    description: str = ""
    kind: str = "stop"


@dataclass(frozen=True, slots=True)
class Way:
    """
    A way to follow.

    Attributes
    ----------
    name : str
        Of who goes it.
    description : str
        Such as "planned, not driven".
    bends : tuple of tuple of float
        Longitude and latitude of each.
    marks : tuple of Mark
        Stops on it, in their order; none for a way that is a line only.
    """

    name: str
    description: str
    bends: tuple[tuple[float, float], ...]
    marks: tuple[Mark, ...] = ()


def write_gpx(
    path: Path,
    *,
    farm: Farm,
    day: date,
    description: str,
    marks: Iterable[Mark],
    ways: Iterable[Way],
) -> None:
    """
    Write places and ways. Nothing bears a time: nobody has been there yet.

    Parameters
    ----------
    path : pathlib.Path
        Of the GPX file.
    farm : Farm
        For its name.
    day : datetime.date
        It is for.
    description : str
        What the file is about.
    marks : iterable of Mark
        Each a waypoint, since many phones leave out routes.
    ways : iterable of Way
        Each a track; one with marks a route over them too.
    """
    gpx = GPX()
    gpx.creator = f"mangoblock-risk {__version__}"
    gpx.name = xml_text(f"{farm_title(farm)}, {day_words(day)} {day.year}")
    gpx.description = xml_text(description)
    gpx.waypoints = [Waypoint(**_place(mark)) for mark in marks]
    for number, way in enumerate(ways, start=1):
        named: dict[str, Any] = {
            "name": xml_text(way.name),
            "description": xml_text(way.description),
            "number": number,
        }
        if way.marks:
            route = GPXRoute(**named)
            route.points = [GPXRoutePoint(**_place(mark)) for mark in way.marks]
            gpx.routes.append(route)
        track = GPXTrack(**named)
        points = [
            GPXTrackPoint(latitude=round(latitude, DIGITS), longitude=round(longitude, DIGITS))
            for longitude, latitude in way.bends
        ]
        track.segments.append(GPXTrackSegment(points))
        gpx.tracks.append(track)
    write_text(path, gpx.to_xml(version="1.1"))


def _place(mark: Mark) -> dict[str, Any]:
    return {
        "latitude": round(mark.latitude, DIGITS),
        "longitude": round(mark.longitude, DIGITS),
        "name": xml_text(mark.name),
        "comment": xml_text(mark.comment) or None,
        "description": xml_text(mark.description) or None,
        "type": mark.kind,
    }
