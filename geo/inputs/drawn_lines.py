"""Where do the dams, drains and windbreaks lie that somebody drew?"""

from dataclasses import dataclass

import geopandas as gpd
import numpy as np
import rasterio
import shapely
from rasterio.features import rasterize

from geo.arrays import FloatArray, IntArray
from geo.errors import Outcome
from geo.inputs.at import WHOLE_FILE
from geo.inputs.elevation import Ground
from geo.inputs.places import AIR_KINDS
from geo.inputs.reading import Reading
from geo.texts import phrase


@dataclass(frozen=True, slots=True)
class DrawnLines:
    """
    Pairs of a drawn line and a cell it touches.

    Attributes
    ----------
    cell : numpy.ndarray
        Flat index of the cell.
    is_drain : numpy.ndarray
        1 for a drain, 0 for a dam.
    height : numpy.ndarray
        Height of the dam or depth of the drain, m; NaN where the drawing gives none.
    beyond : int
        Lines that touch no cell of the grid.
    """

    cell: IntArray
    is_drain: IntArray
    height: FloatArray
    beyond: int


@dataclass(frozen=True, slots=True)
class DrawnWindbreaks:
    """
    Straight pieces of windbreaks.

    Attributes
    ----------
    start, end : numpy.ndarray
        Shape (windbreak, 2), east and north, m.
    height : numpy.ndarray
        Of the trees, m; NaN where the drawing gives none.
    porosity : numpy.ndarray
        Share of sky seen through; NaN where the drawing gives none.
    """

    start: FloatArray
    end: FloatArray
    height: FloatArray
    porosity: FloatArray


def drawn_windbreaks(places: gpd.GeoDataFrame) -> DrawnWindbreaks:
    """
    Return windbreaks piece by piece.

    Parameters
    ----------
    places : geopandas.GeoDataFrame
        As read, in metres.

    Returns
    -------
    DrawnWindbreaks
        A piece for each side of each line.
    """
    belts = places[places["kind"] == "windbreak"]
    lines, belt = shapely.get_parts(belts.geometry.to_numpy(), return_index=True)
    corners, line = shapely.get_coordinates(lines, return_index=True)
    is_piece = (line[1:] == line[:-1]) & (corners[1:] != corners[:-1]).any(axis=1)
    whose = belt[line[1:][is_piece]]
    return DrawnWindbreaks(
        corners[:-1][is_piece],
        corners[1:][is_piece],
        belts["height"].to_numpy(dtype=float)[whose],
        belts["porosity"].to_numpy(dtype=float)[whose],
    )


def note_windbreaks(reading: Reading, places: gpd.GeoDataFrame) -> None:
    """
    Say how many windbreaks take wind from the blocks.

    Parameters
    ----------
    reading : Reading
        The places file.
    places : geopandas.GeoDataFrame
        As read from it.
    """
    belts = places[places["kind"] == "windbreak"]
    if belts.empty:
        return
    unknown = int(belts[["height", "porosity"]].isna().any(axis=1).sum())
    found = phrase(
        "windbreaks that take wind from the blocks behind them: {count}", count=len(belts)
    )
    if unknown:
        found = phrase(
            "windbreaks that take wind from the blocks behind them: {count}; {unknown} without a "
            "height or porosity, so that the usual one is assumed",
            count=len(belts),
            unknown=unknown,
        )
    fix = phrase("Nothing, or write height_m and porosity (0 closed, 1 open) of each")
    reading.add(Outcome.NOTE, "E-WINDBREAKS", WHOLE_FILE, found=found, fix=fix)


def drawn_lines(places: gpd.GeoDataFrame, ground: Ground) -> DrawnLines:
    """
    Return how dams and drains lie on the grid.

    Parameters
    ----------
    places : geopandas.GeoDataFrame
        As read, in the grid's system.
    ground : Ground
        The grid.

    Returns
    -------
    DrawnLines
        With every cell that a line touches, so that no air slips through between two of them.
    """
    lines = places[places["kind"].isin(AIR_KINDS)]
    cells = [_touched(line, ground) for line in lines.geometry]
    counts = [touched.size for touched in cells]
    return DrawnLines(
        np.concatenate([np.empty(0, dtype=np.int64), *cells]),
        np.repeat((lines["kind"] == "drain").to_numpy().astype(np.int64), counts),
        np.repeat(lines["height"].to_numpy(dtype=float), counts),
        counts.count(0),
    )


def note_lines(reading: Reading, places: gpd.GeoDataFrame, lines: DrawnLines) -> None:
    """
    Say how many dams and drains cold air meets.

    Parameters
    ----------
    reading : Reading
        The places file.
    places : geopandas.GeoDataFrame
        As read from it.
    lines : DrawnLines
        How they lie on the grid.
    """
    drawn = places[places["kind"].isin(AIR_KINDS)]
    if drawn.empty:
        return
    counts = [
        phrase("{count} of kind {kind}", count=int((drawn["kind"] == kind).sum()), kind=kind)
        for kind in AIR_KINDS
    ]
    clauses = [phrase("lines that cold air meets: {kinds}", kinds=", ".join(counts))]
    unknown = int(drawn["height"].isna().sum())
    if unknown:
        clauses.append(
            phrase(
                "{count} without a height or depth, so that the usual one is assumed",
                count=unknown,
            )
        )
    if lines.beyond:
        clauses.append(phrase("{count} beyond the elevation file", count=lines.beyond))
    found = "; ".join(clauses)
    fix = phrase("Nothing, or write height_m of a dam and depth_m of a drain")
    reading.add(Outcome.NOTE, "E-DRAWN-LINES", WHOLE_FILE, found=found, fix=fix)


def _touched(line: object, ground: Ground) -> IntArray:
    corner = (ground.cell_width, 0.0, ground.west, 0.0, -ground.cell_height, ground.north)
    burnt = rasterize(
        [(line, 1)],
        out_shape=ground.grid.shape,
        transform=rasterio.Affine(*corner),
        all_touched=True,
        dtype=np.uint8,
    )
    return np.flatnonzero(burnt)
