"""What is wrong with an outline or its id? Reasons to set one block aside and keep the rest."""

import re
import unicodedata

import numpy as np
import shapely
from pyproj import Geod, Transformer

from geo.errors import quoted
from geo.texts import mark, phrase, phrase_of

Fault = tuple[str, str, str]  # code, what was found, what to do
CROSSED = "E-OUTLINE-CROSSED"
CLOSED_WITHIN_M = 10.0  # a walk that ends so near its start was meant to close (our choice)

# What the geometry library says of a boundary, for the catalogue.
_REASONS = (
    mark("self-intersection"),
    mark("ring self-intersection"),
    mark("hole lies outside shell"),
    mark("holes are nested"),
    mark("interior is disconnected"),
    mark("nested shells"),
    mark("duplicate rings"),
    mark("too few points in geometry component"),
    mark("ring is not closed"),
)
# Characters that write nothing themselves: control codes, halves of pairs, line separators.
_UNSEEN = ("Cc", "Cs", "Zl", "Zp")
# Those that steer the direction of the text around them (Unicode Standard Annex 9).
_TURNING = ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")


def fault_of(geometry: shapely.Geometry | None, name: str, to_degrees: Transformer) -> Fault | None:
    """
    Return the first thing that makes an outline unusable.

    Parameters
    ----------
    geometry : shapely.Geometry or None
        As drawn.
    name : str
        Its id.
    to_degrees : pyproj.Transformer
        From the file's system to longitude and latitude.

    Returns
    -------
    tuple of str or None
        Code, what was found and what to do; None for a sound area with an id.
    """
    fault = _of_id(name)
    if fault is None:
        fault = _of_drawing(geometry, to_degrees)
    if fault is None and geometry is not None:
        fault = _of_corners(geometry, to_degrees) or _of_boundary(geometry, to_degrees)
    return fault


def is_finite(geometry: shapely.Geometry) -> bool:
    """
    Return whether every corner of a drawing is a pair of numbers.

    Parameters
    ----------
    geometry : shapely.Geometry
        As drawn.

    Returns
    -------
    bool
        False if one of them is infinite or missing.
    """
    return bool(np.isfinite(shapely.get_coordinates(geometry)).all())


def _of_id(name: str) -> Fault | None:
    if name == "":
        return "E-ID-EMPTY", phrase("no id"), phrase("Give it one")
    if any(map(_is_unwritten, name)):
        found = phrase("control characters in the id {name}", name=quoted(name))
        return "E-ID-CHARACTER", found, phrase("Write the id anew, in letters and digits")
    return None


def _is_unwritten(character: str) -> bool:
    return (
        unicodedata.category(character) in _UNSEEN
        or unicodedata.bidirectional(character) in _TURNING
    )


def _of_drawing(geometry: shapely.Geometry | None, to_degrees: Transformer) -> Fault | None:
    if geometry is None or geometry.is_empty:
        return "E-OUTLINE-EMPTY", phrase("nothing is drawn"), phrase("Draw its outline")
    if geometry.geom_type not in ("Polygon", "MultiPolygon"):
        kind = quoted(geometry.geom_type)
        found = phrase("drawn as {kind}, not as an area", kind=kind)
        fix = phrase("Draw its outline as a polygon")
        gap = gap_of(geometry, to_degrees)
        if gap <= CLOSED_WITHIN_M:
            found = phrase(
                "drawn as {kind}, not as an area; its ends lie {gap:.1f} m apart",
                kind=kind,
                gap=gap,
            )
            fix = phrase(
                "Close the line and save it as a polygon, or write close_lines = true under "
                "[outlines] in farm.toml"
            )
        return "E-OUTLINE-KIND", found, fix
    return None


def gap_of(geometry: shapely.Geometry, to_degrees: Transformer) -> float:
    """
    Return how far the ends of a line are apart.

    Parameters
    ----------
    geometry : shapely.Geometry
        As drawn.
    to_degrees : pyproj.Transformer
        From the file's system to longitude and latitude.

    Returns
    -------
    float
        In metres; infinite for what is no line.
    """
    if geometry.geom_type != "LineString" or not is_finite(geometry):
        return np.inf
    longitude, latitude = to_degrees.transform(*shapely.get_coordinates(geometry)[[0, -1]].T)
    if not np.isfinite([*longitude, *latitude]).all():
        return np.inf
    return float(Geod(ellps="WGS84").line_length(longitude, latitude))


def _of_corners(geometry: shapely.Geometry, to_degrees: Transformer) -> Fault | None:
    if not is_finite(geometry):
        return "E-OUTLINE-CORNER", phrase("a corner is no number"), phrase("Redraw its outline")
    x, y = shapely.get_coordinates(geometry).T
    if not np.isfinite(to_degrees.transform(x, y)).all():
        found = phrase("a corner lies where its coordinate system does not reach")
        return "E-OUTLINE-CORNER", found, phrase("Redraw its outline, or mend the system")
    return None


def _of_boundary(geometry: shapely.Geometry, to_degrees: Transformer) -> Fault | None:
    reason = shapely.is_valid_reason(geometry)
    if reason == "Valid Geometry":
        return None
    kind, _, spot = reason.partition("[")
    x, y = (float(number) for number in re.findall(r"-?[\d.]+(?:e[+-]?\d+)?", spot)[:2])
    longitude, latitude = to_degrees.transform(x, y)
    found = phrase(
        "boundary is not sound ({reason}) near {latitude:.5f}, {longitude:.5f}",
        reason=phrase_of(kind.lower()),
        latitude=latitude,
        longitude=longitude,
    )
    return CROSSED, found, phrase("Redraw that corner: no edge may cross another")
