"""In what unit are the heights of an elevation file, and which way does it lie on the map?"""

import re
from dataclasses import dataclass

import rasterio
from pyproj import CRS

from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.reading import Reading
from geo.texts import phrase

METRES_PER_FOOT = 0.3048  # exact, by definition of the international foot
METRES_PER_SURVEY_FOOT = 1200.0 / 3937.0  # exact, by definition of the US survey foot
_FOOT = {"ft", "foot", "feet"}
_SURVEY = {"us", "usa", "survey"}
_SURVEY_FOOT = {"ftus", "usft"}
_METRIC = {
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1.0),
    **dict.fromkeys(("dm", "decimetre", "decimetres", "decimeter", "decimeters"), 0.1),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), 0.01),
}


@dataclass(frozen=True, slots=True)
class Unit:
    """
    A unit of height.

    Attributes
    ----------
    name : str
        As the file writes it; empty if it names none.
    metres : float
        How long it is.
    """

    name: str
    metres: float


def metres_of(name: str) -> float | None:
    """
    Return how long a unit of height is.

    Parameters
    ----------
    name : str
        In any of the usual spellings.

    Returns
    -------
    float or None
        Metres; None for a word that is no unit of height we know.

    Examples
    --------
    >>> metres_of("Metres"), metres_of("[ft_i]"), metres_of("fathom")
    (1.0, 0.3048, None)
    >>> metres_of("US survey foot") == metres_of("us-ft") == metres_of("ftUS")
    True
    """
    words = re.findall("[a-z]+", name.lower().replace(".", ""))
    said = set(words)
    if said & _SURVEY_FOOT or (said & _FOOT and said & _SURVEY):
        return METRES_PER_SURVEY_FOOT
    if said & _FOOT:
        return METRES_PER_FOOT
    return _METRIC.get(words[0]) if len(words) == 1 else None


def horizontal_part(crs: CRS) -> CRS:
    """
    Return a system without its heights.

    Parameters
    ----------
    crs : pyproj.CRS
        Of a file.

    Returns
    -------
    pyproj.CRS
        The same where it has none.
    """
    if crs.is_compound:
        return CRS(crs.sub_crs_list[0])
    return crs.to_2d()


def height_unit(reading: Reading, raster: rasterio.DatasetReader, crs: CRS) -> Unit:
    """
    Return the unit of a file's heights: that of its band, else of its coordinate system.

    Parameters
    ----------
    reading : Reading
        The elevation file, for notes.
    raster : rasterio.DatasetReader
        The same, open.
    crs : pyproj.CRS
        Its system, heights included.

    Returns
    -------
    Unit
        A metre where none is named, or one that we do not know.
    """
    name = (raster.units[0] or "").strip()
    metres = metres_of(name)
    if not name:
        name, metres = _vertical(crs)
    if name and metres is None:
        found = phrase(
            "heights are in {unit}, a unit not known here, and taken as metres", unit=quoted(name)
        )
        fix = phrase("Save them in metres")
        reading.add(Outcome.NOTE, "E-GROUND-UNIT", WHOLE_FILE, found=found, fix=fix)
    if metres is None:
        return Unit(name, 1.0)
    if metres != 1.0:
        is_foot = round(metres, 4) == METRES_PER_FOOT  # the two feet differ further down
        code = "E-FEET" if is_foot else "E-GROUND-UNIT"
        found = phrase(
            "heights in {unit} turned into metres, {metres:.7g} m each",
            unit=quoted(name),
            metres=metres,
        )
        fix = (
            phrase("Nothing, if they are feet")
            if is_foot
            else phrase("Nothing, if they are in that unit")
        )
        reading.add(Outcome.NOTE, code, WHOLE_FILE, found=found, fix=fix)
    return Unit(name, metres)


def _vertical(crs: CRS) -> tuple[str, float | None]:
    """Return the unit of the height axis of a system, nothing where it has none."""
    axes = crs.sub_crs_list[1].axis_info if crs.is_compound else crs.axis_info[2:]
    if not axes:
        return "", None
    return axes[0].unit_name, axes[0].unit_conversion_factor
