"""Is a drawing all there, and in what letters and lines is it written?"""

import pyogrio

from geo.errors import Outcome, quoted
from geo.inputs.at import WHOLE_FILE
from geo.inputs.reading import Reading
from geo.texts import mark, phrase, phrase_of

SHAPEFILE, GEOPACKAGE = ".shp", ".gpkg"
# Without the first two nothing can be read, without the third nothing has an id.
PARTS = {".shx": mark("the index"), ".dbf": mark("the table of ids and names")}
_CURVED = ("curve", "circular", "multisurface")


def refuse_incomplete(reading: Reading) -> None:
    """
    Refuse a drawing of which a part is missing.

    Parameters
    ----------
    reading : Reading
        The file of outlines.

    Raises
    ------
    InputError
        If it is empty, as files are that are still in a cloud, or a file beside a shapefile is not
        there.
    """
    if reading.path.stat().st_size == 0:
        found = phrase("is empty: 0 bytes")
        fix = phrase("Fetch it from the cloud or save it again")
        raise reading.refused("E-FILE-EMPTY", WHOLE_FILE, found=found, fix=fix)
    if reading.path.suffix.lower() != SHAPEFILE:
        return
    there = {path.name.lower() for path in reading.path.parent.iterdir() if path.stat().st_size}
    for suffix, what in PARTS.items():
        name = reading.path.with_suffix(suffix).name
        if name.lower() not in there:
            found = phrase(
                "{file} is missing beside it: {what}", file=quoted(name), what=phrase_of(what)
            )
            fix = phrase("Copy all files of that name, not the .shp alone")
            reading.add(Outcome.STOP, "E-FILE-PART", WHOLE_FILE, found=found, fix=fix)
    reading.check()


def encoding_of(reading: Reading) -> str | None:
    """
    Return the alphabet that a drawing's words are in; None where the file itself tells.

    Parameters
    ----------
    reading : Reading
        The file of outlines.

    Returns
    -------
    str or None
        For a shapefile that does not say, UTF-8 if its table can be read so, else the alphabet of
        western Europe, with a note that this was guessed.
    """
    if reading.path.suffix.lower() != SHAPEFILE or _has_part(reading, ".cpg"):
        return None
    table = next(
        path
        for path in reading.path.parent.iterdir()
        if path.name.lower() == reading.path.with_suffix(".dbf").name.lower()
    ).read_bytes()
    # Behind the head of the table, whose length stands in its own bytes 8 and 9.
    words = table[int.from_bytes(table[8:10], "little") :]
    if words.isascii():
        return None
    try:
        words.decode("utf-8")
    except UnicodeDecodeError as error:
        found = phrase(
            "does not say in which alphabet its words are, and they are not UTF-8 (byte "
            "{byte:#04x}): read as ISO 8859-1",
            byte=words[error.start],
        )
        fix = phrase("Check names with accents, or save the outlines as GeoPackage")
        reading.add(Outcome.NOTE, "E-TEXT-GUESSED", WHOLE_FILE, found=found, fix=fix)
        return "ISO-8859-1"
    return "UTF-8"


def _has_part(reading: Reading, suffix: str) -> bool:
    name = reading.path.with_suffix(suffix).name.lower()
    return any(path.name.lower() == name for path in reading.path.parent.iterdir())


def note_curves(reading: Reading) -> None:
    """
    Say that curved edges of a GeoPackage are turned into straight ones.

    Parameters
    ----------
    reading : Reading
        The file of outlines.
    """
    if reading.path.suffix.lower() != GEOPACKAGE:
        return
    # The library answers "Polygon" for curved ones too; the file's own list of columns does not.
    kinds = pyogrio.read_dataframe(
        reading.path, sql="SELECT geometry_type_name FROM gpkg_geometry_columns"
    )["geometry_type_name"]
    kind = ", ".join(map(str, kinds))
    if any(word in kind.lower() for word in _CURVED):
        found = phrase(
            "drawn as {kind}: curves are taken as chains of straight edges, one for every 4 "
            "degrees of arc",
            kind=quoted(kind),
        )
        fix = phrase("Nothing, unless an edge lies wrong on the map")
        reading.add(Outcome.FIX, "E-OUTLINE-CURVED", WHOLE_FILE, found=found, fix=fix)
