"""Does a file hold the farm's own data, or point to other files and to the network?"""

import codecs
from pathlib import Path, PurePosixPath, PureWindowsPath

from defusedxml import ElementTree
from defusedxml.common import DefusedXmlException

from geo.errors import InputError, Outcome, quoted
from geo.inputs.at import WHOLE_FILE, At
from geo.inputs.reading import Reading
from geo.texts import phrase, phrases

HEAD_BYTES = 65_536
MOST_MOSAIC_BYTES = 5_000_000  # of the list of tiles; no farm's is so long (our choice)
MOSAIC = b"<vrtdataset"
# How files begin that hold no data, but say where some are: tables of sources, map services, and
# orders to a tool.
_POINTERS = (
    MOSAIC, b"<ogrvrt", b"<gdal_wm", b"<wms", b"<wfs", b"<ogrwfs", b"<wcs", b"<oapif", b"<ogroapif",
    b"<ogrsos", b"gdal_streamed_alg",
)  # fmt: skip
# Kinds of grids whose own files do not begin so.
INDIRECT = {"GTI", "STACIT", "STACTA", "WMS", "WCS", "WMTS", "HTTP", "Zarr"}
_SOURCES, _ORDERS = {"SourceFilename", "SourceDataset"}, {"PixelFunctionCode"}


def refuse_pointers(reading: Reading, head: bytes, at: At = WHOLE_FILE) -> None:
    """
    Refuse a drawing or table that points to other files or to the network.

    Parameters
    ----------
    reading : Reading
        The file.
    head : bytes
        How it, or the entry of it, begins.
    at : At
        The entry, or the file itself.

    Raises
    ------
    InputError
        If what it would show is not in it: neither its size nor its digest would tell of that.
    """
    text = head[:HEAD_BYTES].replace(b"\0", b"").lower()
    if any(mark in text for mark in _POINTERS):
        found = phrase("holds no data, but points to other files or to the network")
        fix = phrase("Save what it shows to a file of its own")
        raise reading.refused("E-FILE-POINTER", at, found=found, fix=fix)


def head_of(path: Path) -> bytes:
    """
    Return how a file begins.

    Parameters
    ----------
    path : pathlib.Path
        Of the file.

    Returns
    -------
    bytes
        So many that its kind can be told.
    """
    with path.open("rb") as opened:
        return opened.read(HEAD_BYTES)


def check_mosaic(reading: Reading) -> None:
    """
    Hold a mosaic of tiles against its folder; files that hold their own heights are let through.

    Parameters
    ----------
    reading : Reading
        The elevation file.

    Raises
    ------
    InputError
        If a tile is not a plain file beside it, or the file points elsewhere in another way.
    """
    head = head_of(reading.path).removeprefix(codecs.BOM_UTF8).lstrip()
    if not head.startswith((b"<", b"{")):
        return
    if MOSAIC not in head.lower():
        found = phrase("holds no heights, but points to other files or to the network")
        raise _refused(reading, found)
    if reading.path.stat().st_size > MOST_MOSAIC_BYTES:
        raise _refused(reading, phrase("is a longer list of tiles than any farm's"))
    try:
        tree = ElementTree.fromstring(reading.content())
    except (ElementTree.ParseError, DefusedXmlException, ValueError) as error:
        found = phrase("is a mosaic that cannot be read: {error}", error=quoted(error))
        raise _refused(reading, found) from error
    tags = [(element.tag.rpartition("}")[2], element) for element in tree.iter()]
    if any(tag in _ORDERS for tag, _ in tags):
        raise _refused(reading, phrase("is a mosaic that carries a program"))
    tiles = [element for tag, element in tags if tag in _SOURCES]
    for tile in tiles:
        name = (tile.text or "").strip()
        is_relative = tile.get("relativeToVRT") == "1" or tile.get("relativetoVRT") == "1"
        if not (is_relative and _is_beside(reading.path.parent, name)):
            raise _refused(reading, phrase("is a mosaic that points to {name}", name=quoted(name)))
    found = phrases(
        "is a mosaic of {count} piece of a file beside it, which the run record leaves out",
        "is a mosaic of {count} pieces of files beside it, which the run record leaves out",
        len(tiles),
    )
    fix = phrase("Keep them together, or save the mosaic as one GeoTIFF")
    reading.add(Outcome.NOTE, "E-RASTER-TILES", WHOLE_FILE, found=found, fix=fix)


def _is_beside(folder: Path, name: str) -> bool:
    """Return whether a name is that of a plain file in the folder that is no pointer itself."""
    paths = (PurePosixPath(name), PureWindowsPath(name))
    if not name or any(path.is_absolute() or path.drive or ".." in path.parts for path in paths):
        return False
    path = folder / name
    return path.is_file() and not head_of(path).lstrip().startswith((b"<", b"{"))


def _refused(reading: Reading, found: str) -> InputError:
    fix = phrase("Save the elevation as one GeoTIFF, or make a mosaic of tiles that lie beside it")
    return reading.refused("E-FILE-POINTER", WHOLE_FILE, found=found, fix=fix)
