"""A picture with a palette as a PNG file: the one kind the page needs, and nothing but pixels."""

import struct
import zlib

import numpy as np

from geo.arrays import AnyArray

SIGNATURE = b"\x89PNG\r\n\x1a\n"
PALETTE_KIND = 3


def palette_png(places: AnyArray, palette: list[tuple[int, int, int, int]]) -> bytes:
    """
    Return a PNG file.

    Parameters
    ----------
    places : [1]
        Shape (row, column): each pixel's place in the palette.
    palette : list of tuple of int
        Red, green, blue and opacity, 0 to 255; at most 256 colours.

    Returns
    -------
    bytes
        PNG as in the W3C recommendation, third edition: one byte a pixel, no row filter.
    """
    height, width = places.shape
    head = struct.pack(">IIBBBBB", width, height, 8, PALETTE_KIND, 0, 0, 0)
    no_filter = np.zeros((height, 1), dtype=np.uint8)
    rows = np.hstack([no_filter, places.astype(np.uint8)]).tobytes()
    return b"".join(
        [
            SIGNATURE,
            _chunk(b"IHDR", head),
            _chunk(b"PLTE", bytes(part for colour in palette for part in colour[:3])),
            _chunk(b"tRNS", bytes(colour[3] for colour in palette)),
            _chunk(b"IDAT", zlib.compress(rows, 9)),
            _chunk(b"IEND", b""),
        ]
    )


def _chunk(kind: bytes, content: bytes) -> bytes:
    check = zlib.crc32(kind + content)
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", check)
