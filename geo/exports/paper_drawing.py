"""The drawing of the still version: outlines by class, and what stands in each block."""

from typing import Any

import numpy as np
import shapely
import xarray as xr

from geo.arrays import AnyArray, IntArray
from geo.exports.outlines import inside_circles
from geo.exports.page_classes import CLASS_COLOURS
from geo.exports.sheet_words import shown
from geo.ranking.classes import NOT_KNOWN, hazard_class
from geo.rounds.order import SprayOrder
from geo.season.farm import Farm

# Pixels: as wide as a sheet of A4 between its margins, and no higher than leaves room for words.
WIDTH, HEIGHT = 700.0, 430.0
# Pixels, our own choice: nobody sees less, and with rounding no corner is off by half a pixel.
SLACK = 0.3
# Pixels of a digit of a rank and of a letter of an id, and of the two above each other. What does
# not fit its block, but for these pixels, would lie on its neighbours and is left out.
DIGIT, LETTER, TWO_LINES, SLIGHTLY = 8.5, 6.2, 26.0, 3.0
# Pixels: half the width of a mark, at most.
MARK = 8
TOP, UNKNOWN = "url(#top)", "url(#unknown)"


def paper_drawing(farm: Farm, season: xr.Dataset, spray: SprayOrder) -> dict[str, Any]:
    """
    Return the drawing of a farm.

    Parameters
    ----------
    farm : Farm
        Outlines, in metres.
    season : xarray.Dataset
        Of the disease that is drawn.
    spray : SprayOrder
        Ranks, and what is barred or not worth it.

    Returns
    -------
    dict
        ``width`` and ``height`` [px]; ``outlines``, one path for each class, those of barred
        blocks last, since their rims are thick and must not be covered; ``ranks`` and ``ids``, a
        text with its middle (x, y) each, as far as they fit their blocks, and ``is_whole`` if all
        do; ``bars`` and ``rings``, marks with their middle and half their width.
    """
    # The farm's own metric system is flat enough for a drawing, and north is up.
    west, south, east, north = farm.blocks.total_bounds.tolist()
    scale = min(WIDTH / (east - west), HEIGHT / (north - south))
    shapes = farm.blocks.geometry.to_numpy()
    blocks = [str(block) for block in season["block"].values]
    kinds = 2 * hazard_class(season["hazard_ahead"].values)
    kinds += np.isin(blocks, [entry.block for entry in spray.cannot_now])
    return {
        "width": round((east - west) * scale),
        "height": round((north - south) * scale),
        "outlines": [
            {
                "path": svg_path(shapes[kinds == kind], west=west, north=north, scale=scale),
                "fill": _fill(int(kind) // 2),
                "barred": bool(kind % 2),
            }
            for kind in sorted(np.unique(kinds), key=lambda kind: (kind % 2, kind))
        ],
    } | _labels(blocks, farm, spray, scale)


def _labels(blocks: list[str], farm: Farm, spray: SprayOrder, scale: float) -> dict[str, Any]:
    """Return rank or mark, and id, of each block that they fit."""
    west, _, _, north = farm.blocks.total_bounds.tolist()
    bounds = scale * shapely.bounds(farm.blocks.geometry.to_numpy())
    middles = scale * (inside_circles(farm.blocks.geometry)[:, :2] - [west, north])
    ranks = {entry.block: str(entry.rank) for entry in spray.entries}
    marks = dict.fromkeys([entry.block for entry in spray.cannot_now], "bars")
    marks |= dict.fromkeys([entry.block for entry in spray.not_worth], "rings")
    found: dict[str, list[tuple[object, ...]]] = {"ranks": [], "ids": [], "bars": [], "rings": []}
    is_whole = True
    for block, (wide, high), (x, y) in zip(
        blocks,
        (bounds[:, 2:] - bounds[:, :2] + SLIGHTLY).tolist(),
        np.rint(middles * [1, -1]).astype(int).tolist(),
        strict=True,
    ):
        text, rank = shown(block), ranks.get(block, "")
        has_id = len(text) * LETTER <= wide and high >= TWO_LINES
        above = y - 5 if has_id else y
        if has_id:
            found["ids"].append((text, x, y + 8))
        if block in marks:
            found[marks[block]].append((x, above, min(MARK, round(wide / 3))))
        elif len(rank) * DIGIT <= wide:
            found["ranks"].append((rank, x, above))
        is_whole &= has_id and len(rank) * DIGIT <= wide
    return found | {"is_whole": is_whole}


def svg_path(shapes: AnyArray, *, west: float, north: float, scale: float) -> str:
    """
    Return outlines as the path of one element, in few bytes.

    Parameters
    ----------
    shapes : ndarray
        Polygons or multipolygons [m], any number.
    west, north : float
        [m] The upper left corner of the drawing.
    scale : float
        [px/m] Of the drawing.

    Returns
    -------
    str
        Each ring begins with its place and goes on in steps, in tenths of a pixel. Corners are
        rounded before the steps are taken, so that what is lost in rounding does not add up.

    Notes
    -----
    Outer rings and holes turn opposite ways, so that a non-zero fill leaves holes open and does
    not cancel where two blocks overlap.
    """
    lean = shapely.orient_polygons(shapely.simplify(shapes, SLACK / scale))
    corners, ring = shapely.get_coordinates(
        shapely.get_rings(shapely.get_parts(lean)), return_index=True
    )
    tenths = np.rint((corners - [west, north]) * [10 * scale, -10 * scale]).astype(np.int64)
    steps = np.diff(tenths, axis=0, prepend=0)
    is_first = np.diff(ring, prepend=-1) > 0
    is_last = np.diff(ring, append=-1) != 0
    # The closing corner is left out, and corners that fell on the one before.
    is_kept = is_first | (steps.any(axis=1) & ~is_last)
    numbers = np.where(is_first[:, None], tenths, steps)[is_kept]
    starts = is_first[is_kept]
    before = np.full(numbers.shape, " ", dtype=object)
    before[numbers < 0] = ""
    before[starts, 0] = "zM"
    before[np.roll(starts, 1) & ~starts, 0] = "l"
    tokens = np.stack([before, _written(numbers)], axis=-1).ravel().tolist()
    return "".join([*tokens, "z"]).removeprefix("z")


def _written(tenths: IntArray) -> AnyArray:
    """Return tenths as decimal numbers; each number is put into words only once."""
    values, place = np.unique(tenths, return_inverse=True)
    words = np.array([_decimal(value) for value in values.tolist()], dtype=object)
    return words[place.reshape(tenths.shape)]


def _decimal(tenths: int) -> str:
    text = f"{abs(tenths) / 10:.1f}".removesuffix(".0").removeprefix("0")
    return f"{'-' if tenths < 0 else ''}{text or '0'}"


def _fill(found: int) -> str:
    if found == NOT_KNOWN:
        return UNKNOWN
    return TOP if found == len(CLASS_COLOURS) - 1 else CLASS_COLOURS[found]
