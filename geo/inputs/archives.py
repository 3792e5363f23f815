"""Does a file unpack to more than it says, or reach outside itself? Then it is not opened."""

import codecs
import re
import stat
import zipfile
from collections.abc import Iterator
from pathlib import PurePosixPath, PureWindowsPath

from geo.errors import InputError, quoted
from geo.inputs.at import WHOLE_FILE, At, at_entry
from geo.inputs.pointers import HEAD_BYTES, head_of, refuse_pointers
from geo.inputs.reading import LARGEST_BYTES, Reading
from geo.texts import phrase

# Our own choice, far above any farm's files: what a packed file may hold.
MOST_ENTRIES, HIGHEST_RATIO = 1000, 100
_SMALL_BYTES = 1_000_000  # so little is no bomb, however well it packs
_MEGABYTE = 1_000_000
_PACKED = {".zip", ".kmz", ".xlsx", ".xlsm", ".gz", ".bz2", ".xz", ".7z", ".rar", ".tar"}
_MARKED_UP = {".xml", ".kml", ".gpx", ".gml", ".rels", ".vml"}
_BLANKS = b" \t\r\n\0\xff\xfe"  # before a first "<", in UTF-16 too
_DEFINED = re.compile(rb"<!\s*(?:DOCTYPE|ENTITY)", re.IGNORECASE)


def refuse_bomb(reading: Reading) -> None:
    """
    Refuse a file that could fill the memory or reach for other files, before anybody opens it.

    Parameters
    ----------
    reading : Reading
        Any file. One that is not packed is only asked for its size, and for definitions of
        entities if it is XML.

    Raises
    ------
    InputError
        With the entry and the limit.
    """
    reading.refuse_large()
    try:
        if zipfile.is_zipfile(reading.path):
            with zipfile.ZipFile(reading.path) as packed:
                _refuse_entries(reading, packed)
            return
        head = head_of(reading.path)
        is_marked_up = head.removeprefix(codecs.BOM_UTF8).lstrip(_BLANKS).startswith(b"<")
        if is_marked_up or reading.path.suffix.lower() in _MARKED_UP:
            _refuse_entities(reading, "", iter([reading.content()]))
    except (zipfile.BadZipFile, RuntimeError, EOFError, OSError) as error:
        found = phrase("cannot be unpacked: {error}", error=quoted(error))
        fix = phrase("Save it again, without a password")
        raise reading.refused("E-PACKED", WHOLE_FILE, found=found, fix=fix) from error


def _refuse_entries(reading: Reading, packed: zipfile.ZipFile) -> None:
    entries = packed.infolist()
    unpacked = sum(entry.file_size for entry in entries)
    whole = sum(entry.compress_size for entry in entries)
    if len(entries) > MOST_ENTRIES:
        found = phrase(
            "{count} entries, {most} are the most", count=len(entries), most=MOST_ENTRIES
        )
        raise _bomb(reading, WHOLE_FILE, found)
    if unpacked > LARGEST_BYTES:
        largest = max(entries, key=lambda entry: entry.file_size)
        found = phrase(
            "unpacks to {size:.0f} MB, most of it {entry}; {most:.0f} MB are the most",
            size=unpacked / _MEGABYTE,
            entry=quoted(largest.filename),
            most=LARGEST_BYTES / _MEGABYTE,
        )
        raise _bomb(reading, WHOLE_FILE, found)
    if unpacked > _SMALL_BYTES and unpacked > HIGHEST_RATIO * max(whole, 1):
        found = phrase(
            "unpacks to {times:.0f} times its size; {most} times is the most",
            times=unpacked / max(whole, 1),
            most=HIGHEST_RATIO,
        )
        raise _bomb(reading, WHOLE_FILE, found)
    for entry in entries:
        _refuse_entry(reading, entry)
        with packed.open(entry) as opened:
            refuse_pointers(reading, opened.read(HEAD_BYTES), at_entry(entry.filename))
        if PurePosixPath(entry.filename).suffix.lower() in _MARKED_UP:
            with packed.open(entry) as opened:
                _refuse_entities(reading, entry.filename, iter(lambda: opened.read(_MEGABYTE), b""))


def _refuse_entry(reading: Reading, entry: zipfile.ZipInfo) -> None:
    name = entry.filename
    at = at_entry(name)
    paths = (PurePosixPath(name), PureWindowsPath(name))
    if any(path.is_absolute() or path.drive or ".." in path.parts for path in paths):
        raise _bomb(reading, at, phrase("leads out of the file"))
    if stat.S_ISLNK(entry.external_attr >> 16):
        raise _bomb(reading, at, phrase("is a link to another file"))
    if PurePosixPath(name).suffix.lower() in _PACKED:
        raise _bomb(reading, at, phrase("is a packed file within a packed file"))


def _refuse_entities(reading: Reading, name: str, chunks: Iterator[bytes]) -> None:
    before = b""
    for chunk in chunks:
        # In UTF-16 every other byte of these letters is nought.
        text = (before + chunk).replace(b"\0", b"")
        if _DEFINED.search(text):
            at = at_entry(name)
            raise _bomb(reading, at, phrase("defines entities, which may unfold without end"))
        before = chunk[-64:]


def _bomb(reading: Reading, at: At, found: str) -> InputError:
    fix = phrase("Save it anew from the program it was drawn or written in")
    return reading.refused("E-PACKED", at, found=found, fix=fix)
